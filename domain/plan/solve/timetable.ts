import { finishAfter, nextWorking, NEVER, type WorkingTime } from './working-time.ts'

/** When somebody is busy: intervals in order, apart. Kept as two arrays that are emptied for every schedule. */
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
 * First start at or after `tick` at which `work` ticks of working time fit between what is there already; NEVER when
 * none does before the horizon. Costs a bisection and a walk over the gaps that are too short.
 */
export const firstFit = (table: Timetable, time: WorkingTime, tick: number, work: number): number => {
  const { starts, ends, count } = table
  let start = nextWorking(time, tick)
  for (let at = firstEndAfter(table, start); at < count; at += 1) {
    if (start === NEVER || finishAfter(time, start, work) <= (starts[at] as number)) return start
    start = nextWorking(time, Math.max(start, ends[at] as number))
  }
  return start === NEVER || finishAfter(time, start, work) === NEVER ? NEVER : start
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

/** The interval must be free. */
export const occupy = (table: Timetable, start: number, finish: number): void => {
  if (table.count === table.starts.length) grow(table)
  const { starts, ends } = table
  let at = table.count
  for (; at > 0 && (starts[at - 1] as number) >= finish; at -= 1) {
    starts[at] = starts[at - 1] as number
    ends[at] = ends[at - 1] as number
  }
  starts[at] = start
  ends[at] = finish
  table.count += 1
}

/** Takes an interval back; it must be there. */
export const release = (table: Timetable, start: number): void => {
  const at = table.starts.indexOf(start)
  table.starts.copyWithin(at, at + 1, table.count)
  table.ends.copyWithin(at, at + 1, table.count)
  table.count -= 1
}

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

const grow = (table: Timetable): void => {
  const starts = new Int32Array(table.starts.length * 2)
  const ends = new Int32Array(table.ends.length * 2)
  starts.set(table.starts)
  ends.set(table.ends)
  table.starts = starts
  table.ends = ends
}
