import type { BuiltProblem } from '../build-problem.ts'
import type { Problem } from '../problem.ts'
import type { Move, Placement, Schedule } from '../schedule.ts'
import { createWorkingTimes, nextTogether, type WorkingTimes } from '../solve/working-time.ts'
import { type Bound, createMomentWords } from './bound.ts'

/** A schedule laid out for looking back from any start. */
export interface ToldSchedule {
  readonly built: BuiltProblem
  readonly problem: Problem
  readonly schedule: Schedule
  readonly at: (tick: number) => string
  /** 'Sill, left: welded' of the same car, 'Sill, left: welded on Marrick' of another or without one. */
  readonly work: (activity: number, car?: number | null) => string
  readonly car: (car: number) => string
  readonly bay: (bay: number) => string
  /** What these people do last before `start`, and until when. */
  readonly peopleBefore: (crew: readonly number[], start: number, car: number | null) => readonly Bound[]
  /** First tick from `tick` on at which all of the crew are at work. */
  readonly atWork: (crew: readonly number[], watch: number, tick: number) => number
  /** Whether anybody works in [from, to). */
  readonly doesAnybodyWork: (from: number, to: number) => boolean
}

export function tellSchedule(built: BuiltProblem, schedule: Schedule): ToldSchedule {
  const { problem, cars, bayNames } = built
  const at = createMomentWords(built)
  const times = createWorkingTimes(problem)
  const carName = (car: number): string => cars[car]?.name ?? 'a car'
  const bayName = (bay: number): string => bayNames[bay] ?? 'a bay'
  const work = (activity: number, car: number | null = null): string => {
    const name = built.work[activity]?.name ?? ''
    const own = problem.activities[activity]?.car ?? null
    return own === null || own === car ? name : `${name} on ${carName(own)}`
  }
  const busy = busyTimes(problem, schedule)
  const told = (item: Item, car: number | null): string =>
    item.move === null
      ? work(item.activity, car)
      : `moving ${carName(item.move.car)} to ${bayName(item.move.to)}`
  return {
    built,
    problem,
    schedule,
    at,
    work,
    car: carName,
    bay: bayName,
    peopleBefore: (crew, start, car) =>
      crew.flatMap((person): Bound[] => {
        const item = lastBefore(busy[person] ?? [], start)
        if (item === null) return []
        const words = (): string =>
          `waits for ${built.personNames[person] ?? 'somebody'} until ${at(item.finish)}, first on ${told(item, car)}`
        return [{ tick: item.finish, reason: 'people', words }]
      }),
    atWork: (crew, watch, tick) =>
      nextTogether(
        crew.map((person) => times.of(person, watch)),
        crew.length,
        tick,
      ),
    doesAnybodyWork: (from, to) => doesAnybodyWork(problem, times, from, to),
  }
}

interface Item {
  readonly start: number
  readonly finish: number
  readonly activity: number
  readonly move: Move | null
}

/** By person: what takes them time, in order. */
function busyTimes({ people }: Problem, { placed, moves }: Schedule): readonly (readonly Item[])[] {
  const busy = people.map((): Item[] => [])
  const add = (
    { start, finish, crew }: Pick<Placement, 'start' | 'finish' | 'crew'>,
    item: Omit<Item, 'start' | 'finish'>,
  ) => {
    if (start < finish) for (const person of crew) busy[person]?.push({ ...item, start, finish })
  }
  placed.forEach((placement, activity) => placement !== null && add(placement, { activity, move: null }))
  for (const move of moves) add(move, { activity: -1, move })
  return busy.map((items) => items.toSorted((a, b) => a.start - b.start))
}

/** The last that is finished by `tick`. */
function lastBefore(items: readonly Item[], tick: number): Item | null {
  let low = 0
  let high = items.length
  while (low < high) {
    const middle = (low + high) >> 1
    if ((items[middle] as Item).finish <= tick) low = middle + 1
    else high = middle
  }
  return items[low - 1] ?? null
}

const doesAnybodyWork = ({ people }: Problem, times: WorkingTimes, from: number, to: number): boolean =>
  people.some((_, person) => {
    const { done } = times.of(person, 0)
    return (done[to] as number) > (done[from] as number)
  })
