import type { Random } from './random.ts'

/** How much of the mother's list may stand in the father's order. */
const LEAST_WINDOW = 0.25
const GREATEST_WINDOW = 0.75

/**
 * Writes a child of two lists: the mother's list, but what lies in a window of it, drawn anew each time, stands in the
 * father's order (two-point crossover; Hartmann 1998). It respects the links as both parents do.
 */
export type Crossover = (mother: Int32Array, father: Int32Array, child: Int32Array) => void

export function createCrossover(size: number, random: Random): Crossover {
  const isInside = new Uint8Array(size)
  return (mother, father, child) => {
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
