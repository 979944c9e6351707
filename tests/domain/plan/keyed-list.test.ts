import { describe, expect, it } from 'vitest'
import { createResort, rekey } from '../../../domain/plan/solve/keyed-list.ts'
import { createRandom } from '../../support/random.ts'

const random = createRandom(3)

/** A list of activities in no order, with rising keys. */
const keyedList = (size: number) => {
  const list = Int32Array.from({ length: size }, (_, activity) => activity)
  for (let at = size - 1; at > 0; at -= 1) {
    const other = random.between(0, at)
    ;[list[at], list[other]] = [list[other]!, list[at]!]
  }
  return { list, keys: Float64Array.from({ length: size }, () => random.between(-size, size)).sort() }
}

/** Array.prototype.sort keeps the order of equal keys. */
const sorted = (list: Int32Array, keyOf: Float64Array): readonly number[] =>
  Array.from(list).toSorted((a, b) => keyOf[a]! - keyOf[b]!)

describe.each([1, 7, 200, 1000])('a list of %i', (size) => {
  it('is sorted by other keys, equal ones in the order that they had', () => {
    const { list, keys } = keyedList(size)
    const keyOf = Float64Array.from({ length: size }, () => random.between(-size, size / 2))
    const expected = sorted(list, keyOf)
    rekey(list, keys, (activity) => keyOf[activity]!)
    expect(Array.from(list)).toEqual(expected)
    expect(Array.from(keys)).toEqual(expected.map((activity) => keyOf[activity]))
  })

  it.each([0, 0.1, 1])('is sorted again when a share of %d got other keys', (share) => {
    const { list, keys } = keyedList(size)
    const keyOf = new Float64Array(size)
    list.forEach((activity, at) => (keyOf[activity] = keys[at]!))
    for (let activity = 0; activity < size; activity += 1)
      if (random.next() < share) keyOf[activity] = random.between(-size, size)
    const expected = sorted(list, keyOf)
    createResort(size)(list, keys, keyOf)
    expect(Array.from(list)).toEqual(expected)
    expect(Array.from(keys)).toEqual(expected.map((activity) => keyOf[activity]))
  })
})
