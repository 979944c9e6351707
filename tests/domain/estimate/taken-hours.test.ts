import { describe, expect, it } from 'vitest'
import {
  type GateToEstimate,
  hiddenMultipliers,
  type RepairBand,
  type RepairToEstimate,
} from '../../../domain/estimate/repair-band.ts'
import { valueAtScore } from '../../../domain/estimate/score-table.ts'
import { type Gate, GATES } from '../../../domain/gates.ts'
import { usualTruth } from '../../support/workshop-truth.ts'
import { ASSESSED, bandOn, hanger, HANGERS } from '../../support/hanger.ts'
import { createSimulatedWorkshop, simulatedHistory } from '../../support/simulated-workshop.ts'
import { createEstimateHistory } from '../../support/estimate-history.ts'

const ROWS = simulatedHistory(createSimulatedWorkshop(5), usualTruth(), 30)
const LEARNED = createEstimateHistory(ROWS)

const bandOf = (repair: RepairToEstimate, history = LEARNED): RepairBand => bandOn(history, repair)

describe('hours that were taken from finished repairs', () => {
  const taken = { repairs: 12, over: 1.3, deviation: 0 }

  it('count as what people would have estimated: what those ran over by is not added again', () => {
    const estimated = bandOf(hanger({}, scaled(1 / 1.3)))
    expect(bandOf(hanger({ taken })).hours.p80).toBeCloseTo(estimated.hours.p80, 6)
    expect(bandOf(hanger({ taken })).estimate).toBe(10)
    expect(bandOf(hanger({ taken })).words[0]).toBe(
      'Its hours were taken from 12 finished repairs: what those ran over by is in them and is not added again.',
    )
  })

  it('lie wider by as much as those lay apart in size', () => {
    const [alike, apart] = [0, 0.3].map(
      (deviation) => bandOf(hanger({ taken: { ...taken, deviation } })).hours,
    )
    expect(apart!.p80).toBeGreaterThan(1.05 * alike!.p80)
    expect(Math.abs(apart!.p50 / alike!.p50 - 1)).toBeLessThan(0.05)
  })

  it('count as they are where somebody has changed them since', () => {
    const changed = { fabricated: { assessed: 6 } } as const
    const plain = bandOf(hanger({ taken: { ...taken, over: 1 } }, changed))
    const fewer = bandOf(hanger({ taken }, changed))
    // 6 of 12 hours are not taken: between the whole and 1.3 of it.
    expect(plain.hours.p50 / fewer.hours.p50).toBeGreaterThan(1.05)
    expect(plain.hours.p50 / fewer.hours.p50).toBeLessThan(1.25)
  })

  it('tell the planner the same multiples of smaller figures', () => {
    const [own, less] = [hanger(), hanger({ taken })].map((repair) => hiddenMultipliers(bandOf(repair))!)
    expect(valueAtScore(own!, 0) / valueAtScore(less!, 0)).toBeCloseTo(1.3, 6)
  })

  it('leave what is learned of estimates as it was, once such a repair is finished', () => {
    const more = ROWS.filter(({ typeId }) => typeId === HANGERS).map((row, at) => ({
      ...row,
      taken: true,
      actual: 3 * row.actual,
      finished: { number: 9_000 + at, at },
    }))
    expect(createEstimateHistory([...ROWS, ...more]).multiples).toEqual(LEARNED.multiples)
    expect(
      bandOf(hanger({ worstHidden: 'pitted' }, ASSESSED), createEstimateHistory([...ROWS, ...more])).hours,
    ).toEqual(bandOf(hanger({ worstHidden: 'pitted' }, ASSESSED)).hours)
  })
})

const scaled = (factor: number): Partial<Record<Gate, Partial<GateToEstimate>>> =>
  Object.fromEntries(
    GATES.map((gate) => {
      const { before } = hanger().gates[gate]
      return [gate, { before: factor * before, assessed: factor * before }]
    }),
  )
