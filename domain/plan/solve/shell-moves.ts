import type { Choices } from './choices.ts'
import { type Compiled, indicesOf, rows } from './compile.ts'
import type { Floor } from './floor.ts'
import { inLinkOrder, kindsAhead } from './link-order.ts'
import type { Held } from './stands.ts'
import { NEVER } from './working-time.ts'

/** What the generator knows of the work while it places it. */
export interface WorkState {
  /** NEVER while the activity may not come yet, cannot come at all, or is placed. */
  readonly openFrom: (activity: number) => number
  readonly isPlaced: (activity: number) => boolean
  /** Whether one piece of the car's work in bays is left. */
  readonly isLastInBay: (car: number) => boolean
  /** When it would be done if it were placed from `tick` on; NEVER when it could not be. */
  readonly finishFrom: (activity: number, tick: number) => number
}

/** When a shell is moved: into a bay for its next work, out of it to make room, and never while it can work on. */
export interface ShellMoves {
  /** False when the activity has to wait, because its shell cannot be where it needs to be yet. */
  readonly bringFor: (activity: number, bound: number) => boolean
  /** Brings whatever car the search wants in its next bay before the activity is placed. */
  readonly fetchBefore: (activity: number) => void
  /** The stay turned out too short for the activity, because the bay is booked for another. */
  readonly stayIsTooShort: (activity: number) => void
  /** Puts a car in the yard; false when it cannot be moved or there is no yard. */
  readonly giveWay: (car: number) => boolean
  /** True when the shell stands where it can do nothing more until it is moved. */
  readonly isStuck: (car: number) => boolean
  readonly clear: () => void
}

/** Days before it is needed that a car is fetched from the yard, because people may be busy or away. */
const DAYS_BACK_BEFORE = 3

export function createShellMoves(
  compiled: Compiled,
  { floor, held, choices, work }: { floor: Floor; held: Held; choices: Choices; work: WorkState },
): ShellMoves {
  const { problem, size, car, bayKind } = compiled
  const workOfCar = rows(problem.cars.map((_, index) => indicesOf(car, index)))
  const linked = Array.from(inLinkOrder(compiled))
  const bayWork = problem.cars.map((_, of) =>
    linked.filter((a) => car[a] === of && (bayKind[a] as number) >= 0),
  )
  const leadsTo = kindsAhead(compiled)
  const backBefore = DAYS_BACK_BEFORE * dayLength(problem)
  /** By car: which stay this is. */
  const stay = new Int32Array(problem.cars.length)
  /** By activity: the stay that is too short for it. */
  const tooShort = new Int32Array(size)
  const hasYielded = new Uint8Array(problem.cars.length)
  /** By activity: whether its car has looked for another bay for it. */
  const hasFetched = new Uint8Array(size)
  const hasChanged = new Uint8Array(size)

  /** Work in the bay, or on the bench ahead of work in it. */
  const isForBay = (activity: number, bay: number): boolean => {
    const kind = bayKind[activity] as number
    return kind >= 0
      ? floor.suits(bay, kind)
      : (leadsTo[activity] as number[]).some((each) => floor.suits(bay, each))
  }

  /** Earliest bound of what could be placed where the shell stands; NEVER when there is nothing. */
  const soonestHere = (of: number): number => {
    let soonest = NEVER
    for (let at = workOfCar.offsets[of] as number; at < (workOfCar.offsets[of + 1] as number); at += 1) {
      const activity = workOfCar.items[at] as number
      if (tooShort[activity] === stay[of] || !isForBay(activity, floor.bay[of] as number)) continue
      soonest = Math.min(soonest, work.openFrom(activity))
    }
    return soonest
  }

  const movableFrom = (of: number): number => (problem.cars[of]?.braced === true ? 0 : held.closedAt(of))

  /** True when all that could be placed where the shell stands could be placed in the other bay too. */
  const losesNothing = (of: number, other: number): boolean => {
    for (let at = workOfCar.offsets[of] as number; at < (workOfCar.offsets[of + 1] as number); at += 1) {
      const activity = workOfCar.items[at] as number
      if (tooShort[activity] === stay[of] || !isForBay(activity, floor.bay[of] as number)) continue
      if (!isForBay(activity, other) && work.openFrom(activity) !== NEVER) return false
    }
    return true
  }

  const bring = (activity: number, bound: number): boolean => {
    const of = car[activity] as number
    const kind = bayKind[activity] as number
    if (!floor.hasFree(kind, of) && !(choices.claims[activity] === 1 && claim(of, kind))) return false
    const closed = movableFrom(of)
    if (closed === NEVER) return false
    const needed = hasYielded[of] === 1 ? bound - backBefore : 0
    const doneFrom = (tick: number): number => work.finishFrom(activity, Math.max(bound, tick))
    const isLast = work.isLastInBay(of)
    if (!floor.bring(of, { kind, ready: Math.max(closed, needed), doneFrom, isLast, mayBe: losesNothing }))
      return false
    hasYielded[of] = 0
    stay[of] = (stay[of] as number) + 1
    return true
  }

  const giveWay = (of: number, anywhere: boolean): boolean => {
    const closed = movableFrom(of)
    if (closed === NEVER || !floor.park(of, closed, anywhere)) return false
    hasYielded[of] = 1
    stay[of] = (stay[of] as number) + 1
    return true
  }

  /** Sends the car to the yard that is ready soonest of those in bays of this kind. */
  const claim = (of: number, kind: number): boolean => {
    let sent = -1
    for (let bay = 0; bay < problem.bays.length; bay += 1) {
      const other = floor.holder[bay] as number
      if (other < 0 || other === of || !floor.suits(bay, kind) || movableFrom(other) === NEVER) continue
      if (sent < 0 || (floor.busyTo[other] as number) < (floor.busyTo[sent] as number)) sent = other
    }
    return sent >= 0 && giveWay(sent, true)
  }

  /** The car's first work in a bay that is not placed, in the order of its links; -1 for none. */
  const nextInBay = (of: number): number =>
    (bayWork[of] as readonly number[]).find((activity) => !work.isPlaced(activity)) ?? -1

  return {
    bringFor: (activity, bound) => {
      const of = car[activity] as number
      const isHere =
        tooShort[activity] !== stay[of] && floor.suits(floor.bay[of] as number, bayKind[activity] as number)
      if (!isHere) return bring(activity, bound)
      const isToChange = choices.elsewhere[activity] === 1 && hasChanged[activity] === 0
      hasChanged[activity] = 1
      if (isToChange) bring(activity, bound)
      return true
    },
    fetchBefore: (activity) => {
      const of = (choices.fetches[activity] as number) - 1
      if (of < 0 || hasFetched[activity] === 1) return
      hasFetched[activity] = 1
      const next = nextInBay(of)
      if (next < 0 || floor.suits(floor.bay[of] as number, bayKind[next] as number)) return
      bring(next, 0)
    },
    stayIsTooShort: (activity) => {
      tooShort[activity] = stay[car[activity] as number] as number
    },
    giveWay: (of) => giveWay(of, false),
    isStuck: (of) => soonestHere(of) === NEVER,
    clear: () => {
      stay.fill(0)
      tooShort.fill(-1)
      hasYielded.fill(0)
      hasChanged.fill(0)
      hasFetched.fill(0)
    },
  }
}

/** Ticks of a day; 0 where days mean nothing. */
const dayLength = ({ midnights }: Compiled['problem']): number =>
  midnights.length < 2 ? 0 : (midnights[1] as number) - (midnights[0] as number)
