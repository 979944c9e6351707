import type { Problem } from '../problem.ts'

/** People as bits of 32-bit words. Those who can do less come first, so that the others stay free where the lowest bit is taken. */
export interface PersonBits {
  readonly words: number
  /** By person, and by bit. */
  readonly bitOf: Int32Array
  readonly personOf: Int32Array
  /** One word after the other. */
  readonly maskOf: (people: Iterable<number>) => Int32Array
}

export const WORD = 32

export function createPersonBits({ people, activities }: Problem): PersonBits {
  const uses = people.map(() => 0)
  for (const { crew } of activities)
    for (const person of crew?.able ?? []) uses[person] = (uses[person] as number) + 1
  const personOf = Int32Array.from(people.keys()).sort(
    (a, b) => (uses[a] as number) - (uses[b] as number) || a - b,
  )
  const bitOf = new Int32Array(people.length)
  personOf.forEach((person, bit) => (bitOf[person] = bit))
  const words = Math.ceil(people.length / WORD)
  return {
    words,
    bitOf,
    personOf,
    maskOf: (members) => {
      const mask = new Int32Array(words)
      for (const person of members) setBit(mask, bitOf[person] as number)
      return mask
    },
  }
}

export const setBit = (mask: Int32Array, bit: number): void => {
  const word = Math.floor(bit / WORD)
  mask[word] = (mask[word] as number) | (1 << (bit % WORD))
}

/** Of a word that is not 0. */
export const lowestBit = (word: number): number => WORD - 1 - Math.clz32(word & -word)
