import { expect, test } from 'vitest'
import { paceOn } from '../../../db/demo/job-book.ts'

const demo = {
  pace: [
    [-10, 0],
    [-5, 0.5],
    [-3, 0.5],
    [-1, 1],
  ],
} as const

test('the pace grows evenly between the days that are named and stands still where it is said to', () => {
  expect(paceOn(demo, -12)).toBe(0)
  expect(paceOn(demo, -10)).toBe(0)
  expect(paceOn(demo, -7.5)).toBeCloseTo(0.25, 12)
  expect(paceOn(demo, -4)).toBe(0.5)
  expect(paceOn(demo, -2)).toBeCloseTo(0.75, 12)
  expect(paceOn(demo, 0)).toBe(1)
})
