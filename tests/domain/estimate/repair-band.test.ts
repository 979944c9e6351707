import fc from 'fast-check'
import { describe, expect, it, test } from 'vitest'
import type { FinishedRepair } from '../../../domain/estimate/finished-repair.ts'
import { MULTIPLE_PRIOR } from '../../../domain/estimate/grade-multiples.ts'
import {
  bandFault,
  type GateToEstimate,
  hiddenMultipliers,
  repairBand,
  type RepairBand,
  type RepairToEstimate,
} from '../../../domain/estimate/repair-band.ts'
import { valueAtScore } from '../../../domain/estimate/score-table.ts'
import { type Grade, GRADES } from '../../../domain/facts/shapes.ts'
import { GATES } from '../../../domain/gates.ts'
import { USUAL_MULTIPLES } from '../../../domain/plan/likelihood/prior.ts'
import { usualTruth } from '../../support/workshop-truth.ts'
import { ASSESSED, bandOn, hanger, HANGERS } from '../../support/hanger.ts'
import { createSimulatedWorkshop, simulatedHistory } from '../../support/simulated-workshop.ts'
import { createEstimateHistory } from '../../support/estimate-history.ts'

const NOTHING = createEstimateHistory([])
const ROWS = simulatedHistory(createSimulatedWorkshop(5), usualTruth(), 30)
const LEARNED = createEstimateHistory(ROWS)

const bandOf = (repair: RepairToEstimate, history = LEARNED): RepairBand => bandOn(history, repair)

const width = ({ hours }: RepairBand): number => hours.p80 - hours.p50

