import type { Move, Stay } from '../schedule.ts'
import { createBayKinds } from './bay-kinds.ts'
import { createBookings } from './bookings.ts'
import type { Compiled } from './compile.ts'
import { moveDemand } from './crew-demand.ts'
import type { Crews } from './crews.ts'
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
  /** Whether a bay of this kind stands free for some car: the quick answer before any search. */
  readonly hasFree: (kind: number) => boolean
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
  /** Whoever must be out for a booking goes to the yard. Once, when all is placed that can be. */
  readonly clearOut: () => void
  /** The car that holds a bay now, -1 for none. */
  readonly holder: Int32Array
  readonly stays: readonly Stay[]
  readonly moves: readonly Move[]
  /** How many bays were let go since the last list. */
  released: number
  readonly clear: () => void
}

interface Choice {
  readonly at: number
  readonly from: number
}

/** How many lengths of a move before a booking people for the leaving are looked for. */
const LEAVE_BEFORE = 1000

const UNKNOWN = -1

type Leaving = Pick<Move, 'start' | 'finish' | 'crew'>

interface OpenStay extends Stay {
  to: number
}

/** What a car is brought into a bay for. */
export interface Next {
  readonly kind: number
  /** It is not moved before. */
  readonly ready: number
  /** When the work would be done if the car came at that tick. */
  readonly doneFrom: (tick: number) => number
  /** Whether it is the car's last work in a bay, with which it leaves. */
  readonly isLast: boolean
  /** Whether the car may go into a bay at all; the same for all that are fit for the same. */
  readonly mayBe: (car: number, bay: number) => boolean
}

