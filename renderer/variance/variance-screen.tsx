import { useQuery } from '@tanstack/react-query'
import { fixed, hours } from '../../domain/text/words.ts'
import type { VarianceLine, VarianceView } from '../../domain/views/view-shapes.ts'
import { api } from '../client.ts'
import { HoursLegend } from '../parts/hours-bar.tsx'
import { Loaded } from '../parts/loaded.tsx'
import { EmptyState } from '../parts/notice.tsx'
import { ScreenHead } from '../parts/screen-head.tsx'
import { ReworkCauses } from './rework-causes.tsx'
import { VarianceLines } from './variance-lines.tsx'

/** Where hours are lost: earned less spent by car, by repair type and by gate, worst first. */
export function VarianceScreen() {
  const query = useQuery(api.variance.queryOptions())
  return (
    <div className="stack">
      <Loaded query={query}>{(view) => <Variance view={view} />}</Loaded>
    </div>
  )
}

function Variance({ view }: { readonly view: VarianceView }) {
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
      <VarianceLines title="By gate" lines={view.byGate.filter(isOfRepairs)} noun="gate" />
      <VarianceLines title="By repair type" lines={view.byType.filter(isOfRepairs)} noun="type" />
      <VarianceLines
        title="Tasks"
        lines={view.byGate.filter((line) => !isOfRepairs(line))}
        noun="all that belongs to no repair"
      />
      <VarianceLines title="By car" lines={worstFirst(view.byCar)} noun="car and visit" />
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