describe('the band of a repair', () => {
  it('with nothing finished and nothing hidden is the usual prior', () => {
    // exp(t(q; 4) x sqrt(0.05 x 2 / 2)) with t = 0.940965 and 1.533206 of any printed table.
    const { hours, method } = bandOf(hanger({ hiddenLayers: 0 }), NOTHING)
    expect(method).toBe('prior')
    expect(hours.p50).toBeCloseTo(10, 4)
    expect(hours.p80).toBeCloseTo(10 * Math.exp(0.940965 * Math.sqrt(0.05)), 4)
    expect(hours.p90).toBeCloseTo(10 * Math.exp(1.533206 * Math.sqrt(0.05)), 4)
  })

  it('lies higher the worse it looks from outside', () => {
    const p80 = GRADES.map((outside) => bandOf(hanger({ outside }), NOTHING).hours.p80)
    expect(p80).toEqual(p80.toSorted((a, b) => a - b))
  })

  it('lies between those of the best and the worst grade while nobody has graded the outside', () => {
    const at = (outside: Grade | null): number => bandOf(hanger({ outside }), NOTHING).hours.p50
    expect(at(null)).toBeGreaterThan(at('sound'))
    expect(at(null)).toBeLessThan(at('gone'))
  })

  it('narrows at assessed, to one grade with its own multiple', () => {
    const before = bandOf(hanger())
    const after = bandOf(hanger({ worstHidden: 'holed' }, ASSESSED))
    expect(width(after) / after.mean).toBeLessThan(width(before) / before.mean)
    expect(before.hidden.map(({ grade }) => grade)).toEqual(GRADES)
    expect(after.hidden.map(({ grade, multiple }) => [grade, multiple])).toEqual([
      ['holed', LEARNED.multiples.holed.multiple],
    ])
  })

  it('takes the figures of assessed as they stand when it was priced again', () => {
    const priced = { ...ASSESSED, fabricated: { assessed: 6 } }
    const again = bandOf(hanger({ worstHidden: 'gone' }, priced), NOTHING)
    // 1 + 1 spent, 6 + 0.5 + 0.5 + 1 + 1 + 1 to come.
    expect(again.hours.p50).toBeCloseTo(12, 4)
    expect(again.words[0]).toBe('It was priced again once it was found gone inside.')
    const asFirst = bandOf(hanger({ worstHidden: 'gone' }, ASSESSED), NOTHING)
    expect(asFirst.hours.p50).toBeCloseTo(2 + 8 * MULTIPLE_PRIOR.gone, 4)
  })

  it('is one for all hidden grades that may be where none of the layers could be seen', () => {
    expect(bandOf(hanger({}, ASSESSED)).hidden).toHaveLength(GRADES.length)
  })

  it('rises with hours that are spent beyond what was expected, and never below them', () => {
    const spent = (hours: number): RepairBand =>
      bandOf(hanger({ worstHidden: 'holed' }, { ...ASSESSED, fabricated: { spent: hours } }))
    const p50 = [0, 2, 8, 12, 30].map((hours) => spent(hours).hours.p50)
    expect(p50).toEqual(p50.toSorted((a, b) => a - b))
    expect(p50.at(-1)).toBeGreaterThan(32)
  })

  it('follows in part what the gates done came out at', () => {
    const fabricated = (hours: number): RepairBand =>
      bandOf(hanger({ worstHidden: 'holed' }, { ...ASSESSED, fabricated: { spent: hours, isDone: true } }))
    const rest = (hours: number): number => fabricated(hours).hours.p50 - 2 - hours
    expect(rest(9)).toBeGreaterThan(rest(5))
    expect(rest(9) / rest(5)).toBeLessThan(9 / 5)
  })

  it('is what was spent once it is finished', () => {
    const done = Object.fromEntries(GATES.map((gate) => [gate, { isDone: true, spent: 2 }]))
    const band = bandOf(hanger({ worstHidden: 'holed' }, done))
    expect([band.stage, band.method, band.hours]).toEqual([
      'finished',
      'spent',
      { p50: 16, p80: 16, p90: 16 },
    ])
  })

  test.each([
    [0, 'prior'],
    [3, 'prior'],
    [4, 'normal-inverse-gamma'],
    [19, 'normal-inverse-gamma'],
    [20, 'order statistic'],
  ] as const)('with %d finished ones of its type goes by the %s', (count, method) => {
    const own = ROWS.filter(({ typeId }) => typeId === HANGERS).slice(0, count)
    const others = ROWS.filter(({ typeId }) => typeId !== HANGERS)
    expect(bandOf(hanger(), createEstimateHistory([...others, ...own])).method).toBe(method)
  })

  it('of a repair without a type rests on all others', () => {
    const { method, rests } = bandOf(hanger({ typeId: null }))
    expect([method, rests]).toEqual(['prior', { own: 0, others: ROWS.length }])
  })

  it('is in order and finite for any repair, grade, history and hours', () => {
    const hours = fc.oneof(fc.constant(0), fc.double({ min: 0.01, max: 40, noNaN: true }))
    const grade = fc.constantFrom(...GRADES)
    fc.assert(
      fc.property(
        fc.array(fc.tuple(hours, hours, hours), { minLength: 8, maxLength: 8 }),
        fc.integer({ min: 0, max: 7 }),
        fc.option(grade),
        fc.option(grade),
        fc.boolean(),
        (figures, done, outside, worstHidden, hasHistory) => {
          const gates = Object.fromEntries(
            GATES.map((gate, index) => {
              const [before, assessed, spent] = figures[index]!
              return [gate, { before, assessed, spent: index > done ? 0 : spent, isDone: index < done }]
            }),
          )
          const band = repairBand(hasHistory ? LEARNED : NOTHING, hanger({ outside, worstHidden }, gates))
          if (band === null) return
          const spent = GATES.reduce((sum, gate) => sum + (gates[gate]?.spent ?? 0), 0)
          const { p50, p80, p90 } = band.hours
          expect([p50, p80, p90, band.mean, ...band.table].every(Number.isFinite)).toBe(true)
          expect(p50).toBeGreaterThanOrEqual(spent - 1e-9)
          expect(p80).toBeGreaterThanOrEqual(p50)
          expect(p90).toBeGreaterThanOrEqual(p80)
          expect(band.table).toEqual(band.table.toSorted((a, b) => a - b))
        },
      ),
      { numRuns: 150 },
    )
  })
})

