import { keepPreviousData, useQuery } from '@tanstack/react-query'
import { Link, useNavigate, useSearch } from '@tanstack/react-router'
import type { BandsWhen } from '../../domain/facts/agreement-facts.ts'
import type { WereWeRightView } from '../../domain/views/were-we-right-shapes.ts'
import { USEFUL_FROM } from '../../domain/views/were-we-right-words.ts'
import { api } from '../client.ts'
import { ChoiceRow } from '../parts/form/inputs.tsx'
import { Loaded } from '../parts/frame/loaded.tsx'
import { EmptyState, Notice } from '../parts/form/notice.tsx'
import { ScreenHead } from '../parts/frame/screen-head.tsx'
import type { JudgedLast } from '../parts/sheets/variance-sheets.ts'
import { AccuracyFigure } from './were-we-right-figure.tsx'
import { AccuracyTable } from './were-we-right-table.tsx'
import { VarianceTabs } from './variance-tabs.tsx'

/** Were the hours that were said beforehand right: of the last finished repairs, by type and by estimator. */
export function WereWeRightScreen() {
  const { when = 'accepted', last = '50' } = useSearch({ from: '/variance/were-we-right' })
  const query = useQuery(
    api.wereWeRight.queryOptions(
      { when, last: last === 'all' ? null : Number(last) },
      { placeholderData: keepPreviousData },
    ),
  )
  return (
    <div className="stack">
      <Loaded query={query}>{(view) => <WereWeRight view={view} last={last} />}</Loaded>
    </div>
  )
}

function WereWeRight({ view, last }: { readonly view: WereWeRightView; readonly last: JudgedLast }) {
  return (
    <>
      <ScreenHead
        title="Were we right"
        below="The hours that were said beforehand, against those that repairs took once they were finished."
      />
      <VarianceTabs current="were we right" showsPeople={view.byEstimator !== null} />
      {view.stated + view.unstated === 0 ? (
        <EmptyState
          title="No repair is finished yet"
          action={
            <Link to="/owner-decisions" className="button main">
              Estimates that wait for their owner
            </Link>
          }
        >
          What is said of a repair’s hours is kept when its estimate is accepted, and again when it is
          reviewed after assessing. Once repairs are finished, this page tells how often that was right. The
          figures become useful from {USEFUL_FROM} repairs on.
        </EmptyState>
      ) : (
        <Judged view={view} last={last} />
      )}
    </>
  )
}

const WHEN_WORDS: Readonly<Record<BandsWhen, string>> = {
  accepted: 'said before opening',
  assessed: 'said once assessed',
}
const LAST_WORDS: Readonly<Record<JudgedLast, string>> = {
  '20': 'the last 20',
  '50': 'the last 50',
  all: 'all',
}

function Judged({ view, last }: { readonly view: WereWeRightView; readonly last: JudgedLast }) {
  const navigate = useNavigate()
  const show = (search: { readonly when: BandsWhen; readonly last: JudgedLast }) =>
    void navigate({ to: '/variance/were-we-right', search, replace: true })
  const { when } = view
  return (
    <>
      <div className="row">
        <ChoiceRow
          label="What is judged"
          choices={choicesOf(WHEN_WORDS)}
          value={when}
          onChange={(next) => show({ when: next, last })}
        />
        <ChoiceRow
          label="How many repairs"
          choices={choicesOf(LAST_WORDS)}
          value={last}
          onChange={(next) => show({ when, last: next })}
        />
      </div>
      {view.few !== null && <Notice>{view.few}</Notice>}
      {view.unstated > 0 && (
        <p className="small quiet">
          {view.unstated === 1 ? '1 more repair is' : `${view.unstated} more repairs are`} finished of which
          no hours were {WHEN_WORDS[when]}.
        </p>
      )}
      {view.stated > 0 && <AccuracyFigure view={view} />}
      <AccuracyTable title="By repair type" lines={view.byType} />
      {view.byEstimator !== null && view.byEstimator.length > 0 && (
        <AccuracyTable title="By who estimated" lines={view.byEstimator} />
      )}
    </>
  )
}

const choicesOf = <Value extends string>(words: Readonly<Record<Value, string>>) =>
  (Object.keys(words) as Value[]).map((value) => ({ value, words: words[value] }))
