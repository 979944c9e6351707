import fc from 'fast-check'
import psychrolib from 'psychrolib'
import { describe, expect, test } from 'vitest'
import {
  dewPointC,
  judgeConditions,
  saturationVapourPressurePa,
  steelMarginC,
  type ConditionsLimits,
  type ConditionsReading,
} from '../../../domain/measure/dew-point.ts'
import type { Result } from '../../../domain/refusal.ts'

psychrolib.SetUnitSystem(psychrolib.SI)

const valueOf = (result: Result<number>): number => {
  if (!result.ok) throw new Error(result.refusal.message)
  return result.value
}
const reading = (changes: Partial<ConditionsReading> = {}): ConditionsReading => ({
  airC: 18,
  humidityPercent: 60,
  steelC: 17,
  ...changes,
})
const limits = (changes: Partial<ConditionsLimits> = {}): ConditionsLimits => ({
  minMarginC: 3,
  maxHumidityPercent: 85,
  minAirC: 5,
  maxAirC: 35,
  ...changes,
})

describe('dew point', () => {
  // psychrolib 2.5 (ASHRAE Handbook Fundamentals 2017), +-0.05 degrees C.
  test.each([
    [20, 50, 9.27],
    [20, 80, 16.447],
    [25, 50, 13.864],
    [10, 80, 6.713],
  ])('air of %d °C at %d percent has its dew point at %d °C', (airC, humidity, expected) => {
    expect(Math.abs(valueOf(dewPointC(airC, humidity)) - expected)).toBeLessThanOrEqual(0.05)
    expect(psychrolib.GetTDewPointFromRelHum(airC, humidity / 100)).toBeCloseTo(expected, 2)
  })

  // Printed examples of coating practice under ISO 8502-4, in whole degrees.
  test.each([
    [16, 71, 11],
    [30, 55, 20],
  ])('the printed example of %d °C and %d percent gives %d °C', (airC, humidity, expected) => {
    expect(Math.round(valueOf(dewPointC(airC, humidity)))).toBe(expected)
  })

  test('over the weather of a workshop it stays within 0.05 °C of psychrolib', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 5, max: 35, noNaN: true }),
        fc.double({ min: 30, max: 100, noNaN: true }),
        (airC, humidity) => {
          const second = psychrolib.GetTDewPointFromRelHum(airC, humidity / 100)
          // Below freezing psychrolib reckons over ice, this program over water as hygrometers do.
          fc.pre(second > 0)
          expect(Math.abs(valueOf(dewPointC(airC, humidity)) - second)).toBeLessThanOrEqual(0.05)
        },
      ),
    )
  })

  test('saturated air is at its dew point', () => {
    expect(valueOf(dewPointC(12, 100))).toBeCloseTo(12, 10)
  })

  test('vapour pressure over water at 25 °C is 3169.7 Pa within 0.5 %', () => {
    // ASHRAE Handbook Fundamentals 2017, saturation table.
    expect(Math.abs(valueOf(saturationVapourPressurePa(25)) / 3169.7 - 1)).toBeLessThanOrEqual(0.005)
    // By definition of the Magnus formula with the coefficients of the WMO.
    expect(valueOf(saturationVapourPressurePa(0))).toBe(611.2)
  })

  test('the dew point is where the vapour in the air saturates', () => {
    const vapour = valueOf(saturationVapourPressurePa(21)) * 0.64
    expect(valueOf(saturationVapourPressurePa(valueOf(dewPointC(21, 64))))).toBeCloseTo(vapour, 6)
  })

  test('the margin is steel temperature minus dew point', () => {
    expect(valueOf(steelMarginC({ airC: 12, humidityPercent: 100, steelC: 15.5 }))).toBeCloseTo(3.5, 10)
  })

  test.each([
    [-45.1, 50],
    [60.1, 50],
    [Number.NaN, 50],
    [20, 0],
    [20, -5],
    [20, 100.1],
    [20, Number.NaN],
    [Infinity, 50],
  ])('air of %d °C at %d percent is refused', (airC, humidity) => {
    expect(dewPointC(airC, humidity)).toMatchObject({ ok: false, refusal: { code: 'bad-input' } })
  })

  test('the bounds themselves are readings', () => {
    expect([dewPointC(-45, 1), dewPointC(60, 100)].map((result) => result.ok)).toEqual([true, true])
  })

  test('a refusal says the bounds, the reading and what to do', () => {
    expect(dewPointC(71, 50)).toEqual({
      ok: false,
      refusal: {
        code: 'bad-input',
        message: 'Air temperature must be between -45 and 60 °C, not 71 °C.',
        next: 'Read the thermometer again.',
      },
    })
    expect(steelMarginC(reading({ steelC: 90 }))).toMatchObject({
      refusal: { message: 'Steel temperature must be between -45 and 60 °C, not 90 °C.' },
    })
    expect(dewPointC(20, 0)).toMatchObject({
      refusal: { message: 'Relative humidity must be above 0 and at most 100 %, not 0 %.' },
    })
    expect(saturationVapourPressurePa(-50).ok).toBe(false)
  })
})