describe('what is no estimate', () => {
  const all = (over: Partial<GateToEstimate>) => Object.fromEntries(GATES.map((gate) => [gate, over]))
  test.each([
    ['has no hours', all({ before: 0, assessed: 0 }), 'It has no estimate yet. Estimate its gates.'],
    [
      'has hours that are no number',
      { welded: { assessed: NaN } },
      'The hours of welded are not numbers from 0 on. Correct them.',
    ],
    [
      'has hours below 0',
      { welded: { before: -1 } },
      'The hours of welded are not numbers from 0 on. Correct them.',
    ],
    [
      'has its three points out of order',
      { primed: { points: { shortest: 3, likely: 2, longest: 4 } } },
      'The hours of primed are not in order. Give them as shortest, most likely, longest.',
    ],
  ])('is said of a repair that %s', (_, gates, words) => {
    const repair = hanger({}, gates)
    expect(bandFault(repair)).toBe(words)
    expect(repairBand(LEARNED, repair)).toBeNull()
  })

  it('is left out of the history', () => {
    const broken = ROWS.slice(0, 3).map((row, index) => ({
      ...row,
      ...[{ before: 0 }, { actual: NaN }, { actual: 0 }][index],
    }))
    expect(createEstimateHistory(broken).repairs).toBe(0)
  })
})

describe('what a band rests on, in words', () => {
  const rows = (count: number, worstHidden: Grade): readonly FinishedRepair[] =>
    ROWS.filter(({ typeId }) => typeId === HANGERS)
      .slice(0, count)
      .map((row) => ({ ...row, outside: 'pitted', worstHidden }))

  it('counts what was hidden behind the grade outside', () => {
    const [nine, five] = [rows(9, 'holed'), rows(14, 'pitted').slice(9)]
    const { words } = bandOf(hanger(), createEstimateHistory([...nine, ...five]))
    expect(words[0]).toBe('Of 14 spring hangers graded pitted from outside, 9 were holed inside.')
    expect(words[1]).toMatch(
      /^Learned from 14 finished repairs of this type \(normal-inverse-gamma\), starting from the usual prior: half at or under 1\.00 times what was expected, four of five at or under 1\.23 times\.$/,
    )
  })

  it('states the prior while nothing is finished', () => {
    expect(bandOf(hanger(), NOTHING).words).toEqual([
      'No spring hangers graded pitted from outside are finished yet; the usual belief "worse inside than out" counts most.',
      'No repair of this type is finished yet; it rests on the usual prior: half at or under 1.00 times what was expected, four of five at or under 1.23 times.',
    ])
  })

  it('says what a known grade takes and what is spent', () => {
    const { words } = bandOf(hanger({ worstHidden: 'holed' }, ASSESSED), NOTHING)
    expect(words[0]).toBe('Holed inside takes 1.30 times the first estimate (the usual belief).')
    expect(words.at(-1)).toBe('2.0 hours are spent so far; the figures are for the whole repair.')
  })

  it('asks for the grade outside where nobody has given it', () => {
    expect(bandOf(hanger({ outside: null }), NOTHING).words[1]).toBe(
      'Nobody has graded it from outside yet; with the grade the band is narrower.',
    )
  })
})

describe('what is hidden, for the planner', () => {
  it('is a table of multiples that rises, and none once it is assessed', () => {
    const table = hiddenMultipliers(bandOf(hanger(), NOTHING))!
    expect(table).toEqual(table.toSorted((a, b) => a - b))
    expect(table[12]).toBeGreaterThan(1)
    expect(hiddenMultipliers(bandOf(hanger({ worstHidden: 'holed' }, ASSESSED)))).toBeNull()
  })

  it('leaves out what the gates spread by their own three points', () => {
    const spread = (repair: RepairToEstimate): number => {
      const table = hiddenMultipliers(bandOf(repair, NOTHING))!
      return table.at(16)! / table.at(8)!
    }
    const sure = Object.fromEntries(
      GATES.map((gate) => [gate, { points: { shortest: 1, likely: 1, longest: 1 } }]),
    )
    expect(spread(hanger())).toBeLessThan(spread(hanger({}, sure)))
  })

  it('agrees, with nothing finished, with what the planner takes for any repair: half and four of five, to 5 %', () => {
    const sure = Object.fromEntries(
      GATES.map((gate) => [gate, { points: { shortest: 1, likely: 1, longest: 1 } }]),
    )
    const table = hiddenMultipliers(bandOf(hanger({ outside: null }, sure), NOTHING))!
    for (const score of [0, 0.8416])
      expect(Math.abs(valueAtScore(table, score) / valueAtScore(USUAL_MULTIPLES, score) - 1)).toBeLessThan(
        0.05,
      )
  })
})
