import { expect, test } from 'vitest'
import { learnHistory } from '../../../domain/estimate/estimate-history.ts'
import { pastHistory } from '../../../domain/estimate/past-history.ts'
import { usualTruth } from '../../support/workshop-truth.ts'
import { createSimulatedWorkshop, simulatedHistory } from '../../support/simulated-workshop.ts'
import { toldBy } from '../../support/told-by.ts'
import { createEstimateHistory } from '../../support/estimate-history.ts'

const ROWS = simulatedHistory(createSimulatedWorkshop(8), usualTruth(), 4)
const NOW = learnHistory(ROWS)
const UNTIL = ROWS.slice(0, -5)
const TYPES = [...new Set(ROWS.map(({ typeId }) => typeId))]

test('what was known at a time is learned once, and is what those repairs alone tell', () => {
  const past = pastHistory(UNTIL, NOW)
  expect(pastHistory([...UNTIL], NOW)).toBe(past)
  expect(toldBy(past, TYPES, ['inner panel'])).toEqual(
    toldBy(createEstimateHistory(UNTIL), TYPES, ['inner panel']),
  )
})

test('other repairs up to the same last one are learned anew', () => {
  const [past, fewer] = [pastHistory(UNTIL, NOW), pastHistory(UNTIL.slice(5), NOW)]
  expect([past.repairs, fewer.repairs]).toEqual([UNTIL.length, UNTIL.length - 5])
  const corrected = UNTIL.map((row, at) => (at === 3 ? { ...row, worstHidden: 'gone' as const } : row))
  expect(pastHistory(corrected, NOW).multiples.gone).not.toEqual(past.multiples.gone)
})

test('all that is finished is what is known now', () => {
  expect(pastHistory([...ROWS], NOW)).toBe(NOW)
})

test('nothing finished is the stated prior', () => {
  expect(pastHistory([], NOW).repairs).toBe(0)
})
