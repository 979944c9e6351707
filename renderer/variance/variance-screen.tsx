import { useQuery } from '@tanstack/react-query'
import { Link, useSearch } from '@tanstack/react-router'
import type { VisitId } from '../../domain/ids.ts'
import { varianceTable } from '../../domain/report/variance-table.ts'
import { fixed, hours } from '../../domain/text/words.ts'
import type { VarianceLine, VarianceView } from '../../domain/views/variance-shapes.ts'
import { api } from '../client.ts'
import { HoursLegend } from '../parts/hours/hours-bar.tsx'
import { Loaded } from '../parts/frame/loaded.tsx'
import { EmptyState } from '../parts/form/notice.tsx'
import { type Figure, ScreenHead } from '../parts/frame/screen-head.tsx'
import type { VarianceSheet } from '../parts/sheets/variance-sheets.ts'
import { DrillSheet } from './drill-sheet.tsx'
import { Losses } from './losses.tsx'
import { ReworkCauses } from './rework-causes.tsx'
import { signedHours } from '../parts/hours/signed-hours.ts'
import { TableView } from './table-view.tsx'
import { VarianceLines } from './variance-lines.tsx'
import { VarianceTabs } from './variance-tabs.tsx'

/** Where hours are lost: earned less spent, compared by one thing at a time. */
export function VarianceScreen() {
  const query = useQuery(api.variance.queryOptions())
  return (
    <div className="stack">
      <Loaded query={query}>{(view) => <Variance view={view} />}</Loaded>
    </div>
  )
}

const SHEET_WORDS: Readonly<Record<VarianceSheet, { readonly title: string; readonly noun: string }>> = {
  gate: { title: 'By gate', noun: 'gate' },
  type: { title: 'By repair type', noun: 'type' },
  car: { title: 'By car', noun: 'car and visit' },
  zone: { title: 'By zone of the shell', noun: 'side and place' },
  month: { title: 'By month', noun: 'accepted, done or worked in' },
  person: { title: 'By person', noun: 'person' },
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
      return view.byMonth.toReversed()
    case 'person':
      return view.byPerson ?? []
  }
}

function Variance({ view }: { readonly view: VarianceView }) {
  const { by = 'gate', key, visit } = useSearch({ from: '/variance' })
  if (view.byCar.every(({ hours: pair }) => pair.authorised === 0 && pair.spent === 0))
    return (
      <>
        <ScreenHead title="Variance" />
        <EmptyState
          title="Nothing to compare yet"
          action={
            <Link to="/cars" className="button main">
              Choose a car to begin with
            </Link>
          }
        >
          This page shows where the hours went: by gate, by kind of repair, by car. Variance is earned less
          spent. It starts when an estimate is accepted on a car, time is logged on its gates, and the first
          gate is passed.
        </EmptyState>
      </>
    )
  const isHidden = by === 'person' && view.byPerson === null
  return (
    <>
      <TotalHead total={view.total} />
      {key === undefined || isHidden ? (
        <Comparison view={view} by={by === 'cause' || isHidden ? 'gate' : by} />
      ) : (
        <DrillSheet by={by} of={key} visitId={visit as VisitId | undefined} />
      )}
    </>
  )
}

function TotalHead({ total }: Pick<VarianceView, 'total'>) {
  const { hours: pair, variance, expected, atCompletion } = total
  return (
    <ScreenHead
      title="Variance"
      below="Hours against the estimate, over all cars and visits."
      figures={[
        { label: 'earned of authorised', value: `${fixed(pair.earned, 0)} of ${hours(pair.authorised, 0)}` },
        { label: 'spent', value: hours(pair.spent, 0) },
        { label: 'earned less spent', value: signedHours(variance, 0), ...toneOf(variance) },
        { label: 'expected at completion', value: hours(expected, 0), ...toneOf(atCompletion) },
      ]}
    />
  )
}

/** Whole hours are shown. */
const toneOf = (value: number): Pick<Figure, 'tone'> => (Math.round(value) < 0 ? { tone: 'accent' } : {})

function Comparison({ view, by }: { readonly view: VarianceView; readonly by: VarianceSheet }) {
  const { as } = useSearch({ from: '/variance' })
  const table = as === 'table' ? varianceTable(view, by) : null
  return (
    <>
      <Losses losses={view.losses} />
      <div className="stack-tight">
        <VarianceTabs current={by} showsPeople={view.byPerson !== null} as={as} />
        <p className="quiet">{view.compares[by === 'car' ? 'visit' : by]}</p>
        <p className="row small">
          <Link
            to="/variance"
            search={{ by, ...(as === undefined && { as: 'table' as const }) }}
            replace
            activeOptions={{ exact: true }}
          >
            {as === undefined ? 'all figures as a table' : 'as a picture'}
          </Link>
          <a href={`/variance/${by}.csv`} download>
            save as CSV
          </a>
          <a href="/variance/all.xlsx" download>
            save all as a workbook (XLSX)
          </a>
        </p>
      </div>
      {table === null ? <Picture view={view} by={by} /> : <TableView table={table} />}
      <ReworkCauses causes={view.rework} />
    </>
  )
}

function Picture({ view, by }: { readonly view: VarianceView; readonly by: VarianceSheet }) {
  const { title, noun } = SHEET_WORDS[by]
  const lines = linesOf(view, by)
  const tasks = lines.filter((line) => !isOfRepairs(line))
  return (
    <>
      <VarianceLines title={title} by={by} lines={lines.filter(isOfRepairs)} noun={noun} />
      {tasks.length > 0 && (
        <VarianceLines title="Tasks" by={by} lines={tasks} noun="all that belongs to no repair" />
      )}
      <HoursLegend />
    </>
  )
}

/** Tasks (strip, jig, paint the shell) would dwarf every gate on one scale, so they are drawn on their own. */
const isOfRepairs = (line: VarianceLine): boolean => line.key !== 'tasks'

const worstFirst = <T extends VarianceLine>(lines: readonly T[]): readonly T[] =>
  lines.toSorted((a, b) => a.variance - b.variance)
