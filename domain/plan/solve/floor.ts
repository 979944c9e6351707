import type { Move, Stay } from '../schedule.ts'
import { createBayChoice, type Next } from './bay-choice.ts'
import { createBayKinds } from './bay-kinds.ts'
import { createBookings } from './bookings.ts'
import type { Compiled } from './compile.ts'
import type { Crews } from './crews.ts'
import { createMovers, type Trip } from './movers.ts'
import { NEVER } from './working-time.ts'

/**
 * Where the shells stand. A car keeps its bay, working or waiting, until it is moved; a bay is given on in the order of
 * the list and never in a gap before its last stay, which with a list in order of time loses nothing.
 */
export interface Floor {
  /** By car: the bay it stands in, -1 outside. */
  readonly bay: Int32Array
  /** By car: since when it has stood there, and the end of the last work placed there. */
  readonly since: Int32Array
  readonly busyTo: Int32Array
  /** By car: when it must be ready to leave, because its bay is booked for another; NEVER when nothing is booked. */
  readonly limit: Int32Array
  readonly suits: (bay: number, kind: number) => boolean
  /** Whether a bay of this kind stands free for the car: the quick answer before any search. */
  readonly hasFree: (kind: number, car: number) => boolean
  /** Brings a car into a bay for its next work; false while none is free that may be. */
  readonly bring: (car: number, next: Next) => boolean
  /** Puts a car into the yard; without one, and only if `anywhere`, into a bay that nobody stands in. False when it cannot. */
  readonly park: (car: number, ready: number, anywhere: boolean) => boolean
  /**
   * Whether the car's last work in a bay is done before the bay is booked for another. It then leaves with that, and the
   * people for its leaving are free again while `finish` looks for when it is done.
   */
  readonly isDoneInTime: (car: number, finish: () => number) => boolean
  /** The car's last work in a bay is placed: it leaves. */
  readonly leave: (car: number) => void
  /** Whoever must be out for a booking goes to where it can wait. Once, when all is placed that can be. */
  readonly clearOut: () => void
  /** The car that holds a bay now, -1 for none. */
  readonly holder: Int32Array
  readonly stays: readonly Stay[]
  readonly moves: readonly Move[]
  /** Bays that were let go and cars that were moved; for who looks after them to empty. */
  readonly released: number[]
  readonly moved: number[]
  readonly clear: () => void
}

/** A move out of a bay before it is booked for another, to where nobody else may stand meanwhile. */
interface Leaving {
  readonly to: number
  readonly trip: Trip
}

interface OpenStay extends Stay {
  bay: number
  to: number
}

interface OpenMove extends Move {
  to: number
}

