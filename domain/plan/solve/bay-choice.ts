import type { Problem } from '../problem.ts'
import type { BayKinds } from './bay-kinds.ts'
import type { Bookings } from './bookings.ts'
import { NEVER } from './working-time.ts'

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

export interface Choice {
  readonly at: number
  readonly from: number
}

interface Stand {
  readonly kinds: BayKinds
  readonly bookings: Bookings
  /** By car: the bay it stands in. */
  readonly bay: Int32Array
  /** By bay: when the last shell was out of it. */
  readonly freeFrom: Int32Array
  readonly isFree: (bay: number, car: number) => boolean
  /** By car: 0 for the bay that can be had soonest, 1 for the next, and so on. */
  readonly rank: Int32Array
}

const UNKNOWN = -1

/** Which bay a car comes into for its next work, and from when it could be moved there; null while there is none. */
export function createBayChoice(
  { bays }: Problem,
  { kinds, bookings, bay, freeFrom, isFree, rank }: Stand,
): (car: number, next: Next, ready: number) => Choice | null {
  const { suits, fitness, kindSet, kindSets } = kinds
  /** By set of kinds: whether the car may be there, as far as it was asked. */
  const mayBeIn = new Int8Array(kindSets)

  /** From when the car could be moved into a bay; NEVER while another holds it. */
  const available = (at: number, car: number, ready: number): number =>
    isFree(at, car) ? bookings.freeFrom(at, car, Math.max(ready, freeFrom[at] as number)) : NEVER

  /** From when the bay can be had without being booked for another before `done`. */
  const freeUntil = (at: number, car: number, ready: number, done: number): number => {
    let from = available(at, car, ready)
    for (let until = bookings.next(at, car, from); until < done; until = bookings.next(at, car, from))
      from = bookings.freeFrom(at, car, until)
    return from
  }

  return (car: number, { kind, doneFrom, mayBe }: Next, ready: number): Choice | null => {
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
      if (!isFree(at, car) || !suits(at, kind)) continue
      const own = kindSet[at] as number
      if (mayBeIn[own] === UNKNOWN) mayBeIn[own] = mayBe(car, at) ? 1 : 0
      if (mayBeIn[own] === 0) continue
      const from = freeUntil(at, car, ready, done)
      if (from !== NEVER) choices.push({ at, from })
    }
    choices.sort((a, b) => a.from - b.from || fitness(b.at, car) - fitness(a.at, car))
    return choices[Math.min(rank[car] as number, choices.length - 1)] ?? null
  }
}
