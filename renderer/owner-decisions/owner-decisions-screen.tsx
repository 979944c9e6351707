import { useQuery } from '@tanstack/react-query'
import { Link } from '@tanstack/react-router'
import { hours, plural } from '../../domain/text/words.ts'
import { daysBetween } from '../../domain/time/local-date.ts'
import type { OwnerDecisionsView, VariationView } from '../../domain/views/view-shapes.ts'
import { api } from '../client.ts'
import { Loaded } from '../parts/frame/loaded.tsx'
import { EmptyState } from '../parts/form/notice.tsx'
import { type Figure, ScreenHead } from '../parts/frame/screen-head.tsx'
import { VariationCard } from '../parts/variation/variation-card.tsx'
import { useWhen, type When } from '../parts/frame/when.tsx'
import { AnsweredList } from './answered-list.tsx'
import styles from './owner-decisions.module.css'
import { UnacceptedList } from './unaccepted-list.tsx'

/** What payers still have to decide on all cars, what was declined and needs the manager, and what was answered. */
export function OwnerDecisionsScreen() {
  const query = useQuery(api.ownerDecisions.queryOptions())
  return <Loaded query={query}>{(view) => <OwnerDecisions view={view} />}</Loaded>
}

function OwnerDecisions({ view }: { readonly view: OwnerDecisionsView }) {
  const when = useWhen()
  const { open, declined, unaccepted, answered } = view
  return (
    <div className="stack">
      <ScreenHead
        title="Owner decisions"
        below="Work beyond what is authorised waits until its payer has answered."
        figures={figuresOf(view, when)}
      />
      <div className={styles.page}>
        <div className="stack">
          <section className="stack" aria-labelledby="open">
            <h2 id="open">Waiting for an answer</h2>
            {open.length === 0 && <NothingWaits isNew={answered.length + declined.length === 0} />}
            {open.map((variation) => (
              <Waiting key={variation.id} variation={variation} />
            ))}
          </section>
          {declined.length > 0 && (
            <section className="stack" aria-labelledby="declined">
              <h2 id="declined">Declined: your choice</h2>
              <p className="quiet">
                The workshop pays, less work is done, it is closed as found, or the car stops. Until you
                choose, the work stays held.
              </p>
              {declined.map((variation) => (
                <VariationCard key={variation.id} variation={variation} isCarNamed />
              ))}
            </section>
          )}
        </div>
        <aside className={`stack ${styles.side}`} aria-label="Estimates and earlier answers">
          <UnacceptedList unaccepted={unaccepted} />
          <AnsweredList answered={answered} />
        </aside>
      </div>
    </div>
  )
}

/** How long it has waited stands in the margin. */
function Waiting({ variation }: { readonly variation: VariationView }) {
  const when = useWhen()
  const days = daysOpen(variation, when)
  return (
    <div className={styles.waiting}>
      <p className={styles.days}>
        <span className="figure">{days}</span>
        <span className="small quiet">{days === 1 ? 'day' : 'days'} open</span>
      </p>
      <VariationCard variation={variation} isCarNamed />
    </div>
  )
}

function NothingWaits({ isNew }: { readonly isNew: boolean }) {
  return (
    <EmptyState
      title="No decision is open"
      action={
        isNew && (
          <Link to="/cars" className="button">
            Choose a car
          </Link>
        )
      }
    >
      When more turns up than the estimate holds, raise a variation on the car, under Owner decisions: its
      reason, its photos and its hours then stand here until the payer has answered.
    </EmptyState>
  )
}

function figuresOf({ open, declined, unaccepted }: OwnerDecisionsView, when: When): readonly Figure[] {
  const sum = open.reduce((total, variation) => total + variation.hours, 0)
  const longest = Math.max(0, ...open.map((variation) => daysOpen(variation, when)))
  const notAccepted = unaccepted.reduce((total, each) => total + each.hours, 0)
  return [
    {
      label: 'waiting for an answer',
      value: open.length === 0 ? 'nothing' : `${plural('decision', open.length)}, ${hours(sum)}`,
      ...(open.length > 0 && { tone: 'accent' }),
    },
    ...(open.length > 0 ? [{ label: 'the oldest', value: plural('day', longest) }] : []),
    ...(declined.length > 0
      ? [{ label: 'declined, for you', value: declined.length, tone: 'accent' as const }]
      : []),
    { label: 'estimates not accepted', value: hours(notAccepted) },
  ]
}

const daysOpen = ({ raised }: VariationView, when: When): number =>
  Math.max(0, daysBetween(when.dateOf(raised), when.today))
