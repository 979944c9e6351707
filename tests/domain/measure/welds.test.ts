import { describe, expect, test } from 'vitest'
import {
  judgeWelds,
  nuggetDiameterMm,
  SPOT_WELD_TABLE,
  spotWeldRow,
  type WeldJoint,
} from '../../../domain/measure/welds.ts'

const joint = (changes: Partial<WeldJoint> = {}): WeldJoint => ({
  name: 'Lower flange',
  kind: 'spot',
  planned: 18,
  done: 18,
  ...changes,
})

describe('the weld plan', () => {
  test('is met when every joint has what was planned, or more', () => {
    const joints = [
      joint(),
      joint({ kind: 'plug', planned: 6, done: 7 }),
      joint({ kind: 'seam', planned: 200, done: 200 }),
    ]
    expect(judgeWelds(joints)).toEqual({ inside: true, problems: [] })
  })

  test('names what each joint lacks, spots and plugs by count and seams by length', () => {
    expect(
      judgeWelds([
        joint({ done: 14 }),
        joint({ name: 'Inner end', kind: 'plug', planned: 1, done: 0 }),
        joint({ name: 'Patch', kind: 'seam', planned: 200, done: 120.5 }),
      ]),
    ).toEqual({
      inside: false,
      problems: [
        'Lower flange: 14 of 18 spot welds, 4 more are needed',
        'Inner end: 0 of 1 plug weld, 1 more is needed',
        'Patch: 120.5 of 200 mm of seam, 79.5 mm more is needed',
      ],
    })
  })

  test('welds to spare on one joint do not make up for another', () => {
    expect(judgeWelds([joint({ done: 30 }), joint({ name: 'Upper flange', done: 17 })]).problems).toEqual([
      'Upper flange: 17 of 18 spot welds, 1 more is needed',
    ])
  })

  test('a count that is not one is a problem', () => {
    expect(judgeWelds([joint({ done: -1 })]).inside).toBe(false)
    expect(judgeWelds([joint({ done: Number.NaN })]).inside).toBe(false)
    expect(judgeWelds([joint({ done: 18.5 })]).problems).toEqual([
      'Lower flange: spot welds are counted in whole numbers',
    ])
  })
})

describe('spot welds in low-carbon sheet', () => {
  // Suppliers' data sheet for spot welding low-carbon steel, in inches, converted: thickness, overlap, spacing, nugget.
  test.each([
    [0.79, 11.1, 12.7, 4.09],
    [1.02, 12.7, 19.0, 4.6],
    [1.27, 14.3, 22.2, 5.33],
    [1.57, 15.9, 25.4, 5.87],
  ])(
    'sheet of %d mm has overlap %d, spacing %d and nugget %d mm',
    (thicknessMm, overlapMm, spacingMm, nuggetMm) => {
      expect(spotWeldRow(thicknessMm)).toEqual({
        ok: true,
        value: { thicknessMm, overlapMm, spacingMm, nuggetMm },
      })
    },
  )

  test('sheet between two rows takes the row of the thicker one', () => {
    expect(spotWeldRow(0.9)).toMatchObject({ value: { thicknessMm: 1.02 } })
    expect(spotWeldRow(0.7)).toMatchObject({ value: { thicknessMm: 0.79 } })
  })

  test.each([0, -1, 1.6, Number.NaN])('sheet of %d mm is not in the table', (thicknessMm) => {
    expect(spotWeldRow(thicknessMm)).toMatchObject({
      ok: false,
      refusal: { code: 'bad-input', next: 'Plan as many welds as the original joint had.' },
    })
  })

  test('the published nuggets lie between the rules of 4 and 5 times the root of the thickness', () => {
    // Common rule of spot welding standards: 4 sqrt(t) in general, 5 sqrt(t) where it matters.
    for (const { thicknessMm, nuggetMm } of SPOT_WELD_TABLE) {
      expect(nuggetDiameterMm(thicknessMm, 'general')).toMatchObject({
        ok: true,
        value: 4 * thicknessMm ** 0.5,
      })
      const [least, most] = (['general', 'load-bearing'] as const).map((kind) => {
        const result = nuggetDiameterMm(thicknessMm, kind)
        return result.ok ? result.value : Number.NaN
      })
      expect(nuggetMm).toBeGreaterThan(least!)
      expect(nuggetMm).toBeLessThan(most!)
    }
    expect(nuggetDiameterMm(1, 'load-bearing')).toEqual({ ok: true, value: 5 })
    expect(nuggetDiameterMm(0, 'general').ok).toBe(false)
  })
})
