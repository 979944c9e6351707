import type { Choices } from './choices.ts'
import type { Rows } from './compile.ts'
import type { SearchSpace } from './decoder.ts'
import { createResort } from './keyed-list.ts'
import type { Random } from './random.ts'

export interface Shifts {
  /**
   * Changes a list with its keys, or what is chosen beside the order. `waitsFor` are the links as the list must respect
   * them; `spread` is how far keys lie apart; `progress` runs from 0 to 1 over the search and narrows the steps.
   */
  readonly vary: (
    list: Int32Array,
    keys: Float64Array,
    choices: Choices,
    waitsFor: Rows,
    spread: number,
    progress: number,
  ) => void
}

/**
 * Small changes on three levels: all work of a car, all of a repair or a single activity is put earlier or later. Where
 * lateness counts, a few hundred steps at the level of cars and repairs do more than thousands of exchanges of
 * neighbours.
 */
export function createShifts(space: SearchSpace, random: Random): Shifts {
  const { size, problem } = space
  const each = Int32Array.from({ length: size }, (_, index) => index)
  const levels = [space.cars, space.groups, each].map(membersOf)
  const hasChoices = problem.cars.length + problem.people.length > 0
  const keyOf = new Float64Array(size)
  const resort = createResort(size)

  const shift = (width: number): void => {
    const level = levels[pick(random.next())] as readonly Int32Array[]
    const groups = level.length > 0 ? level : (levels.at(-1) as readonly Int32Array[])
    const group = groups[random.below(groups.length)] as Int32Array
    const amount = (random.next() + random.next() + random.next() - 1.5) * width
    for (const activity of group) keyOf[activity] = (keyOf[activity] as number) + amount
  }

  const changeMind = ({ bay, crew, claims, elsewhere, fetches }: Choices): void => {
    const activity = random.below(size)
    const what = random.below(5)
    if (what === 0 && bay.length > 0) bay[random.below(bay.length)] = random.below(RANKS)
    else if (what === 1) claims[activity] = 1 - (claims[activity] as number)
    else if (what === 2) elsewhere[activity] = 1 - (elsewhere[activity] as number)
    else if (what === 3) fetches[activity] = random.below(bay.length + 1)
    else crew[activity] = random.below(RANKS)
  }

  /** Nothing stands before what it waits for: it takes the later key of the two. */
  const settle = (list: Int32Array, keys: Float64Array, { offsets, items }: Rows): void => {
    for (let place = 0; place < size; place += 1) {
      const activity = list[place] as number
      const last = offsets[activity + 1] as number
      let key = keyOf[activity] as number
      for (let at = offsets[activity] as number; at < last; at += 1)
        key = Math.max(key, keyOf[items[at] as number] as number)
      keyOf[activity] = key
    }
    resort(list, keys, keyOf)
  }

  return {
    vary: (list, keys, choices, waitsFor, spread, progress) => {
      if (hasChoices && random.next() < MIND_CHANGED) return changeMind(choices)
      for (let place = 0; place < size; place += 1) keyOf[list[place] as number] = keys[place] as number
      const width = REACH * spread * (1 - COOLED * progress)
      for (let count = 1 + random.below(MOST_SHIFTS); count > 0; count -= 1) shift(width)
      settle(list, keys, waitsFor)
    },
  }
}

/** Two shifts at a time reach exchanges that neither alone would. */
const MOST_SHIFTS = 2
/** Of the keys' spread; narrows to the rest of `COOLED` at the end. */
const REACH = 1.5
const COOLED = 0.7
/** How often a choice is changed instead of the order. */
const MIND_CHANGED = 0.2
const RANKS = 3

/** Cars three in ten, single activities one in ten, repairs otherwise. */
const pick = (chance: number): number => (chance < 0.3 ? 0 : chance < 0.9 ? 1 : 2)

/** Some of everything that may be chosen, most as it offers itself. */
export const drawChoices = ({ bay, crew, claims, elsewhere, fetches }: Choices, random: Random): void => {
  const draw = (of: Int32Array, chance: number, bound: number): void => {
    for (let at = 0; at < of.length; at += 1) of[at] = random.next() < chance ? random.below(bound) : 0
  }
  draw(bay, 0.4, RANKS)
  draw(crew, 0.25, RANKS)
  draw(claims, 0.5, 2)
  draw(elsewhere, 0.25, 2)
  draw(fetches, 0.1, bay.length + 1)
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
