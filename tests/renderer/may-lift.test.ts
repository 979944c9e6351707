import { expect, test } from 'vitest'
import { bearingRepairs, tooFewToLift } from '../../renderer/parts/gates/may-lift.ts'

const repair = (name: string, over: Partial<Parameters<typeof bearingRepairs>[0][number]> = {}) => ({
  name,
  loadBearing: true,
  onPart: false,
  finished: false,
  retired: false,
  ...over,
})
const left = repair('Sill, left')

test('support is lifted for load-bearing repairs of the shell that are still to be finished', () => {
  const repairs = [
    left,
    repair('Wing', { loadBearing: false }),
    repair('Door frame', { onPart: true }),
    repair('Sill, right', { finished: true }),
    repair('Floor', { retired: true }),
  ]
  expect(bearingRepairs(repairs)).toEqual([left])
})

test('it takes two of them: with fewer it is said why, and nothing is offered', () => {
  expect(tooFewToLift([left, repair('Sill, right')])).toBeNull()
  expect(tooFewToLift([left])).toMatch(/^Sill, left is the only load-bearing repair/)
  expect(tooFewToLift([])).toBe('No load-bearing repair of this shell is still to be finished.')
})
