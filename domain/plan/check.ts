import { checkFloor } from './check/floor.ts'
import { checkResources, checkStands } from './check/held.ts'
import { checkLinks, checkPeople, checkWork } from './check/work.ts'
import { createJointTime } from './check/working-time.ts'
import type { Problem } from './problem.ts'
import type { Schedule } from './schedule.ts'

/**
 * Every rule that a schedule breaks, each in a plain sentence with the numbers of the problem; none when it is feasible.
 * Written for clarity and apart from the solver, so that an error in one does not hide in the other. Work that is not
 * placed, missed pins and the order of first work are no breach. Throws on a person or calendar that does not exist.
 */
export function checkSchedule(problem: Problem, schedule: Schedule): readonly string[] {
  if (schedule.placed.length !== problem.activities.length)
    return [`The schedule answers ${schedule.placed.length} activities of ${problem.activities.length}.`]
  const joint = createJointTime(problem)
  return [
    ...checkWork(problem, schedule, joint),
    ...checkLinks(problem, schedule),
    ...checkPeople(problem, schedule),
    ...checkFloor(problem, schedule, joint),
    ...checkStands(problem, schedule),
    ...checkResources(problem, schedule),
  ]
}

/** A pin that the schedule does not keep. */
export type PinClash =
  | { readonly kind: 'day'; readonly activity: number }
  | { readonly kind: 'booking'; readonly car: number; readonly booking: number }

/**
 * Work that starts after its pinned day, and bookings whose car is not in the bay by the end of the first day from the
 * booking's start on that anybody works. Work that is not placed at all is not named here.
 */
export function pinClashes(problem: Problem, schedule: Schedule): readonly PinClash[] {
  const days = problem.activities.flatMap(({ latestStart }, activity): PinClash[] => {
    const placement = schedule.placed[activity] ?? null
    const isMissed = latestStart !== null && placement !== null && placement.start > latestStart
    return isMissed ? [{ kind: 'day', activity }] : []
  })
  const bookings = problem.cars.flatMap((car, index) =>
    car.bookings.flatMap(({ bay, from, to }, booking): PinClash[] => {
      const last = Math.min(to, endOfFirstDay(problem, from))
      const isKept = schedule.stays.some(
        (stay) => stay.car === index && stay.bay === bay && stay.from < last && stay.to > from,
      )
      return isKept ? [] : [{ kind: 'booking', car: index, booking }]
    }),
  )
  return [...days, ...bookings]
}

/** Midnight after the first tick from `tick` on at which anybody works; with nobody ever, after `tick` itself. */
function endOfFirstDay({ calendars, people, midnights }: Problem, tick: number): number {
  const starts = people.flatMap(({ calendar }) =>
    (calendars[calendar]?.spans ?? []).filter(({ to }) => to > tick).map(({ from }) => Math.max(from, tick)),
  )
  const first = starts.length === 0 ? tick : Math.min(...starts)
  return midnights.find((midnight) => midnight > first) ?? Infinity
}
