import type { Compiled } from './compile.ts'
import type { CrewDemand } from './crew-demand.ts'
import { lowestBit, WORD } from './person-bits.ts'
import { nextWorking, type WorkingTime } from './working-time.ts'

/**
 * Who is at work and free, one bit a person, at each tick at which anybody works. Says at once who of many could do some
 * work without a pause, where asking each of them would cost the more the larger the workshop is.
 */
export interface FreeMap {
  /** Writes a crew that is free all through [start, finish), without the barred ones; false when there is none. */
  readonly pick: (
    demand: CrewDemand,
    start: number,
    finish: number,
    barred: Int32Array,
    chosen: Int32Array,
  ) => boolean
  /** Visits those who are able in the order in which they have room for the work from `tick` on, until that is after what `visit` answered. */
  readonly visit: (
    demand: CrewDemand,
    tick: number,
    barred: Int32Array,
    visit: (person: number) => number,
  ) => void
  readonly occupy: (person: number, start: number, finish: number) => void
  readonly release: (person: number, start: number, finish: number) => void
  readonly clear: () => void
}

export function createFreeMap({ problem, times, bits }: Compiled, { done, tickOf }: WorkingTime): FreeMap {
  const { words, bitOf, personOf } = bits
  const length = tickOf.length
  const away = whoIsAway(problem.people.length, times.of, bits, tickOf)
  /** By word, then by working tick. */
  const taken = away.slice()
  const free = new Int32Array(words)
  let count = 0
  /** Nothing is booked from this working tick on. */
  let touched = 0

  const mark = (person: number, start: number, finish: number, isTaken: boolean): void => {
    const bit = bitOf[person] as number
    const mask = 1 << (bit % WORD)
    const base = Math.floor(bit / WORD) * length
    const to = done[finish] as number
    touched = Math.max(touched, to)
    for (let at = base + (done[start] as number); at < base + to; at += 1)
      taken[at] = isTaken
        ? (taken[at] as number) | mask
        : (taken[at] as number) & (~mask | (away[at] as number))
  }

  const take = (only: Int32Array | null, most: number, chosen: Int32Array): void => {
    for (let word = 0; word < words; word += 1) {
      let rest = (free[word] as number) & (only === null ? -1 : (only[word] as number))
      free[word] = (free[word] as number) & ~rest
      for (; rest !== 0 && count < most; rest &= rest - 1)
        chosen[count++] = personOf[word * WORD + lowestBit(rest)] as number
    }
  }

  const takeNamed = ({ named }: CrewDemand, chosen: Int32Array): boolean => {
    for (let at = 0; at < named.length; at += 1) {
      const bit = bitOf[named[at] as number] as number
      const word = Math.floor(bit / WORD)
      const mask = 1 << (bit % WORD)
      if (((free[word] as number) & mask) === 0) return false
      free[word] = (free[word] as number) & ~mask
      chosen[count++] = named[at] as number
    }
    return true
  }

  /**
   * Who may have room for some work that reaches over here. The work reaches over three quarter points next to this one as
   * well, before or after, and whoever has room is booked at none of them. Who is only away may pause.
   */
  const mayHaveRoom = (at: number, work: number): number => {
    const here = isUnbooked(at)
    if (here === 0) return 0
    const quarter = work >> 2
    const before = isUnbooked(at - quarter)
    const after = isUnbooked(at + quarter)
    const farBefore = before & isUnbooked(at - 2 * quarter)
    const farAfter = after & isUnbooked(at + 2 * quarter)
    return (
      here &
      ((farBefore & (after | isUnbooked(at - 3 * quarter))) |
        (farAfter & (before | isUnbooked(at + 3 * quarter))))
    )
  }
  const isUnbooked = (at: number): number => ~(taken[at] as number) | (away[at] as number)

  return {
    pick: (demand, start, finish, barred, chosen) => {
      const from = done[start] as number
      const to = done[finish] as number
      for (let word = 0; word < words; word += 1) {
        let rest = (demand.ableBits[word] as number) & ~(barred[word] as number)
        const last = word * length + to
        for (let at = word * length + from; at < last && rest !== 0; at += 1) rest &= ~(taken[at] as number)
        free[word] = rest
      }
      count = 0
      if (!takeNamed(demand, chosen)) return false
      take(demand.inForceBits, demand.people, chosen)
      take(null, demand.people, chosen)
      return count === demand.people
    },
    visit: ({ ableBits, anybody, work }, tick, barred, visit) => {
      const unseen = free
      let left = 0
      for (let word = 0; word < words; word += 1) {
        unseen[word] = (ableBits[word] as number) & ~(barred[word] as number)
        left |= unseen[word] as number
      }
      let until = Infinity
      for (
        let from = done[nextWorking(anybody, tick)] as number;
        left !== 0 && from + work <= length;
        from += work
      ) {
        if ((tickOf[from] as number) > until) return
        left = 0
        for (let word = 0; word < words; word += 1) {
          let come = (unseen[word] as number) & mayHaveRoom(word * length + from + work - 1, work)
          unseen[word] = (unseen[word] as number) & ~come
          left |= unseen[word] as number
          for (; come !== 0; come &= come - 1)
            until = visit(personOf[word * WORD + lowestBit(come)] as number)
        }
      }
    },
    occupy: (person, start, finish) => mark(person, start, finish, true),
    release: (person, start, finish) => mark(person, start, finish, false),
    clear: () => {
      for (let word = 0; word < words; word += 1) {
        const base = word * length
        taken.set(away.subarray(base, base + touched), base)
      }
      touched = 0
    },
  }
}

/** By word, then by working tick: who is not at work then. */
const whoIsAway = (
  people: number,
  timeOf: (person: number, watch: number) => WorkingTime,
  { words, bitOf }: Compiled['bits'],
  tickOf: Int32Array,
): Int32Array => {
  const away = new Int32Array(words * tickOf.length)
  for (let person = 0; person < people; person += 1) {
    const { done } = timeOf(person, 0)
    const bit = bitOf[person] as number
    const base = Math.floor(bit / WORD) * tickOf.length
    tickOf.forEach((tick, k) => {
      if (done[tick] === done[tick + 1]) away[base + k] = (away[base + k] as number) | (1 << (bit % WORD))
    })
  }
  return away
}
