import type { Moment } from '../car.ts'
import { MS_PER_HOUR } from '../time/zone.ts'
import type { BuiltProblem, BuiltWork } from './build-problem.ts'
import { TICK_MS } from './build/tick-scale.ts'
import type { FinishLikelihood } from './likelihood.ts'
import type { Plan, PlannedCar, PlannedMove, PlannedStay, PlannedWork } from './plan.ts'
import { isMissing, scheduleFaults } from './schedule-faults.ts'
import type { Placement, Schedule, Score, Stay } from './schedule.ts'

/** What is known of a schedule beside itself. */
export interface ScheduleTold {
  /** By activity. */
  readonly starts: readonly PlannedWork['why'][]
  /** By car, null for one that cannot be reckoned; null as a whole while none is. */
  readonly likelihood: readonly (FinishLikelihood | null)[] | null
  readonly score: Score
  readonly now: Moment
}

/**
 * A schedule read back into the workshop's terms. Work that was not placed, and pins that are not kept, are told as faults
 * beside those of the problem.
 */
export function planFromSchedule(built: BuiltProblem, schedule: Schedule, told: ScheduleTold): Plan {
  const at = (tick: number): Moment => built.origin + tick * TICK_MS
  return {
    madeAt: told.now,
    work: built.work.flatMap((work, index) => {
      const placement = schedule.placed[index] ?? null
      return placement === null ? [] : [plannedWork(built, work, placement, startOf(told, index), at)]
    }),
    stays: schedule.stays.filter(({ from, to }) => to > from).map((stay) => plannedStay(built, stay, at)),
    moves: schedule.moves.map(({ car, from, to, start, finish, crew }): PlannedMove => ({
      carId: known(built.carIds, car),
      from: from === null ? null : known(built.bayIds, from),
      to: known(built.bayIds, to),
      start: at(start),
      finish: at(finish),
      people: crew.map((person) => known(built.personIds, person)),
    })),
    cars: plannedCars(built, schedule, told, at),
    faults: [...built.faults, ...scheduleFaults(built, schedule, told.starts)],
    score: {
      latenessHours: (told.score.lateness * TICK_MS) / MS_PER_HOUR,
      moves: told.score.moves,
      end: at(Math.min(told.score.end, built.problem.horizon)),
      changes: told.score.changes,
    },
  }
}

const startOf = ({ starts }: ScheduleTold, index: number): PlannedWork['why'] =>
  starts[index] ?? { reason: 'now', words: '' }

function plannedWork(
  built: BuiltProblem,
  { carId, visitId, target, hours, begun, pinned }: BuiltWork,
  { start, finish, crew, bay }: Placement,
  { reason, words }: PlannedWork['why'],
  at: (tick: number) => Moment,
): PlannedWork {
  return {
    carId,
    visitId,
    target,
    start: at(start),
    finish: at(finish),
    people: crew.map((person) => known(built.personIds, person)),
    bayId: bay === null ? null : known(built.bayIds, bay),
    hours,
    begun,
    pinned,
    why: { reason, words },
  }
}

/** A stay keeps the booking of its car in its bay that it meets. */
function plannedStay(
  built: BuiltProblem,
  { car, bay, from, to }: Stay,
  at: (tick: number) => Moment,
): PlannedStay {
  const own = built.problem.cars[car]?.bookings ?? []
  const kept = own.findIndex((each) => each.bay === bay && each.from < to && from < each.to)
  return {
    carId: known(built.carIds, car),
    bayId: known(built.bayIds, bay),
    from: at(from),
    to: at(to),
    bookingId: built.bookingIds[car]?.[kept] ?? null,
  }
}

/** Cars with work, in the problem's order. A car of which some work is not planned has no finish. */
function plannedCars(
  built: BuiltProblem,
  schedule: Schedule,
  { likelihood }: ScheduleTold,
  at: (tick: number) => Moment,
): PlannedCar[] {
  const driverOf = new Map(built.problem.activities.map(({ repair }, index) => [repair, index]))
  return built.carIds.flatMap((carId, car): PlannedCar[] => {
    const facts = built.cars[car]
    const visitId = built.visitIds[car] ?? null
    const hasWork = facts?.whole === false || built.work.some((work) => work.carId === carId)
    if (facts === undefined || visitId === null || !hasWork) return []
    const finish = facts.whole ? finishOf(built, schedule, car) : null
    const likely = finish === null ? null : (likelihood?.[car] ?? null)
    return [
      {
        carId,
        visitId,
        promised: facts.promised,
        priority: facts.priority,
        finish: finish === null ? null : at(finish),
        finish50: likely === null ? null : at(Math.round(likely.finish50)),
        finish80: likely === null ? null : at(Math.round(likely.finish80)),
        drivers: (likely?.drivers ?? [])
          .slice(0, MOST_DRIVERS)
          .map(({ repair, share }) => ({ name: driverName(built, car, driverOf.get(repair) ?? -1), share })),
      },
    ]
  })
}

const MOST_DRIVERS = 3

/** The last finish with its curing; null when anything is not placed. */
function finishOf({ problem }: BuiltProblem, schedule: Schedule, car: number): number | null {
  let last = 0
  for (const [index, activity] of problem.activities.entries()) {
    if (activity.car !== car) continue
    if (isMissing(schedule, index)) return null
    last = Math.max(last, (schedule.placed[index]?.finish ?? 0) + activity.tail)
  }
  return last
}

/** A repair by its name alone: 'Sill, left'; one of another car, which has people or the bay before, with that car's. */
function driverName({ work, carIds, cars }: BuiltProblem, car: number, index: number): string {
  const { name = '', target, carId } = work[index] ?? {}
  const own = target?.kind === 'gate' ? name.slice(0, -`: ${target.gate}`.length) : name
  const other = carIds.findIndex((id) => id === carId)
  return other === car ? own : `${own} of ${cars[other]?.name}`
}

function known<T>(all: readonly T[], index: number): T {
  const one = all[index]
  if (one === undefined) throw new Error(`The schedule names number ${index} of ${all.length}.`)
  return one
}
