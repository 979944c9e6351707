import type { Stay } from '../schedule.ts'
import type { Compiled } from './compile.ts'
import { NEVER, nextWorking } from './working-time.ts'

interface Placed {
  readonly starts: Int32Array
  readonly finishes: Int32Array
  readonly crewOffsets: Int32Array
  readonly crewItems: Int32Array
}

/** Reckons lateness, moves, end and changes of what a generator has placed; see Score for their meaning. */
export interface Reckoning {
  readonly score: Float64Array
  readonly reckon: (moves: number, stays: readonly Stay[]) => void
}

export function createReckoning(compiled: Compiled, placed: Placed): Reckoning {
  const { size, horizon, problem, tail, car } = compiled
  const { finishes } = placed
  const { cars } = problem
  const score = new Float64Array(4)
  const carFinish = new Int32Array(cars.length)
  const inForce = changeable(compiled)
  const days = problem.activities.flatMap(({ latestStart }, activity) =>
    latestStart === null ? [] : [{ activity, latestStart }],
  )
  const bookings = expectedStays(compiled)

  const missedPins = (stays: readonly Stay[]): number => {
    let missed = 0
    for (const { activity, latestStart } of days)
      if ((placed.starts[activity] as number) > latestStart) missed += 1
    for (const { car: of, bay, from, last } of bookings)
      if (!stays.some((stay) => stay.car === of && stay.bay === bay && stay.from < last && stay.to > from))
        missed += 1
    return missed
  }

  const reckon = (moves: number, stays: readonly Stay[]): void => {
    let end = 0
    let unplaced = 0
    carFinish.fill(0)
    for (let activity = 0; activity < size; activity += 1) {
      const finish = finishes[activity] as number
      if (finish === NEVER) unplaced += 1
      const done = finish === NEVER ? 2 * horizon : finish + (tail[activity] as number)
      if (done > end) end = done
      const of = car[activity] as number
      if (of >= 0 && done > (carFinish[of] as number)) carFinish[of] = done
    }
    let lateness = 0
    for (let index = 0; index < cars.length; index += 1) {
      const { due, weight } = cars[index] as (typeof cars)[number]
      if (due !== null) lateness += weight * Math.max(0, (carFinish[index] as number) - due)
    }
    score[0] = lateness + unplaced * NOT_PLACED + missedPins(stays) * NOT_KEPT
    score[1] = moves
    score[2] = end
    score[3] = inForce.reduce(
      (count, each) => count + (isChanged(each, placed, problem.midnights) ? 1 : 0),
      0,
    )
  }
  return { score, reckon }
}

/** Added to the lateness for each piece of work that is not placed, so that leaving work out never pays in a search. */
export const NOT_PLACED = 1e12

/** Added for each pinned day and each booking that is not kept, so that neither is given up for being sooner. */
export const NOT_KEPT = 1e9

/** Less is better in the first figure that differs: below 0 when `a` is better. */
export const compareScores = (a: ArrayLike<number>, b: ArrayLike<number>): number => {
  for (let index = 0; index < a.length; index += 1)
    if (a[index] !== b[index]) return (a[index] as number) - (b[index] as number)
  return 0
}

/** Bookings with the tick by which the car should be there: the midnight after anybody has worked since they begin. */
const expectedStays = ({ problem, horizon, times }: Compiled) =>
  problem.cars.flatMap((each, car) =>
    each.bookings.map(({ bay, from, to }) => {
      const begun = problem.people.map((_, person) => nextWorking(times.of(person, 0), Math.max(0, from)))
      const midnight = problem.midnights.find((tick) => tick > Math.min(horizon, ...begun)) ?? horizon
      return { car, bay, from, last: Math.min(to, midnight) }
    }),
  )

interface InForce {
  readonly activity: number
  readonly day: number
  readonly crew: readonly number[]
}

const changeable = ({ problem }: Compiled): readonly InForce[] =>
  problem.activities.flatMap(({ inForce }, activity) =>
    inForce === null ? [] : [{ activity, day: dayOf(problem.midnights, inForce.start), crew: inForce.crew }],
  )

const isChanged = (
  { activity, day, crew }: InForce,
  { starts, crewOffsets, crewItems }: Placed,
  midnights: readonly number[],
): boolean => {
  if (dayOf(midnights, starts[activity] as number) !== day) return true
  const from = crewOffsets[activity] as number
  const count = (crewOffsets[activity + 1] as number) - from
  if (count !== crew.length) return true
  for (let at = from; at < from + count; at += 1) if (!crew.includes(crewItems[at] as number)) return true
  return false
}

/** Index of the local day that a tick lies in. */
const dayOf = (midnights: readonly number[], tick: number): number => {
  let low = 0
  let high = midnights.length
  while (low < high) {
    const middle = (low + high) >> 1
    if ((midnights[middle] as number) <= tick) low = middle + 1
    else high = middle
  }
  return low
}