export function createFloor(compiled: Compiled, crews: Crews, bayRank: Int32Array): Floor {
  const { problem } = compiled
  const { bays, cars } = problem
  const bookings = createBookings(problem)
  const kinds = createBayKinds(problem)
  const { suits } = kinds
  const isHeldOpen = cars.map(
    (each, car) => !each.braced && problem.stands.some((stand) => stand.car === car),
  )
  const yard = bays.findIndex((bay) => bay.storage)
  const movers = createMovers(compiled, crews)

  const bay = new Int32Array(cars.length)
  const since = new Int32Array(cars.length)
  const busyTo = new Int32Array(cars.length)
  const limit = new Int32Array(cars.length)
  const bookedFrom = new Int32Array(cars.length)
  const leaving: (Leaving | null)[] = cars.map(() => null)
  const openStay: (OpenStay | null)[] = cars.map(() => null)
  /** By car: the move that brought it to the yard, while it stands there. */
  const toYard: (OpenMove | null)[] = cars.map(() => null)
  const holder = new Int32Array(bays.length)
  const freeFrom = new Int32Array(bays.length)
  const stays: Stay[] = []
  const moves: Move[] = []

  /** Nobody stands there, and it is kept for no other. */
  const isFree = (at: number, car: number): boolean =>
    holder[at] === -1 || (holder[at] === car && at !== bay[car])
  const choose = createBayChoice(problem, { kinds, bookings, bay, freeFrom, isFree, rank: bayRank })

  /**
   * False when the car could not be out of its bay, or of the next one, in time for whom it is booked: people can be had
   * to move it, or its last work is done by then.
   */
  const moveTo = (car: number, at: number, from: number, doneFrom: Next['doneFrom'] | null): boolean => {
    if (goOn(car, at)) return true
    const trip = movers.take(from, bookedFrom[car] as number)
    if (trip === null) return false
    const until = bookedAfter(car, at, trip.start)
    const back = planLeaving(car, at, trip.finish, until)
    if (back === null && until !== NEVER && !(doneFrom !== null && doneFrom(trip.finish) <= until)) {
      movers.giveBack(trip)
      return false
    }
    cancelLeaving(car)
    go(car, at, trip, back)
    return true
  }

  const go = (car: number, at: number, trip: Trip, back: Leaving | null): void => {
    const left = bay[car] as number
    const move: OpenMove = { ...trip, car, from: left < 0 ? null : left, to: at }
    moves.push(move)
    vacate(car, trip.finish)
    enter(car, at, trip.start, trip.finish, back)
    toYard[car] = at === yard ? move : null
  }

  /** A shell that went to the yard while the bay that it comes into now stood free goes there at once instead. */
  const goOn = (car: number, at: number): boolean => {
    const move = toYard[car]
    if (!move || (freeFrom[at] as number) > move.start) return false
    const isBooked =
      bookings.freeFrom(at, car, move.start) > move.start || bookings.next(at, car, move.start) !== NEVER
    if (isBooked || bookings.pending(car, (each) => each.bay === at) !== undefined) return false
    move.to = at
    toYard[car] = null
    ;(openStay[car] as OpenStay).bay = at
    settle(car, at, move.start, move.finish, null)
    return true
  }

  const cancelLeaving = (car: number): void => {
    const due = leaving[car]
    if (!due) return
    movers.giveBack(due.trip)
    forgetLeaving(car, due)
  }

  const forgetLeaving = (car: number, { to }: Leaving): void => {
    leaving[car] = null
    if (to !== yard) letGo(to)
  }

  const bookedAfter = (car: number, at: number, tick: number): number =>
    bays[at]?.storage === true ? NEVER : bookings.next(at, car, tick)

  /**
   * Where a bay is booked for another, people for the move out of it are booked at once, as late as they can be had, so
   * that the shell is out in time whatever comes between. Null when nothing is booked or nobody can be had, and for a
   * shell that may stand open then and not be moved.
   */
  const planLeaving = (car: number, at: number, since: number, until: number): Leaving | null => {
    if (until === NEVER || isHeldOpen[car]) return null
    const to = yard >= 0 ? yard : placeToWait(car, at, since)
    const trip = to < 0 ? null : movers.takeLate(since, until)
    return trip === null ? null : { to, trip }
  }

  /** Without a yard: the bay that the car comes from, or any that stands free from `tick` on and is not booked. -1 for none. */
  const placeToWait = (car: number, at: number, tick: number): number => {
    const mayWait = (other: number): boolean =>
      other !== at &&
      (other === bay[car] || (isFree(other, car) && (freeFrom[other] as number) <= tick)) &&
      bookings.freeFrom(other, car, tick) === tick &&
      bookings.next(other, car, tick) === NEVER
    const left = bay[car] as number
    return left >= 0 && mayWait(left) ? left : holder.findIndex((_, other) => mayWait(other))
  }

  const vacate = (car: number, at: number): void => {
    const left = bay[car] as number
    const stay = openStay[car]
    if (stay) stay.to = at
    openStay[car] = null
    if (left < 0 || bays[left]?.storage === true) return
    freeFrom[left] = at
    letGo(left)
  }

  const letGo = (at: number): void => {
    holder[at] = -1
    floor.released.push(at)
  }

  const enter = (car: number, at: number, from: number, workFrom: number, back: Leaving | null): void => {
    const stay: OpenStay = { car, bay: at, from, to: problem.horizon }
    openStay[car] = stay
    stays.push(stay)
    settle(car, at, from, workFrom, back)
  }

  const settle = (car: number, at: number, from: number, workFrom: number, back: Leaving | null): void => {
    floor.moved.push(car)
    bay[car] = at
    since[car] = workFrom
    busyTo[car] = workFrom
    bookedFrom[car] = bookedAfter(car, at, from)
    leaving[car] = back
    if (back !== null && back.to !== yard) holder[back.to] = car
    limit[car] = back?.trip.start ?? (bookedFrom[car] as number)
    if (bays[at]?.storage === true) return
    holder[at] = car
    bookings.use(car, at, from)
  }

  const park = (car: number, ready: number, anywhere: boolean): boolean => {
    const at = yard < 0 && anywhere ? holder.indexOf(-1) : yard
    if (bay[car] === -1 || bay[car] === yard) return false
    const from = Math.max(ready, busyTo[car] as number, yard < 0 ? (freeFrom[at] ?? 0) : 0)
    if (at >= 0 && moveTo(car, at, from, null)) return true
    const due = leaving[car]
    if (!due) return false
    leaving[car] = null
    go(car, due.to, due.trip, null)
    return true
  }

  const floor: Floor = {
    released: [],
    moved: [],
    bay,
    since,
    busyTo,
    limit,
    suits,
    holder,
    stays,
    moves,
    hasFree: (kind, car) => {
      for (let at = 0; at < holder.length; at += 1) if (isFree(at, car) && suits(at, kind)) return true
      return false
    },
    park,
    bring: (car, next) => {
      const from = Math.max(next.ready, busyTo[car] as number)
      const choice = choose(car, next, from)
      if (choice === null) return false
      const into = (): boolean => moveTo(car, choice.at, choice.from, next.isLast ? next.doneFrom : null)
      return into() || (park(car, from, false) && into())
    },
    isDoneInTime: (car, finish) => {
      const due = leaving[car]
      if (due) movers.giveBack(due.trip)
      const done = finish()
      if (done !== NEVER && done <= (bookedFrom[car] as number)) {
        if (due) forgetLeaving(car, due)
        return true
      }
      if (due) movers.takeAgain(due.trip)
      return false
    },
    leave: (car) => {
      if (bay[car] === -1) return
      cancelLeaving(car)
      vacate(car, busyTo[car] as number)
      bay[car] = -1
    },
    clearOut: () => {
      leaving.forEach((due, car) => {
        if (due) go(car, due.to, due.trip, null)
      })
      leaving.fill(null)
    },
    clear: () => {
      floor.released.length = 0
      floor.moved.length = 0
      stays.length = 0
      moves.length = 0
      holder.fill(-1)
      freeFrom.fill(0)
      bookings.clear()
      openStay.fill(null)
      toYard.fill(null)
      leaving.fill(null)
      cars.forEach((car, index) => {
        bay[index] = -1
        bookedFrom[index] = NEVER
        limit[index] = NEVER
        busyTo[index] = car.arrives
        since[index] = car.arrives
        if (car.bay === null) return
        const here = Math.max(0, car.arrives)
        const until = bookedAfter(index, car.bay, 0)
        // Without a yard a bay to wait in would be kept from tick 0 on.
        enter(index, car.bay, 0, here, yard < 0 ? null : planLeaving(index, car.bay, here, until))
      })
    },
  }
  return floor
}
