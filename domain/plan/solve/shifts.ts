import type { SearchSpace } from './decoder.ts'
import { inLinkOrder } from './link-order.ts'
import { type Choices, copyChoices, createChoices } from './choices.ts'
import type { Random } from './random.ts'

/** A list and what came of it. */
export interface Incumbent {
  readonly list: Int32Array
  readonly score: Float64Array
  readonly choices: Choices
}

export interface Shifts {
  /** Makes one more schedule; `progress` runs from 0 to 1 over the whole budget and cools the search. */
  readonly step: (progress: number) => void
  readonly best: Incumbent
}

/**
 * Annealing (Kirkpatrick, Gelatt & Vecchi 1983) over keys: the list is the activities in order of their keys, and a step
 * puts all work of a car, all of a repair or a single activity earlier or later. Where lateness counts, a few hundred
 * steps at the level of cars and repairs do more than thousands of exchanges of neighbours. Now and then the keys are set
 * to the starts they led to, so that what has no room to move earlier does not pile up.
 */
export function createShifts(space: SearchSpace, random: Random, from: Incumbent, schedules: number): Shifts {
  const { forward } = space
  const { size } = forward
  const linked = inLinkOrder(space)
  const each = Int32Array.from({ length: size }, (_, index) => index)
  const levels = [space.cars, space.groups, each].map(membersOf)
  const best = { list: from.list.slice(), score: from.score.slice(), choices: createChoices(space) }
  const choices = createChoices(space)
  copyChoices(from.choices, choices)
  copyChoices(from.choices, best.choices)
  const score = from.score.slice()
  const list = new Int32Array(size)
  const trial = new Float64Array(size)

  forward.decode(from.list)
  const keys = Float64Array.from(forward.starts)
  const spread = deviation(keys)

  const shift = (progress: number): void => {
    const level = levels[pick(random.next())] as readonly Int32Array[]
    const groups = level.length > 0 ? level : (levels.at(-1) as readonly Int32Array[])
    const group = groups[random.below(groups.length)] as Int32Array
    const width = REACH * spread * (1 - COOLED * progress)
    const amount = (random.next() + random.next() + random.next() - 1.5) * width
    for (const activity of group) trial[activity] = (trial[activity] as number) + amount
  }

  const changeMind = (): void => {
    const { bay, crew, claims, elsewhere, fetches } = forward.choices
    const activity = random.below(size)
    const what = random.below(5)
    if (what === 0 && bay.length > 0) bay[random.below(bay.length)] = random.below(RANKS)
    else if (what === 1) claims[activity] = 1 - (claims[activity] as number)
    else if (what === 2) elsewhere[activity] = 1 - (elsewhere[activity] as number)
    else if (what === 3) fetches[activity] = random.below(bay.length + 1)
    else crew[activity] = random.below(RANKS)
  }

  /** Nothing stands before what it waits for: it takes the later key of the two. */
  const settle = (): void => {
    const { offsets, items } = space.predecessors
    for (const activity of linked) {
      const last = offsets[activity + 1] as number
      for (let at = offsets[activity] as number; at < last; at += 1)
        trial[activity] = Math.max(trial[activity] as number, trial[items[at] as number] as number)
    }
  }

  /** From somewhere else altogether, so that small problems are not stuck where the rules led. */
  const beginAnew = (): void => {
    for (let activity = 0; activity < size; activity += 1) keys[activity] = random.next() * spread
    drawChoices(choices, random)
    score.fill(Infinity)
  }

  const rounds = Math.max(1, Math.min(MOST_ROUNDS, Math.floor(schedules / (SCHEDULES_A_ROUND * size))))
  /** Choices beside the order are for the last few in a hundred; the order counts first where schedules are few. */
  const mindChanges = rounds > 1 ? OFTEN : SELDOM
  let round = 0

  const step = (overall: number): void => {
    const progress = (overall * rounds) % 1
    if (Math.floor(overall * rounds) > round) {
      round += 1
      beginAnew()
    }
    trial.set(keys)
    copyChoices(choices, forward.choices)
    if (random.next() < mindChanges) changeMind()
    else for (let count = 1 + random.below(MOST_SHIFTS); count > 0; count -= 1) shift(progress)
    settle()
    list.set(linked)
    list.sort((a, b) => (trial[a] as number) - (trial[b] as number))
    forward.decode(list)
    const loss = lossOf(forward.score, score)
    const heat = HEAT * (1 - progress) ** 2
    if (loss > 0 && random.next() >= Math.exp(-loss / heat)) return
    copyChoices(forward.choices, choices)
    keys.set(random.next() < REBASED ? forward.starts : trial)
    score.set(forward.score)
    if (lossOf(score, best.score) >= 0) return
    best.score.set(score)
    best.list.set(list)
    copyChoices(choices, best.choices)
  }
  return { step, best }
}

/** Two shifts at a time reach exchanges that neither alone would. */
const MOST_SHIFTS = 2
/** Of the keys' standard deviation; narrows to the rest of `COOLED` at the end. */
const REACH = 1.5
const COOLED = 0.7
/** Relative loss that is taken with a chance of 1/e at the start. */
const HEAT = 0.02
const REBASED = 0.1
const OFTEN = 0.3
const SELDOM = 0.1
/** A round needs this many schedules for each activity to have settled. */
const SCHEDULES_A_ROUND = 6
const MOST_ROUNDS = 40
const RANKS = 3

/** Cars three in ten, single activities one in ten, repairs otherwise. */
const pick = (chance: number): number => (chance < 0.3 ? 0 : chance < 0.9 ? 1 : 2)

/** Some of everything that may be chosen, most as it offers itself. */
const drawChoices = ({ bay, crew, claims, elsewhere, fetches }: Choices, random: Random): void => {
  const draw = (of: Int32Array, chance: number, bound: number): void => {
    for (let at = 0; at < of.length; at += 1) of[at] = random.next() < chance ? random.below(bound) : 0
  }
  draw(bay, 0.4, RANKS)
  draw(crew, 0.25, RANKS)
  draw(claims, 0.5, 2)
  draw(elsewhere, 0.25, 2)
  draw(fetches, 0.1, bay.length + 1)
}

/** How much worse a score is, relative to the first figure that differs; below 0 when it is better. */
const lossOf = (score: ArrayLike<number>, other: ArrayLike<number>): number => {
  for (let figure = 0; figure < score.length; figure += 1) {
    const difference = (score[figure] as number) - (other[figure] as number)
    if (difference !== 0) return difference / Math.max(1, other[figure] as number)
  }
  return 0
}

const membersOf = (groups: Int32Array): readonly Int32Array[] => {
  const members = new Map<number, number[]>()
  groups.forEach((group, activity) => {
    if (group < 0) return
    const known = members.get(group)
    if (known === undefined) members.set(group, [activity])
    else known.push(activity)
  })
  return [...members.values()].map((each) => Int32Array.from(each))
}

const deviation = (values: Float64Array): number => {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length
  return Math.sqrt(values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / values.length)
}