describe('conditions', () => {
  test('a mild dry day is inside', () => {
    expect(judgeConditions(reading(), limits())).toEqual({ inside: true, problems: [] })
  })

  test('16 °C, 71 % and steel of 13 °C are not fit', () => {
    // Printed example of coating practice under ISO 8502-4: dew point 11 °C, steel must be 3 °C above it.
    const judged = judgeConditions({ airC: 16, humidityPercent: 71, steelC: 13 }, limits())
    expect(judged).toEqual({
      inside: false,
      problems: ['steel is 2.2 °C above the dew point (10.8 °C); at least 3 °C is needed'],
    })
  })

  test('steel exactly at the margin is inside, a hundredth less is not and does not read as enough', () => {
    const saturated = { airC: 10, humidityPercent: 100 }
    expect(judgeConditions({ ...saturated, steelC: 13 }, limits({ maxHumidityPercent: null })).inside).toBe(
      true,
    )
    expect(judgeConditions({ ...saturated, steelC: 12.99 }, limits({ maxHumidityPercent: null }))).toEqual({
      inside: false,
      problems: ['steel is 2.9 °C above the dew point (10.0 °C); at least 3 °C is needed'],
    })
  })

  test('steel at and below the dew point is said so', () => {
    const open = limits({ maxHumidityPercent: null })
    const saturated = { airC: 10, humidityPercent: 100 }
    expect(judgeConditions({ ...saturated, steelC: 10 }, open).problems).toEqual([
      'steel is at the dew point (10.0 °C); at least 3 °C is needed',
    ])
    expect(judgeConditions({ ...saturated, steelC: 8.5 }, open).problems).toEqual([
      'steel is 1.5 °C below the dew point (10.0 °C); at least 3 °C is needed',
    ])
  })

  test('humidity of 85 % is inside, 85.5 % is not', () => {
    expect(judgeConditions(reading({ humidityPercent: 85, steelC: 25 }), limits()).inside).toBe(true)
    expect(judgeConditions(reading({ humidityPercent: 85.5, steelC: 25 }), limits()).problems).toEqual([
      'relative humidity is 85.5 %; at most 85 % is allowed',
    ])
  })

  test('air too cold or too warm for the product is said', () => {
    expect(judgeConditions(reading({ airC: 4.9 }), limits()).problems).toEqual([
      'air is 4.9 °C; at least 5 °C is needed',
    ])
    expect(
      judgeConditions(reading({ airC: 36, humidityPercent: 30, steelC: 36 }), limits()).problems,
    ).toEqual(['air is 36 °C; at most 35 °C is allowed'])
  })

  test('limits that are not set are not asked for', () => {
    const open = limits({ maxHumidityPercent: null, minAirC: null, maxAirC: null })
    expect(judgeConditions({ airC: 1, humidityPercent: 99, steelC: 20 }, open).inside).toBe(true)
  })

  test('every problem is named at once', () => {
    expect(judgeConditions({ airC: 2, humidityPercent: 95, steelC: 2 }, limits()).problems).toHaveLength(3)
  })

  test('a reading out of bounds is not inside', () => {
    expect(judgeConditions(reading({ humidityPercent: 0 }), limits())).toEqual({
      inside: false,
      problems: ['Relative humidity must be above 0 and at most 100 %, not 0 %.'],
    })
  })
})
