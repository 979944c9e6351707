import { dayWords } from '../text/words.ts'
import { localDateOf, localYearOf } from '../time/zone.ts'
import { nameList } from '../views/work-words.ts'
import { TICK_MS } from './build/tick-scale.ts'
import type { BuiltProblem } from './build-problem.ts'
import { pinClashes } from './check.ts'
import type { PlanFault, PlannedWork } from './plan.ts'
import type { Schedule } from './schedule.ts'

/**
 * What a schedule could not do: work that found no place before the horizon, pins that it does not keep, and cars that it
 * does not move out of where it brings another.
 */
export function scheduleFaults(
  built: BuiltProblem,
  schedule: Schedule,
  starts: readonly PlannedWork['why'][],
): readonly PlanFault[] {
  return [
    ...missingFaults(built, schedule),
    ...pinFaults(built, schedule, starts),
    ...inTheWayFaults(built, schedule),
  ]
}

export const isMissing = ({ placed }: Schedule, index: number): boolean => (placed[index] ?? null) === null

/** One fault a car: what could have been placed by what comes before it, and was not. */
function missingFaults(built: BuiltProblem, schedule: Schedule): readonly PlanFault[] {
  const { problem, work } = built
  const follows = new Set(
    problem.links.filter(({ before }) => isMissing(schedule, before)).map(({ after }) => after),
  )
  const missing = [...work.entries()].filter(([index]) => isMissing(schedule, index) && !follows.has(index))
  return [...Map.groupBy(missing, ([, { carId }]) => carId)].map(([carId, own]) => ({
    code: 'too long',
    carId,
    words: `${nameList(
      own.map(([, { name }]) => name),
      NAMED,
    )}: found no place before ${dayAt(built, problem.horizon - 1)}, with all that follows.`,
    next: 'Look at the hours, at what it waits for and at its bay, or bring in more people.',
  }))
}

/** More names than this say no more. */
const NAMED = 3

function pinFaults(
  built: BuiltProblem,
  schedule: Schedule,
  starts: readonly PlannedWork['why'][],
): readonly PlanFault[] {
  return pinClashes(built.problem, schedule).flatMap((clash): PlanFault[] => {
    if (clash.kind === 'day') return dayFault(built, schedule, starts, clash.activity)
    return bookingFault(built, clash.car, clash.booking)
  })
}

function dayFault(
  built: BuiltProblem,
  schedule: Schedule,
  starts: readonly PlannedWork['why'][],
  activity: number,
): PlanFault[] {
  const work = built.work[activity]
  const start = schedule.placed[activity]?.start
  const pinned = built.problem.activities[activity]?.latestStart ?? null
  if (work === undefined || start === undefined || pinned === null) return []
  const why = starts[activity]?.words ?? ''
  const words = `${work.name} is pinned to ${dayAt(built, pinned)} and starts on ${dayAt(built, start)}.`
  return [
    {
      code: 'pins clash',
      carId: work.carId,
      words: why === '' ? words : `${words} It ${why}.`,
      next: 'Pin it to a later day, or change the pin or booking that is in its way.',
    },
  ]
}

/** Bookings of cars that are not in work hold their bays and bring nobody. */
function bookingFault(built: BuiltProblem, car: number, booking: number): PlanFault[] {
  const { problem, carIds, cars, bayNames } = built
  const booked = problem.cars[car]?.bookings[booking]
  const carId = carIds[car]
  if (booked === undefined || carId === undefined || !built.work.some((work) => work.carId === carId))
    return []
  const words = `${bayNames[booked.bay]} is booked for ${cars[car]?.name} from ${dayAt(built, booked.from)}, and it is not there that day.`
  return [
    {
      code: 'pins clash',
      carId,
      words,
      next: 'Change or cancel the booking, or change the pin or booking that keeps it elsewhere.',
    },
  ]
}

/** Only cars with work in bays are moved by a plan: what else stands in a bay is told when another is brought there. */
function inTheWayFaults(built: BuiltProblem, { stays }: Schedule): readonly PlanFault[] {
  return built.idle.flatMap(({ carId, name, bay }): PlanFault[] => {
    const others = stays.filter((stay) => stay.bay === bay && built.carIds[stay.car] !== carId)
    const first = others.toSorted((a, b) => a.from - b.from)[0]
    if (first === undefined) return []
    const other = built.cars[first.car]?.name ?? 'another car'
    return [
      {
        code: 'in the way',
        carId,
        words: `It stands in ${built.bayNames[bay]} with no work there to plan, and the plan brings ${other} there on ${dayAt(built, first.from)}.`,
        next: `Move ${name} out by then, or add the work that it still needs there.`,
      },
    ]
  })
}

/** 'Thu 26 Nov', with the year where it is not that of now. */
function dayAt({ origin, zone }: BuiltProblem, tick: number): string {
  return dayWords(localDateOf(origin + tick * TICK_MS, zone), localYearOf(origin, zone))
}
