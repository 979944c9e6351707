import { describe, expect, test } from 'vitest'
import {
  astmD610Grade,
  bendAllowance,
  flatLength,
  mmToNearestSwg,
  sheetMassKgPerM2,
  swgToMm,
  type Bend,
} from '../../../domain/measure/metal.ts'
import type { Result } from '../../../domain/refusal.ts'

const valueOf = <T>(result: Result<T>): T => {
  if (!result.ok) throw new Error(result.refusal.message)
  return result.value
}
const bend = (changes: Partial<Bend> = {}): Bend => ({
  thickness: 1.2,
  insideRadius: 2,
  angleDegrees: 90,
  kFactor: 0.33,
  ...changes,
})

describe('sheet', () => {
  // Imperial standard wire gauge, BS 3737, printed to 0.001 mm.
  test.each([
    [16, 1.626],
    [17, 1.422],
    [18, 1.219],
    [19, 1.016],
    [20, 0.914],
    [21, 0.813],
    [22, 0.711],
  ])('SWG %d is %d mm', (gauge, mm) => {
    expect(Math.abs(valueOf(swgToMm(gauge)) - mm)).toBeLessThanOrEqual(0.0005)
    expect(mmToNearestSwg(mm)).toBe(gauge)
  })

  test('SWG 18 is not the 18 of the US gauge', () => {
    // US manufacturers' standard gauge 18 = 0.0478 in.
    expect(valueOf(swgToMm(18)) - 0.0478 * 25.4).toBeGreaterThan(0.005)
  })

  test('sheet of 0.9 mm is nearest to SWG 20, and extremes to the ends of the table', () => {
    expect([0.9, 0.1, 9].map(mmToNearestSwg)).toEqual([20, 22, 16])
  })

  test.each([15, 23, 18.5, Number.NaN])('SWG %d is not in the table', (gauge) => {
    expect(swgToMm(gauge)).toMatchObject({
      ok: false,
      refusal: { next: 'Measure the sheet and give its thickness in mm.' },
    })
  })

  test('a square metre of SWG 18 weighs 9.569 kg and of SWG 20 7.175 kg', () => {
    // Reckoned from the gauge's printed mm at 7850 kg/m3.
    expect(sheetMassKgPerM2(1.219)).toBeCloseTo(9.569, 3)
    expect(sheetMassKgPerM2(0.914)).toBeCloseTo(7.175, 3)
  })
})

describe('bends', () => {
  test('90 degrees in 0.125 in sheet over a 0.125 in radius take 0.2827 in at K 0.44', () => {
    // Published worked example of a sheet-metal handbook page, in inches.
    const inches = bend({ thickness: 0.125, insideRadius: 0.125, kFactor: 0.44 })
    expect(Math.abs(valueOf(bendAllowance(inches)) - 0.2827)).toBeLessThanOrEqual(0.00005)
  })

  test('an angle of 50 by 30 mm outside from 1.2 mm sheet is cut 77.363628 mm long', () => {
    // Reckoned by hand: 80 - 2 x 3.2 + pi/2 x 2.396.
    expect(valueOf(flatLength(bend(), [50, 30]))).toBeCloseTo(77.363628, 6)
  })

  test('a hardly bent strip is as long as its legs', () => {
    expect(valueOf(flatLength(bend({ angleDegrees: 0.001 }), [50, 30]))).toBeCloseTo(80, 3)
  })

  test.each([
    bend({ thickness: 0 }),
    bend({ insideRadius: -1 }),
    bend({ angleDegrees: 0 }),
    bend({ angleDegrees: 180 }),
    bend({ kFactor: 0.51 }),
    bend({ kFactor: Number.NaN }),
  ])('%j is no bend', (wrong) => {
    expect(bendAllowance(wrong)).toMatchObject({ ok: false, refusal: { code: 'bad-input' } })
    expect(flatLength(wrong, [50, 30]).ok).toBe(false)
  })

  test('a leg shorter than its own bend is refused', () => {
    expect(flatLength(bend(), [50, 3.1])).toMatchObject({
      ok: false,
      refusal: { message: 'A leg is shorter than the bend itself.' },
    })
  })
})

describe('rust grade', () => {
  // ASTM D610-08, table of grades by rusted area.
  test.each([
    [0, 10],
    [0.01, 10],
    [0.0101, 9],
    [0.03, 9],
    [0.1, 8],
    [0.3, 7],
    [1, 6],
    [1.01, 5],
    [3, 5],
    [10, 4],
    [16, 3],
    [33, 2],
    [50, 1],
    [50.1, 0],
    [100, 0],
  ])('%d percent rusted is grade %d, with the name of the scale', (percent, grade) => {
    expect(astmD610Grade(percent)).toEqual({ ok: true, value: { scale: 'ASTM D610-08', grade } })
  })

  test.each([-0.1, 100.1, Number.NaN])('%d percent is no area', (percent) => {
    expect(astmD610Grade(percent)).toMatchObject({ ok: false, refusal: { code: 'bad-input' } })
  })
})