export function createFloor(compiled: Compiled, crews: Crews, bayRank: Int32Array): Floor {
  const { problem } = compiled
  const { bays, cars } = problem
  const bookings = createBookings(problem)
  const { suits, fitness, kindSet, kindSets } = createBayKinds(problem)
  const isHeldOpen = cars.map(
    (each, car) => !each.braced && problem.stands.some((stand) => stand.car === car),
  )
  const yard = bays.findIndex((bay) => bay.storage)
  const demand = moveDemand(compiled)

  const bay = new Int32Array(cars.length)
  const since = new Int32Array(cars.length)
  const busyTo = new Int32Array(cars.length)
  const limit = new Int32Array(cars.length)
  const bookedFrom = new Int32Array(cars.length)
  const leaving: (Leaving | null)[] = cars.map(() => null)
  const openStay: (OpenStay | null)[] = cars.map(() => null)
  const holder = new Int32Array(bays.length)
  const freeFrom = new Int32Array(bays.length)
  /** By set of kinds: whether the car may be there, as far as it was asked. */
  const mayBeIn = new Int8Array(kindSets)
  const stays: Stay[] = []
  const moves: Move[] = []

  /** From when the car could be moved into a bay; NEVER while another holds it. */
  const available = (at: number, car: number, ready: number): number =>
    holder[at] === -1 ? bookings.freeFrom(at, car, Math.max(ready, freeFrom[at] as number)) : NEVER

  /** From when the bay can be had without being booked for another before `done`. */
  const freeUntil = (at: number, car: number, ready: number, done: number): number => {
    let from = available(at, car, ready)
    for (let until = bookings.next(at, car, from); until < done; until = bookings.next(at, car, from))
      from = bookings.freeFrom(at, car, until)
    return from
  }

  const choose = (car: number, { kind, doneFrom, mayBe }: Next, ready: number): Choice | null => {
    const own = bookings.pending(car, (each) => each.bay !== bay[car] && suits(each.bay, kind))
    if (own !== undefined) {
      if (!mayBe(car, own.bay)) return null
      const from = available(own.bay, car, Math.max(ready, own.from))
      return from === NEVER ? null : { at: own.bay, from }
    }
    const done = doneFrom(ready)
    const choices: Choice[] = []
    mayBeIn.fill(UNKNOWN)
    for (let at = 0; at < bays.length; at += 1) {
      if (holder[at] !== -1 || at === bay[car] || !suits(at, kind)) continue
      const own = kindSet[at] as number
      if (mayBeIn[own] === UNKNOWN) mayBeIn[own] = mayBe(car, at) ? 1 : 0
      if (mayBeIn[own] === 0) continue
      const from = freeUntil(at, car, ready, done)
      if (from !== NEVER) choices.push({ at, from })
    }
    choices.sort((a, b) => a.from - b.from || fitness(b.at, car) - fitness(a.at, car))
    return choices[Math.min(bayRank[car] as number, choices.length - 1)] ?? null
  }
  const findMove = (from: number): void => {
    if (demand.people > 0 && demand.work > 0) return crews.find(demand, from, 0)
    crews.start = from
    crews.finish = from + demand.work
  }
  const takeMove = (): Leaving => {
    if (demand.work > 0) crews.take(demand.people)
    return {
      start: crews.start,
      finish: crews.finish,
      crew: Array.from(crews.chosen.subarray(0, demand.people)),
    }
  }

  /**
   * False when the car could not be out of its bay, or of the next one, in time for whom it is booked: people can be had
   * to move it, or its last work is done by then.
   */
  const moveTo = (car: number, at: number, from: number, doneFrom: Next['doneFrom'] | null): boolean => {
    findMove(from)
    if (crews.start === NEVER || crews.finish > (bookedFrom[car] as number)) return false
    const move = takeMove()
    const until = bookedAfter(car, at, move.start)
    const back = planLeaving(car, move.finish, until)
    if (back === null && until !== NEVER && !(doneFrom !== null && doneFrom(move.finish) <= until)) {
      giveBack(move)
      return false
    }
    cancelLeaving(car)
    go(car, at, move, back)
    return true
  }

  const go = (car: number, at: number, move: Leaving, back: Leaving | null): void => {
    const left = bay[car] as number
    moves.push({ car, from: left < 0 ? null : left, to: at, ...move })
    vacate(car, move.finish)
    enter(car, at, move.start, move.finish, back)
  }

  const giveBack = ({ crew, start, finish }: Leaving): void => {
    if (demand.work > 0) crews.giveBack(crew, start, finish)
  }

  const cancelLeaving = (car: number): void => {
    const due = leaving[car]
    if (due) giveBack(due)
    leaving[car] = null
  }

  const bookedAfter = (car: number, at: number, tick: number): number =>
    bays[at]?.storage === true ? NEVER : bookings.next(at, car, tick)

  /**
   * Where a bay is booked for another, people for the move to the yard are booked at once, as late as they can be had, so
   * that the shell is out in time whatever comes between. Null when nothing is booked or nobody can be had, and for a
   * shell that may stand open then and not be moved.
   */
  const planLeaving = (car: number, since: number, until: number): Leaving | null => {
    if (until === NEVER || yard < 0 || isHeldOpen[car]) return null
    const least = Math.max(1, demand.work)
    for (let before = least; before <= LEAVE_BEFORE * least; before = Math.ceil(before * 1.25)) {
      findMove(Math.max(since, until - before))
      if (crews.finish <= until) return takeMove()
    }
    return null
  }

  const vacate = (car: number, at: number): void => {
    const left = bay[car] as number
    const stay = openStay[car]
    if (stay) stay.to = at
    openStay[car] = null
    if (left < 0 || bays[left]?.storage === true) return
    holder[left] = -1
    freeFrom[left] = at
    floor.released += 1
  }

  const enter = (car: number, at: number, from: number, workFrom: number, back: Leaving | null): void => {
    bay[car] = at
    since[car] = workFrom
    busyTo[car] = workFrom
    const stay: OpenStay = { car, bay: at, from, to: problem.horizon }
    openStay[car] = stay
    stays.push(stay)
    bookedFrom[car] = bookedAfter(car, at, from)
    leaving[car] = back
    limit[car] = back?.start ?? (bookedFrom[car] as number)
    if (bays[at]?.storage === true) return
    holder[at] = car
    bookings.use(car, at, from)
  }

  const park = (car: number, ready: number, anywhere: boolean): boolean => {
    const at = yard < 0 && anywhere ? holder.indexOf(-1) : yard
    if (at < 0 || bay[car] === at || bay[car] === -1) return false
    const from = Math.max(ready, busyTo[car] as number, yard < 0 ? (freeFrom[at] as number) : 0)
    if (moveTo(car, at, from, null)) return true
    const due = leaving[car]
    if (!due) return false
    leaving[car] = null
    go(car, yard, due, null)
    return true
  }

  const floor: Floor = {
    released: 0,
    bay,
    since,
    busyTo,
    limit,
    suits,
    holder,
    stays,
    moves,
    hasFree: (kind) => {
      for (let at = 0; at < holder.length; at += 1) if (holder[at] === -1 && suits(at, kind)) return true
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
      if (due) giveBack(due)
      const done = finish()
      if (done !== NEVER && done <= (bookedFrom[car] as number)) {
        leaving[car] = null
        return true
      }
      if (due && demand.work > 0) crews.book(due.crew, due.start, due.finish)
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
        if (due) go(car, yard, due, null)
      })
      leaving.fill(null)
    },
    clear: () => {
      floor.released = 0
      stays.length = 0
      moves.length = 0
      holder.fill(-1)
      freeFrom.fill(0)
      bookings.clear()
      openStay.fill(null)
      leaving.fill(null)
      cars.forEach((car, index) => {
        bay[index] = -1
        bookedFrom[index] = NEVER
        limit[index] = NEVER
        busyTo[index] = car.arrives
        since[index] = car.arrives
        if (car.bay === null) return
        const here = Math.max(0, car.arrives)
        enter(index, car.bay, 0, here, planLeaving(index, here, bookedAfter(index, car.bay, 0)))
      })
    },
  }
  return floor
}
