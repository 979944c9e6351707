import { checkSchedule } from '../../domain/plan/check.ts'
import type { Activity, Crew, PlanBay, PlanCar, PlanPerson, Problem } from '../../domain/plan/problem.ts'
import type { Move, Placement, Schedule, Stay } from '../../domain/plan/schedule.ts'

/** Ticks of a local day in small problems; a real one has 288. */
export const DAY = 100

/** Ten days, everybody always at work, and nothing to plan. Moving a shell takes nobody and no time. */
export const planProblem = (over: Partial<Problem> = {}): Problem => ({
  horizon: 10 * DAY,
  midnights: Array.from({ length: 11 }, (_, day) => day * DAY),
  calendars: [{ spans: [{ from: 0, to: 10 * DAY }] }],
  people: [],
  bays: [],
  resources: [],
  cars: [],
  activities: [],
  links: [],
  stands: [],
  apart: [],
  spans: [],
  move: { work: 0, people: 0, able: [] },
  ...over,
})

/** At work from tick 20 to 60 of each of the ten days. */
export const shifts = (from = 20, to = 60) => ({
  spans: Array.from({ length: 10 }, (_, day) => ({ from: day * DAY + from, to: day * DAY + to })),
})

/** Ten ticks that need neither car, bay nor people. */
export const activity = (over: Partial<Activity> = {}): Activity => ({
  work: 10,
  earliest: 0,
  latestStart: null,
  car: null,
  bayKind: null,
  crew: null,
  watch: 0,
  uses: [],
  tail: 0,
  repair: 0,
  first: null,
  inForce: null,
  ...over,
})

/** One person of those who may do it. */
export const crewOf = (able: readonly number[], over: Partial<Crew> = {}): Crew => ({
  people: 1,
  able,
  named: [],
  ...over,
})

/** Stands in bay 0, is promised for nothing, closed and not braced. */
export const planCar = (over: Partial<PlanCar> = {}): PlanCar => ({
  due: null,
  weight: 1,
  bay: 0,
  arrives: 0,
  braced: false,
  bookings: [],
  ...over,
})

export const planBay = (over: Partial<PlanBay> = {}): PlanBay => ({
  kinds: [0],
  places: 1,
  storage: false,
  ...over,
})

export const planYard = (): PlanBay => ({ kinds: [], places: 99, storage: true })

export const planPerson = (over: Partial<PlanPerson> = {}): PlanPerson => ({ calendar: 0, ...over })

export const schedule = (over: Partial<Schedule> = {}): Schedule => ({
  placed: [],
  stays: [],
  moves: [],
  ...over,
})

/** Ten ticks unless said otherwise, by nobody and in no bay. */
export const placement = (start: number, over: Partial<Placement> = {}): Placement => ({
  start,
  finish: start + 10,
  crew: [],
  bay: null,
  ...over,
})

export const stay = (car: number, bay: number, from: number, to: number): Stay => ({ car, bay, from, to })

export const move = (
  car: number,
  from: number | null,
  to: number,
  [start, finish]: readonly [start: number, finish: number],
  crew: readonly number[] = [],
): Move => ({ car, from, to, start, finish, crew })

/** What is wrong with a schedule. Each case keeps all rules, or breaks the rule that it is about and no other. */
export const faults = (problem: Problem, over: Partial<Schedule>): readonly string[] =>
  checkSchedule(problem, schedule(over))
