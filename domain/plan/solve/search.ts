import { type Choices, copyChoices, createChoices } from './choices.ts'
import { createCrossover } from './crossover.ts'
import type { Decoder, SearchSpace } from './decoder.ts'
import { ruleList, sampleList } from './first-lists.ts'
import { rekey, spreadOf } from './keyed-list.ts'
import { fingerprintOf, keepBest, type Member, tournament } from './population.ts'
import { createRandom } from './random.ts'
import { compareScores } from './score.ts'
import { createShifts, drawChoices } from './shifts.ts'

export interface SearchOptions {
  readonly seed: number
  /** Every pass of the generation counts as one, forward or backward. The search cools over all of them. */
  readonly schedules: number
}

export interface Search {
  /** Makes so many more schedules, or fewer when the budget is used up or nothing better can be. */
  readonly run: (schedules: number) => void
  readonly best: Incumbent
  readonly used: () => number
}

/** A list, what is chosen beside the order, and the score of what the forward generation makes of them, or worse. */
export interface Incumbent {
  readonly list: Int32Array
  readonly choices: Choices
  readonly score: Float64Array
}

/** Members at first: one for so many schedules of the budget, but no more than helps. */
const SCHEDULES_A_MEMBER = 50
const MOST_MEMBERS = 100
/** Of them, this share is left at the end: many to look round, few to finish. */
const LEFT_AT_END = 0.1
/** Of the regret-based sampling; a greater one would draw members too much alike. */
const BIAS = 0.5
/** Relative loss that is taken with a chance of 1/e at the start. */
const HEAT = 0.02
/** How often keys are set to the starts they led to, so that what has no room to move earlier does not pile up. */
const REBASED = 0.1

/**
 * A genetic search over lists that cools as annealing does. A child takes a window of its list from a second parent, is
 * varied a little and takes its place in the population when it is not much worse than who had it. The population dwindles
 * as the budget is used.
 *
 * Where time can be turned round there are two populations (Debels & Vanhoucke 2005, 2007), one of schedules made forward
 * and one of schedules made backward; a child of one is made by the other generation, so that each schedule is also a
 * justification of what it came from.
 */
export function createSearch(space: SearchSpace, { seed, schedules }: SearchOptions): Search {
  const random = createRandom(seed)
  const { size, forward, backward, priorities } = space
  const decoders: readonly Decoder[] = backward === null ? [forward] : [forward, backward]
  const populations: readonly Member[][] = decoders.map(() => [])
  const [ahead = [], behind] = populations
  const most = Math.max(1, Math.min(MOST_MEMBERS, Math.floor(schedules / SCHEDULES_A_MEMBER)))
  const first = Math.max(most, priorities.length)
  const best = {
    list: new Int32Array(size),
    choices: createChoices(space),
    score: new Float64Array(4).fill(Infinity),
  }
  const cross = createCrossover(size, random)
  const { vary } = createShifts(space, random)
  const child = new Int32Array(size)
  const keys = new Float64Array(size)
  let used = 0
  let spread = 0
  let side = -1
  let slot = 0

  const progress = (): number => used / schedules
  const isOver = (): boolean =>
    used >= schedules || (space.bound !== null && compareScores(best.score, space.bound) <= 0)

  /** Makes the schedule of the child; its keys become ticks when `isRebased` or when time turns round. */
  const make = (on: number, isRebased: boolean): Member => {
    const decoder = decoders[on] as Decoder
    decoder.decode(child)
    used += 1
    const member: Member = {
      order: child.slice(),
      keys: keys.slice(),
      choices: createChoices(space),
      score: decoder.score.slice(),
      fingerprint: fingerprintOf(decoder.starts),
    }
    copyChoices(decoder.choices, member.choices)
    if (decoders.length > 1)
      rekey(member.order.reverse(), member.keys, (activity) => -(decoder.finishes[activity] as number))
    else if (isRebased) rekey(member.order, member.keys, (activity) => decoder.starts[activity] as number)
    if (compareScores(member.score, best.score) < 0) {
      best.score.set(member.score)
      best.list.set(on === 0 ? child : member.order)
      copyChoices(member.choices, best.choices)
    }
    return member
  }

  const makeFirst = (): void => {
    const rule = priorities[ahead.length % priorities.length] as ArrayLike<number>
    const isDrawn = ahead.length >= priorities.length
    child.set(isDrawn ? sampleList(space, rule, BIAS, random) : ruleList(space, rule))
    copyChoices(createChoices(space), forward.choices)
    if (isDrawn) drawChoices(forward.choices, random)
    ahead.push(make(0, true))
  }

  const makeBehind = (members: Member[]): void => {
    child.set((ahead[members.length] as Member).order)
    members.push(make(1, true))
  }

  /** The population that was made last, or last but one, gives the parents of the next. */
  const turn = (): void => {
    side = side < 0 ? decoders.length - 1 : (side + 1) % decoders.length
    slot = 0
    const count = Math.max(1, Math.round(most * (1 - progress() * (1 - LEFT_AT_END))))
    for (const members of populations) keepBest(members, count)
  }

  const breed = (): void => {
    const parents = populations[side] as Member[]
    const on = (side + 1) % decoders.length
    const own = parents[slot] as Member
    const other = tournament(parents, random)
    const [mother, father] = random.next() < 0.5 ? [own, other] : [other, own]
    if (parents.length > 1) cross(mother.order, father.order, child)
    else child.set(mother.order)
    keys.set(mother.keys)
    const { choices } = decoders[on] as Decoder
    copyChoices(mother.choices, choices)
    vary(child, keys, choices, on === 0 ? space.predecessors : space.successors, spread, progress())
    settleIn(populations[on] as Member[], make(on, random.next() < REBASED))
    slot += 1
    if (slot === parents.length) turn()
  }

  /** No schedule is there twice; neutral changes in one place are welcome, because they lead on. */
  const settleIn = (members: Member[], made: Member): void => {
    if (members.some(({ fingerprint }, at) => at !== slot && fingerprint === made.fingerprint)) return
    const loss = lossOf(made.score, (members[slot] as Member).score)
    const heat = HEAT * (1 - progress()) ** 2
    if (loss <= 0 || random.next() < Math.exp(-loss / heat)) members[slot] = made
  }

  const step = (): void => {
    if (ahead.length < first && side < 0) return makeFirst()
    if (behind !== undefined && behind.length < first && side < 0) return makeBehind(behind)
    if (side < 0) {
      spread = spreadOf((ahead[0] as Member).keys)
      turn()
    }
    breed()
  }

  return {
    run: (more) => {
      for (const end = used + more; used < end && !isOver();) step()
    },
    best,
    used: () => used,
  }
}

/** How much worse a score is, relative to the first figure that differs; below 0 when it is better. */
const lossOf = (score: ArrayLike<number>, other: ArrayLike<number>): number => {
  for (let figure = 0; figure < score.length; figure += 1) {
    const difference = (score[figure] as number) - (other[figure] as number)
    if (difference !== 0) return difference / Math.max(1, other[figure] as number)
  }
  return 0
}
