import type { Crew, Problem } from '../problem.ts'
import { createCrewTimes, type CrewTimes, finishAfter, type RepeatedTime } from './crew-time.ts'
import type { FrozenItem, FrozenOrder } from './frozen-order.ts'

/**
 * Plays a plan's order through for many samples of the work at once; gives the finishes of an item, one tick a sample. In
 * the order of the planned starts each item begins as soon as what it waits for is done, and whoever of those who can do
 * it would finish it first does it. Kept to their planned crews, people would wait for each other as they never do in a
 * workshop. Against planning each sample anew, 20 cars over four months then ended two to three weeks too late; as it is,
 * one to five days.
 *
 * @param fill the sampled work of an activity, one entry a sample; moves take as long as planned
 */
export function replay(
  problem: Problem,
  { items, before, order }: FrozenOrder,
  samples: number,
  fill: (activity: number, work: Int32Array) => void,
): (item: number) => Int32Array {
  const times = createCrewTimes(problem)
  const free = problem.people.map(() => new Int32Array(samples))
  const all = new Int32Array(items.length * samples)
  const finishes = (item: number): Int32Array => all.subarray(item * samples, (item + 1) * samples)
  const work = new Int32Array(samples)
  const ready = new Int32Array(samples)
  for (const index of order) {
    const item = items[index] as FrozenItem
    if (index < problem.activities.length) fill(index, work)
    else work.fill(item.work)
    ready.fill(item.from)
    for (const each of before[index] ?? []) waitFor(ready, finishes(each.item), each.lag)
    give(item, { ready, work, finishes: finishes(index), free, times })
  }
  return finishes
}

/** One entry a sample in each row. */
interface Rows {
  readonly ready: Int32Array
  readonly work: Int32Array
  readonly finishes: Int32Array
  /** By person: when they have done all that came before. */
  readonly free: readonly Int32Array[]
  readonly times: CrewTimes
}

function waitFor(ready: Int32Array, finishes: Int32Array, lag: number): void {
  for (let sample = 0; sample < ready.length; sample += 1) {
    const tick = (finishes[sample] as number) + lag
    if (tick > (ready[sample] as number)) ready[sample] = tick
  }
}

function give({ crew, watch }: FrozenItem, rows: Rows): void {
  if (crew === null) return runThrough(rows)
  if (crew.people === 1) return giveToOne(workersFor(crew, watch, rows), rows)
  const time = rows.times(crew, watch)
  if (time !== null) giveToSeveral(crew, time, rows)
}

/** Work without people goes on through nights. */
function runThrough({ ready, work, finishes }: Rows): void {
  for (let sample = 0; sample < ready.length; sample += 1)
    finishes[sample] = (ready[sample] as number) + (work[sample] as number)
}

interface Worker {
  readonly time: RepeatedTime
  readonly free: Int32Array
}

function workersFor(crew: Crew, watch: number, { free, times }: Rows): readonly Worker[] {
  return (crew.named.length > 0 ? crew.named : shortlist(crew.able, free)).flatMap((person) => {
    const time = times({ people: 1, able: [person], named: [] }, watch)
    return time === null ? [] : [{ time, free: free[person] as Int32Array }]
  })
}

/** Of many who are able, those who are free soonest in the last sample; in a workshop of a dozen that is everybody. */
function shortlist(able: readonly number[], free: readonly Int32Array[]): readonly number[] {
  if (able.length <= SHORTLIST) return able
  const freeAt = (person: number): number => free[person]?.at(-1) ?? 0
  return able.toSorted((a, b) => freeAt(a) - freeAt(b)).slice(0, SHORTLIST)
}

const SHORTLIST = 8

/** To whom would finish it first; of equals to who is free last, so that the other one can begin something else. */
function giveToOne(workers: readonly Worker[], { ready, work, finishes }: Rows): void {
  for (let sample = 0; sample < ready.length; sample += 1) {
    const tick = ready[sample] as number
    let best = workers[0] as Worker
    let finish = Infinity
    for (let at = 0; at < workers.length; at += 1) {
      const worker = workers[at] as Worker
      const freeAt = worker.free[sample] as number
      if (freeAt >= finish) continue
      const own = finishAfter(worker.time, Math.max(tick, freeAt), work[sample] as number)
      if (own > finish || (own === finish && freeAt <= (best.free[sample] as number))) continue
      best = worker
      finish = own
    }
    finishes[sample] = finish
    best.free[sample] = finish
  }
}

/** Who is named and who is free soonest; their working time is that of any so many of those who are able. */
function giveToSeveral(
  { people, able, named }: Crew,
  time: RepeatedTime,
  { ready, work, finishes, free }: Rows,
): void {
  const others = shortlist(
    able.filter((person) => !named.includes(person)),
    free,
  )
  const chosen = [...named]
  for (let sample = 0; sample < ready.length; sample += 1) {
    let start = ready[sample] as number
    chosen.length = named.length
    while (chosen.length < people) chosen.push(soonest(others, chosen, free, sample, start))
    for (const person of chosen) start = Math.max(start, (free[person] as Int32Array)[sample] as number)
    const finish = finishAfter(time, start, work[sample] as number)
    finishes[sample] = finish
    for (const person of chosen) (free[person] as Int32Array)[sample] = finish
  }
}

/** Of those who are free at `tick` who became so last, else who is free first. */
function soonest(
  people: readonly number[],
  chosen: readonly number[],
  free: readonly Int32Array[],
  sample: number,
  tick: number,
): number {
  let best = -1
  let bestAt = 0
  for (const person of people) {
    if (chosen.includes(person)) continue
    const at = (free[person] as Int32Array)[sample] as number
    const isSooner = at <= tick ? bestAt > tick || at > bestAt : at < bestAt
    if (best !== -1 && !isSooner) continue
    best = person
    bestAt = at
  }
  return best
}
