import { expect, test } from 'vitest'
import { createEstimateHistory } from '../../../domain/estimate/estimate-history.ts'
import { pastHistory } from '../../../domain/estimate/past-history.ts'
import { usualTruth } from '../../../db/demo/workshop-truth.ts'
import { createSimulatedWorkshop, simulatedHistory } from '../../support/simulated-workshop.ts'

const ROWS = simulatedHistory(createSimulatedWorkshop(8), usualTruth(), 4)
/** No history, as it took no hours. */
const IDLE = { ...ROWS[0]!, actual: 0 }

test('what was known at a time is learned once, rows that tell nothing among it', () => {
  const until = [IDLE, ...ROWS]
  expect(pastHistory(until)).toBe(pastHistory([...until]))
  expect(pastHistory(until).multiples).toEqual(createEstimateHistory(ROWS).multiples)
})

test('another number of repairs up to the same last one is learned anew', () => {
  const [all, fewer] = [pastHistory(ROWS), pastHistory(ROWS.slice(5))]
  expect([all.repairs, fewer.repairs]).toEqual([ROWS.length, ROWS.length - 5])
})

test('nothing finished is the stated prior', () => {
  expect(pastHistory([]).repairs).toBe(0)
})
