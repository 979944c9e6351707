import type { Decoder, SearchSpace } from './decoder.ts'
import { createRandom, type Random } from './random.ts'
import { sampleList, STRICT } from './sample-lists.ts'

export interface SearchOptions {
  readonly seed: number
  /** Lists to begin from, before those drawn by the rules of the space. */
  readonly seeds?: readonly Int32Array[]
}

export interface Search {
  /** Makes so many more schedules; every pass of the generation counts as one, forward or backward. */
  readonly run: (schedules: number) => void
  /** `list` is one that the forward generation makes the best schedule from; its score is infinite before the first. */
  readonly best: { readonly list: Int32Array; readonly score: Float64Array }
  readonly used: number
}

/** A schedule as the population keeps it: the order in which the other generation takes it up, and how good it is. */
interface Member {
  readonly order: Int32Array
  readonly score: Float64Array
  /** Two members with the same starts have the same fingerprint. */
  readonly fingerprint: number
}

const POPULATION = 40
/** Of the regret-based sampling that the search begins with; more would begin with members too much alike. */
const BIAS = 0.5
/** How much of the list a child takes from the other parent. */
const LEAST_WINDOW = 0.25
const GREATEST_WINDOW = 0.75
/** Chance of each place of a child's list to change with the next. */
const MUTATION = 0.1

/**
 * A genetic search over lists with two populations (Debels & Vanhoucke 2005, 2007): one of schedules made forward in time,
 * one of schedules made backward. A child of two members of one is made by the other generation, so that each schedule is
 * also a justification of what it came from. Without a backward generation both populations are made forward.
 */
export function createSearch(space: SearchSpace, { seed, seeds = [] }: SearchOptions): Search {
  const random = createRandom(seed)
  const { forward, backward, successors, predecessors, priorities } = space
  const { size } = forward
  const decoders: readonly [Decoder, Decoder] = [forward, backward ?? forward]
  const populations: readonly [Member[], Member[]] = [[], []]
  const best = { list: new Int32Array(size), score: new Float64Array(forward.score.length).fill(Infinity) }
  const child = new Int32Array(size)
  const turn = createTurn(size)
  const cross = createCrossover(size, random)
  let used = 0
  let left = 0
  let side = 0
  let slot = 0

  const isOver = (): boolean =>
    left <= 0 || (space.bound !== null && compareScores(best.score, space.bound) <= 0)

  /** Makes the schedule of `list` on one side. */
  const make = (list: Int32Array, on: number): Member => {
    const decoder = decoders[on] as Decoder
    decoder.decode(list)
    used += 1
    left -= 1
    const order = new Int32Array(size)
    turn(list, decoder, backward !== null, order)
    const member = { order, score: decoder.score.slice(), fingerprint: fingerprintOf(decoder.starts) }
    if (compareScores(member.score, best.score) < 0) {
      best.score.set(member.score)
      best.list.set(on === 0 ? list : order)
    }
    return member
  }

  const firstList = (index: number): Int32Array => {
    const given = seeds[index]
    if (given !== undefined) return given
    const drawn = index - seeds.length
    const priority = priorities[drawn % priorities.length] as ArrayLike<number>
    return sampleList(predecessors, successors, priority, drawn < priorities.length ? STRICT : BIAS, random)
  }

  const begin = (): void => {
    const [ahead, behind] = populations
    while (ahead.length < Math.max(POPULATION, seeds.length) && !isOver())
      ahead.push(make(firstList(ahead.length), 0))
    while (behind.length < ahead.length && !isOver())
      behind.push(make((ahead[behind.length] as Member).order, 1))
  }

  const tournament = (population: readonly Member[]): Member => {
    const one = population[random.below(population.length)] as Member
    const other = population[random.below(population.length)] as Member
    return compareScores(other.score, one.score) < 0 ? other : one
  }

  /** One child of the member in `slot` takes the place of its counterpart in the other population if it is not worse. */
  const breed = (): void => {
    const to = populations[1 - side] as Member[]
    const from = populations[side] as Member[]
    const mother = from[slot] as Member
    const father = tournament(from)
    if (random.next() < 0.5) cross(mother.order, father.order, child)
    else cross(father.order, mother.order, child)
    mutate(child, space, side === 1, random)
    const made = make(child, 1 - side)
    const known = to.some((member) => member.fingerprint === made.fingerprint)
    if (!known && compareScores(made.score, (to[slot] as Member).score) <= 0) to[slot] = made
    slot += 1
    if (slot < from.length) return
    slot = 0
    side = 1 - side
  }

  return {
    run: (schedules) => {
      left += schedules
      begin()
      while (!isOver()) breed()
    },
    best,
    get used() {
      return used
    },
  }
}

/** Below 0 when `a` is better. */
export const compareScores = (a: ArrayLike<number>, b: ArrayLike<number>): number => {
  for (let at = 0; at < a.length; at += 1) {
    if (a[at] !== b[at]) return (a[at] as number) - (b[at] as number)
  }
  return 0
}

const fingerprintOf = (starts: Int32Array): number => {
  let mixed = 0
  for (let activity = 0; activity < starts.length; activity += 1)
    mixed = (Math.imul(mixed, 31) + (starts[activity] as number)) | 0
  return mixed
}

/** Keys are tick * size + place: exact in a double for any horizon. */
const createTurn = (size: number) => {
  const keys = new Float64Array(size)
  /**
   * Writes into `order` the order for the other generation: by finish from the last when that goes backward, else by start;
   * ties keep what the list says.
   */
  return (list: Int32Array, decoder: Decoder, isTurned: boolean, order: Int32Array): void => {
    for (let at = 0; at < size; at += 1) {
      const activity = list[at] as number
      keys[at] =
        (isTurned ? (decoder.finishes[activity] as number) : (decoder.starts[activity] as number)) * size + at
    }
    keys.sort()
    for (let at = 0; at < size; at += 1)
      order[isTurned ? size - 1 - at : at] = list[(keys[at] as number) % size] as number
  }
}

const createCrossover = (size: number, random: Random) => {
  const isInside = new Uint8Array(size)
  /** The child is the mother, but what lies in one window of her list stands in the father's order. */
  return (mother: Int32Array, father: Int32Array, child: Int32Array): void => {
    const share = LEAST_WINDOW + random.next() * (GREATEST_WINDOW - LEAST_WINDOW)
    const length = Math.ceil(size * share)
    const from = random.below(size - length + 1)
    isInside.fill(0)
    for (let at = from; at < from + length; at += 1) isInside[mother[at] as number] = 1
    child.set(mother)
    let place = from
    for (let at = 0; at < size; at += 1) {
      const activity = father[at] as number
      if (isInside[activity] === 1) child[place++] = activity
    }
  }
}

const mutate = (list: Int32Array, { successors }: SearchSpace, isForward: boolean, random: Random): void => {
  const isLinked = (before: number, after: number): boolean => {
    for (
      let at = successors.offsets[before] as number;
      at < (successors.offsets[before + 1] as number);
      at += 1
    )
      if (successors.items[at] === after) return true
    return false
  }
  for (let at = 0; at + 1 < list.length; at += 1) {
    if (random.next() >= MUTATION) continue
    const first = list[at] as number
    const second = list[at + 1] as number
    if (isForward ? isLinked(first, second) : isLinked(second, first)) continue
    list[at] = second
    list[at + 1] = first
  }
}
