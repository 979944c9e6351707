import type { Activity, Problem } from '../problem.ts'
import { createPersonBits, type PersonBits } from './person-bits.ts'
import { createWorkingTimes, type WorkingTimes } from './working-time.ts'

/** A problem laid out for the inner loops: one typed array a property, rows of varying length as offsets into one array. */
export interface Compiled {
  readonly problem: Problem
  readonly size: number
  readonly horizon: number
  readonly work: Int32Array
  readonly earliest: Int32Array
  readonly tail: Int32Array
  readonly repair: Int32Array
  /** -1 when the activity belongs to no car, or needs no bay, or nobody. */
  readonly car: Int32Array
  readonly bayKind: Int32Array
  readonly crewSize: Int32Array
  readonly successors: Rows
  readonly predecessors: Rows
  /** Lags beside the predecessors' rows. */
  readonly lags: Int32Array
  /** The stand that an activity opens or closes; -1 for none. */
  readonly opens: Int32Array
  readonly closes: Int32Array
  /** By stand: those that may not be open with it. */
  readonly apart: Rows
  readonly spansOf: Rows
  /** Placed before all others, in this order. */
  readonly firstOrder: Int32Array
  readonly times: WorkingTimes
  readonly bits: PersonBits
}

/** Row r is `items[offsets[r]]` up to, not including, `items[offsets[r + 1]]`. */
export interface Rows {
  readonly offsets: Int32Array
  readonly items: Int32Array
}

/** Lays a problem out once for all schedules; times are ticks. Work in a circle of links must be left out before. */
export function compile(problem: Problem): Compiled {
  const { activities, links, horizon } = problem
  const size = activities.length
  const incoming = group(links, size, (link) => link.after)
  return {
    problem,
    size,
    horizon,
    work: column(activities, (each) => each.work),
    earliest: column(activities, (each) => Math.max(0, each.earliest)),
    tail: column(activities, (each) => each.tail),
    repair: column(activities, (each) => each.repair),
    car: column(activities, (each) => each.car ?? -1),
    bayKind: column(activities, (each) => each.bayKind ?? -1),
    crewSize: column(activities, (each) => each.crew?.people ?? 0),
    successors: rows(group(links, size, (link) => link.before).map((row) => row.map((link) => link.after))),
    predecessors: rows(incoming.map((row) => row.map((link) => link.before))),
    lags: Int32Array.from(incoming.flatMap((row) => row.map((link) => link.lag))),
    opens: inverse(
      size,
      problem.stands.map((stand) => stand.from),
    ),
    closes: inverse(
      size,
      problem.stands.map((stand) => stand.until),
    ),
    apart: rows(partners(problem)),
    spansOf: rows(spansByActivity(problem)),
    firstOrder: Int32Array.from(firstOnes(activities)),
    times: createWorkingTimes(problem),
    bits: createPersonBits(problem),
  }
}

/** One row for each list, in their order. */
export const rows = (lists: readonly (readonly number[])[]): Rows => {
  const offsets = new Int32Array(lists.length + 1)
  lists.forEach((list, row) => (offsets[row + 1] = (offsets[row] as number) + list.length))
  return { offsets, items: Int32Array.from(lists.flat()) }
}

const column = (activities: readonly Activity[], read: (each: Activity) => number): Int32Array =>
  Int32Array.from(activities, read)

const group = <T>(items: readonly T[], size: number, row: (item: T) => number): readonly T[][] => {
  const grouped = Array.from({ length: size }, (): T[] => [])
  for (const item of items) grouped[row(item)]?.push(item)
  return grouped
}

const inverse = (size: number, activities: readonly (number | null)[]): Int32Array => {
  const byActivity = new Int32Array(size).fill(-1)
  activities.forEach((activity, index) => {
    if (activity !== null) byActivity[activity] = index
  })
  return byActivity
}

const partners = ({ stands, apart }: Problem): readonly number[][] => {
  const byStand = stands.map((): number[] => [])
  for (const [a, b] of apart) {
    byStand[a]?.push(b)
    byStand[b]?.push(a)
  }
  return byStand
}

const spansByActivity = ({ activities, spans }: Problem): readonly number[][] => {
  const byActivity = activities.map((): number[] => [])
  spans.forEach((span, index) => span.activities.forEach((activity) => byActivity[activity]?.push(index)))
  return byActivity
}

const firstOnes = (activities: readonly Activity[]): readonly number[] =>
  activities
    .flatMap(({ first }, index) => (first === null ? [] : [{ first, index }]))
    .toSorted((a, b) => a.first - b.first || a.index - b.index)
    .map(({ index }) => index)

export const rowLength = ({ offsets }: Rows, row: number): number =>
  (offsets[row + 1] as number) - (offsets[row] as number)

/** Where each row begins when rows have these lengths. */
export const offsetsOf = (lengths: Int32Array): Int32Array => {
  const offsets = new Int32Array(lengths.length + 1)
  for (let row = 0; row < lengths.length; row += 1)
    offsets[row + 1] = (offsets[row] as number) + (lengths[row] as number)
  return offsets
}

/** Where a column has this value. */
export const indicesOf = (column: Int32Array, value: number): readonly number[] =>
  Array.from(column.keys()).filter((index) => column[index] === value)
