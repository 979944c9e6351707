import { describe, expect, it } from 'vitest'
import type { VariationView } from '../../domain/views/view-shapes.ts'
import { GATES, type Gate } from '../../domain/gates.ts'
import { changedOf } from '../../renderer/parts/variation/answer-values.ts'
import { moneyRange, moreWords, rangeWords } from '../../renderer/parts/hours/band-words.ts'
import {
  hoursToLines,
  noBand,
  raiseSchema,
  totalsOf,
  type TypedBand,
} from '../../renderer/parts/variation/variation-values.ts'
import { onGate, repairId } from '../support/car-builder.ts'

const typed = (bands: Partial<Record<Gate, Partial<TypedBand>>>) =>
  Object.fromEntries(GATES.map((gate) => [gate, { ...noBand, ...bands[gate] }])) as Record<Gate, TypedBand>

const problemsOf = (hours: Record<Gate, TypedBand>, amount: number | null = 40) => {
  const values = {
    payer: 'owner',
    title: 'Longer section',
    why: 'holed',
    ifNot: '',
    findings: [],
    attachments: [],
    hours,
    costs: [{ costId: 'cost-sheet', kind: 'material', name: 'Sheet', amount }],
  }
  const read = raiseSchema('EUR').safeParse(values)
  return read.error?.issues.map(({ path, message }) => `${path.join('.')}: ${message}`) ?? []
}

describe('the hours of a variation as they are typed', () => {
  it('are as sure as the likely figure where low and high stay empty', () => {
    const hours = typed({ fabricated: { low: 4, likely: 6, high: 11 }, welded: { likely: 2 } })
    expect(problemsOf(hours)).toEqual([])
    expect(hoursToLines(hours, repairId('Boot floor'))).toEqual([
      { target: onGate('Boot floor', 'fabricated'), hours: 6, low: 4, high: 11 },
      { target: onGate('Boot floor', 'welded'), hours: 2, low: 2, high: 2 },
    ])
  })

  it.each<[string, Partial<TypedBand>, string]>([
    [
      'low above likely',
      { low: 8, likely: 6 },
      'hours.fabricated.low: Low is more than likely: at most 6 h.',
    ],
    [
      'high below likely',
      { likely: 6, high: 5 },
      'hours.fabricated.high: High is less than likely: at least 6 h.',
    ],
    ['no likely figure', { low: 2 }, 'hours.fabricated.likely: Give the likely hours too.'],
    [
      'nothing likely and more at the most',
      { likely: 0, high: 3 },
      'hours.fabricated.likely: Likely cannot be 0 h: leave the gate empty.',
    ],
    ['what is no figure', { likely: Number.NaN }, 'hours.fabricated.likely: Give a figure, like 4.5.'],
  ])('are refused beside the field for %s', (_, band, problem) => {
    expect(problemsOf(typed({ welded: { likely: 1 }, fabricated: band }))).toEqual([problem])
  })

  it('are asked for on one gate at least, and every cost for its amount', () => {
    expect(problemsOf(typed({}))).toEqual(['hours: Give hours more or less on one gate at least.'])
    expect(problemsOf(typed({ welded: { likely: 1 } }), null)).toEqual(['costs.0.amount: Give an amount.'])
  })

  it('come to a band, and to money where every gate has a rate', () => {
    const hours = typed({ fabricated: { low: 4, likely: 6, high: 11 }, welded: { likely: 2 } })
    const perHour = Object.fromEntries(GATES.map((gate) => [gate, 6_000])) as Record<Gate, number | null>
    expect(totalsOf(hours, perHour)).toEqual({
      band: { low: 6, likely: 8, high: 13 },
      labour: { low: 36_000, likely: 48_000, high: 78_000 },
    })
    expect(totalsOf(hours, { ...perHour, welded: null }).labour).toBeNull()
    expect(totalsOf(hours, null).labour).toBeNull()
  })
})

describe('a band in words', () => {
  it('runs from the smaller change to the larger, with its sign where it is mixed', () => {
    expect(rangeWords({ low: 4, likely: 6, high: 11 })).toBe('4.0 to 11.0 h')
    expect(rangeWords({ low: -8, likely: -6, high: -3 })).toBe('−3.0 to −8.0 h')
    expect(rangeWords({ low: -1, likely: 2, high: 3 })).toBe('−1.0 to 3.0 h')
    expect(rangeWords({ low: 2, likely: 2, high: 2 })).toBe('2.0 h')
    expect([moreWords(6), moreWords(-1)]).toEqual(['6.0 h more', '1.0 h less'])
    expect(moneyRange({ low: 30_000, likely: 48_000, high: 84_000 }, 'EUR')).toBe(
      '€300.00 to €840.00, likely €480.00',
    )
  })
})

describe('an answer', () => {
  const asked = { low: 4, likely: 6, high: 11 }
  // Only what an answer is made of.
  const variation = {
    lines: [{ target: onGate('Boot floor', 'fabricated'), asked }],
    costs: [{ costId: 'cost-sheet', asked: 4_000 }],
  } as unknown as VariationView

  it('is changed only where it differs from what was asked', () => {
    expect(changedOf(variation, { hours: [6], amounts: [4_000] })).toBeNull()
    expect(changedOf(variation, { hours: [4], amounts: [4_000] })).toEqual({
      lines: [{ target: onGate('Boot floor', 'fabricated'), hours: 4 }],
      costs: [{ costId: 'cost-sheet', amount: 4_000 }],
    })
  })
})
