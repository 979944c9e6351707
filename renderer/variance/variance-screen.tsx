import { useQuery } from '@tanstack/react-query'
import { Link, useSearch } from '@tanstack/react-router'
import { fixed, hours } from '../../domain/text/words.ts'
import type { VarianceLine, VarianceView } from '../../domain/views/view-shapes.ts'
import { api } from '../client.ts'
import { HoursLegend } from '../parts/hours-bar.tsx'
import { Loaded } from '../parts/loaded.tsx'
import { EmptyState } from '../parts/notice.tsx'
import { ScreenHead } from '../parts/screen-head.tsx'
import { VARIANCE_SHEETS, type VarianceSheet } from '../parts/variance-sheets.ts'
import { ReworkCauses } from './rework-causes.tsx'
import { VarianceLines } from './variance-lines.tsx'

/** Where hours are lost: earned less spent, compared by one thing at a time. */
export function VarianceScreen() {
  const query = useQuery(api.variance.queryOptions())
  return (
    <div className="stack">
      <Loaded query={query}>{(view) => <Variance view={view} />}</Loaded>
    </div>
  )
}

const SHEET_WORDS: Readonly<
  Record<VarianceSheet, { readonly tab: string; readonly title: string; readonly noun: string }>
> = {
  gate: { tab: 'Gates', title: 'By gate', noun: 'gate' },
  type: { tab: 'Repair types', title: 'By repair type', noun: 'type' },
  car: { tab: 'Cars', title: 'By car', noun: 'car and visit' },
  zone: { tab: 'Zones', title: 'By zone of the shell', noun: 'side and place' },
  month: { tab: 'Months', title: 'By month', noun: 'accepted, done or worked in' },
  person: { tab: 'People', title: 'By person', noun: 'person' },
}

function linesOf(view: VarianceView, by: VarianceSheet): readonly VarianceLine[] {
  switch (by) {
    case 'gate':
      return view.byGate
    case 'type':
      return view.byType
    case 'car':
      return worstFirst(view.byCar)
    case 'zone':
      return view.byZone
    case 'month':
      return view.byMonth
    case 'person':
      return view.byPerson ?? []
  }
}

function Variance({ view }: { readonly view: VarianceView }) {
  const { by: asked = 'gate' } = useSearch({ from: '/variance' })
  const by = asked === 'person' && view.byPerson === null ? 'gate' : asked
  const { title, noun } = SHEET_WORDS[by]
  const lines = linesOf(view, by)
  const total = sumOf(view.byCar)
  if (view.byCar.every(({ hours: pair }) => pair.authorised === 0 && pair.spent === 0))
    return (
      <>
        <ScreenHead title="Variance" />
        <EmptyState title="Nothing to compare yet">
          Variance is earned less spent. It starts when an estimate is accepted on a car, time is logged on
          its gates, and the first gate is passed.
        </EmptyState>
      </>
    )
  return (
    <>
      <ScreenHead
        title="Variance"
        below="Hours against the estimate. A gate earns its authorised hours when it is passed; variance is earned less spent."
        figures={[
          {
            label: 'earned of authorised',
            value: `${fixed(total.earned, 0)} of ${hours(total.authorised, 0)}`,
          },
          { label: 'spent', value: hours(total.spent, 0) },
          {
            label: 'variance',
            value: signed(total.earned - total.spent),
            ...(total.earned < total.spent ? { tone: 'accent' as const } : {}),
          },
        ]}
      />
      <nav className="tabs" aria-label="What hours are compared by">
        {VARIANCE_SHEETS.filter((each) => each !== 'person' || view.byPerson !== null).map((each) => (
          <Link
            key={each}
            to="/variance"
            search={each === 'gate' ? {} : { by: each }}
            replace
            activeOptions={{ includeSearch: true, exact: true }}
            {...(each === by && { 'aria-current': 'page' as const })}
          >
            {SHEET_WORDS[each].tab}
          </Link>
        ))}
      </nav>
      <VarianceLines title={title} lines={lines.filter(isOfRepairs)} noun={noun} />
      {lines.some((line) => !isOfRepairs(line)) && (
        <VarianceLines
          title="Tasks"
          lines={lines.filter((line) => !isOfRepairs(line))}
          noun="all that belongs to no repair"
        />
      )}
      <HoursLegend />
      <ReworkCauses causes={view.rework} />
    </>
  )
}

/** Tasks (strip, jig, paint the shell) would dwarf every gate on one scale, so they are drawn on their own. */
const isOfRepairs = (line: VarianceLine): boolean => line.key !== 'tasks'

const worstFirst = (lines: readonly VarianceLine[]): readonly VarianceLine[] =>
  lines.toSorted((a, b) => a.variance - b.variance)

const sumOf = (lines: readonly VarianceLine[]) => ({
  authorised: lines.reduce((sum, line) => sum + line.hours.authorised, 0),
  earned: lines.reduce((sum, line) => sum + line.hours.earned, 0),
  spent: lines.reduce((sum, line) => sum + line.hours.spent, 0),
})

const signed = (value: number): string => `${value < 0 ? '−' : '+'}${hours(Math.abs(value))}`
