import { finishAfter, nextWorking, NEVER, type WorkingTime } from './working-time.ts'

/**
 * When somebody is busy: intervals in order, apart. Those with no working time between them are one, so that a full week
 * is a single interval. Kept as two arrays that are emptied for every schedule.
 */
export interface Timetable {
  starts: Int32Array
  ends: Int32Array
  count: number
}

export const createTimetable = (): Timetable => ({
  starts: new Int32Array(64),
  ends: new Int32Array(64),
  count: 0,
})

/**
 * First start from `tick` up to `latest` at which `work` ticks of working time fit between what is there already; NEVER
 * when there is none. Costs a bisection and a walk over the gaps that are too short.
 */
export const firstFit = (
  table: Timetable,
  time: WorkingTime,
  tick: number,
  work: number,
  latest: number,
): number => {
  const { starts, ends, count } = table
  let start = nextWorking(time, tick)
  for (let at = firstEndAfter(table, start); at < count && start <= latest; at += 1) {
    if (finishAfter(time, start, work) <= (starts[at] as number)) return start
    start = nextWorking(time, Math.max(start, ends[at] as number))
  }
  return start > latest || finishAfter(time, start, work) === NEVER ? NEVER : start
}

export const isFree = (table: Timetable, start: number, finish: number): boolean => {
  const at = firstEndAfter(table, start)
  return at === table.count || (table.starts[at] as number) >= finish
}

/** End of the busy interval that reaches past `tick` first; `tick` when nothing follows. */
export const busyUntil = (table: Timetable, tick: number): number => {
  const at = firstEndAfter(table, tick)
  return at === table.count ? tick : (table.ends[at] as number)
}

/** The interval must be free. `time` says what lies between it and its neighbours: the person's own, or that of more people. */
export const occupy = (table: Timetable, time: WorkingTime, start: number, finish: number): void => {
  const { starts, ends } = table
  const at = firstEndAfter(table, start)
  const joinsBefore = at > 0 && hasNoWork(time, ends[at - 1] as number, start)
  const joinsAfter = at < table.count && hasNoWork(time, finish, starts[at] as number)
  if (joinsBefore && joinsAfter) {
    ends[at - 1] = ends[at] as number
    remove(table, at)
  } else if (joinsBefore) ends[at - 1] = finish
  else if (joinsAfter) starts[at] = start
  else insert(table, at, start, finish)
}

/** Takes back what was occupied. */
export const release = (table: Timetable, start: number, finish: number): void => {
  const at = firstEndAfter(table, start)
  const from = table.starts[at] as number
  const to = table.ends[at] as number
  remove(table, at)
  if (finish < to) insert(table, at, finish, to)
  if (from < start) insert(table, at, from, start)
}

const hasNoWork = ({ done }: WorkingTime, from: number, to: number): boolean => done[from] === done[to]

/** Index of the first interval that ends after `tick`. */
const firstEndAfter = ({ ends, count }: Timetable, tick: number): number => {
  let low = 0
  let high = count
  while (low < high) {
    const middle = (low + high) >> 1
    if ((ends[middle] as number) > tick) high = middle
    else low = middle + 1
  }
  return low
}

const insert = (table: Timetable, at: number, start: number, finish: number): void => {
  if (table.count === table.starts.length) grow(table)
  table.starts.copyWithin(at + 1, at, table.count)
  table.ends.copyWithin(at + 1, at, table.count)
  table.starts[at] = start
  table.ends[at] = finish
  table.count += 1
}

const remove = (table: Timetable, at: number): void => {
  table.starts.copyWithin(at, at + 1, table.count)
  table.ends.copyWithin(at, at + 1, table.count)
  table.count -= 1
}

const grow = (table: Timetable): void => {
  const starts = new Int32Array(table.starts.length * 2)
  const ends = new Int32Array(table.ends.length * 2)
  starts.set(table.starts)
  ends.set(table.ends)
  table.starts = starts
  table.ends = ends
}
