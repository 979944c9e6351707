import { pinClashes } from '../../domain/plan/check.ts'
import type { Problem } from '../../domain/plan/problem.ts'
import type { Schedule } from '../../domain/plan/schedule.ts'
import { scoreSchedule } from './score-schedule.ts'

/** What plans are compared by, in this order; less is better. */
export type Figures = readonly [missedBookings: number, lateness: number, moves: number, end: number]

export function figuresOf(problem: Problem, schedule: Schedule): Figures {
  const { lateness, moves, end } = scoreSchedule(problem, schedule)
  const missed = pinClashes(problem, schedule).filter(({ kind }) => kind === 'booking')
  return [missed.length, lateness, moves, end]
}

export function isBetter(one: Figures, other: Figures): boolean {
  const at = one.findIndex((figure, index) => figure !== other[index])
  return at >= 0 && one[at]! < other[at]!
}
