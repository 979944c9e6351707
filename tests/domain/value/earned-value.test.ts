import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { earnedSchedule, earnedValue, type ValueInputs } from '../../../domain/value/earned-value.ts'

const inputs = (bac: number, pv: number, ev: number, ac: number): ValueInputs => ({
  budgetAtCompletion: bac,
  plannedValue: pv,
  earnedValue: ev,
  actualCost: ac,
})

describe('earned value', () => {
  test('a published forecast is met: BAC 100, PV 50, EV 40, AC 45', () => {
    // Worked example of a forecasting poster; figures printed to two or three decimals.
    const value = earnedValue(inputs(100, 50, 40, 45))
    expect(value.costVariance).toBe(-5)
    expect(value.scheduleVariance).toBe(-10)
    expect(value.costPerformanceIndex).toBeCloseTo(0.889, 3)
    expect(value.schedulePerformanceIndex).toBe(0.8)
    expect(value.asSoFar?.estimateAtCompletion).toBeCloseTo(112.5, 9)
    expect(value.asSoFar?.estimateToComplete).toBeCloseTo(67.5, 9)
    expect(value.asSoFar?.varianceAtCompletion).toBeCloseTo(-12.5, 9)
    expect(value.asSoFarAndLate?.estimateAtCompletion).toBeCloseTo(129.375, 9)
    expect(value.toCompletePerformanceIndex).toBeCloseTo(1.0909, 4)
  })

  test('the rest as estimated costs what it was estimated at', () => {
    // Same example, by hand: 45 + (100 - 40).
    expect(earnedValue(inputs(100, 50, 40, 45)).asEstimated).toEqual({
      estimateAtCompletion: 105,
      estimateToComplete: 60,
      varianceAtCompletion: -5,
    })
  })

  test('the indices and variances of a second published case are met', () => {
    // Tests of the R package PRA: BAC 100000, PV 40000, EV 35000, AC 36000.
    const value = earnedValue(inputs(100_000, 40_000, 35_000, 36_000))
    expect(value.schedulePerformanceIndex).toBe(0.875)
    expect(value.costPerformanceIndex).toBeCloseTo(0.9722222, 7)
    expect(value.scheduleVariance).toBe(-5_000)
    expect(value.costVariance).toBe(-1_000)
  })

  test('before any hour is spent or planned the indices are undefined', () => {
    const value = earnedValue(inputs(100, 0, 0, 0))
    expect(value).toMatchObject({
      costPerformanceIndex: null,
      schedulePerformanceIndex: null,
      asSoFar: null,
      asSoFarAndLate: null,
      toCompletePerformanceIndex: 1,
      asEstimated: { estimateAtCompletion: 100 },
    })
  })

  test('hours spent with nothing earned give an index of 0 and no forecast from it', () => {
    expect(earnedValue(inputs(100, 20, 0, 15))).toMatchObject({
      costPerformanceIndex: 0,
      schedulePerformanceIndex: 0,
      asSoFar: null,
      asSoFarAndLate: null,
    })
  })

  test('no pace keeps a budget that is spent', () => {
    expect(earnedValue(inputs(100, 90, 80, 100)).toCompletePerformanceIndex).toBeNull()
    expect(earnedValue(inputs(100, 90, 80, 120)).toCompletePerformanceIndex).toBeNull()
  })

  test('at the end every forecast is what it took', () => {
    const value = earnedValue(inputs(100, 100, 100, 130))
    expect(value.asSoFar?.estimateAtCompletion).toBeCloseTo(130, 9)
    expect(value.asSoFarAndLate?.estimateAtCompletion).toBeCloseTo(130, 9)
    expect(value.asEstimated.estimateAtCompletion).toBe(130)
  })

  test('no figures give NaN or infinity', () => {
    const figure = fc.oneof(fc.constant(0), fc.double({ min: 0, max: 1e9, noNaN: true }))
    fc.assert(
      fc.property(figure, figure, figure, figure, (bac, pv, ev, ac) => {
        const { asEstimated, asSoFar, asSoFarAndLate, ...own } = earnedValue(inputs(bac, pv, ev, ac))
        const figures = [own, asEstimated, asSoFar ?? {}, asSoFarAndLate ?? {}].flatMap(Object.values)
        expect(figures.filter((each) => each !== null && !Number.isFinite(each))).toEqual([])
      }),
    )
  })
})

describe('earned schedule (Lipke 2003)', () => {
  // Own series, reckoned by hand with Lipke's formulas: 100 h over five weeks, in truth done in seven.
  const plannedValues = [10, 30, 60, 85, 100]
  const scheduleAt = (ev: number, actualTime: number) =>
    earnedSchedule({ plannedValues, earnedValue: ev, actualTime })

  test('work earned after three weeks lies between two weeks of the plan', () => {
    // C = 2, ES = 2 + (45 - 30) / (60 - 30) = 2.5; SV(t) = -0.5; SPI(t) = 2.5 / 3; IEAC(t) = 5 / (2.5 / 3) = 6.
    const schedule = scheduleAt(45, 3)
    expect(schedule?.plannedDuration).toBe(5)
    expect(schedule?.earnedSchedule).toBe(2.5)
    expect(schedule?.scheduleVariance).toBe(-0.5)
    expect(schedule?.schedulePerformanceIndex).toBeCloseTo(2.5 / 3, 12)
    expect(schedule?.estimateAtCompletion).toBeCloseTo(6, 12)
  })

  test('work earned within the first week counts from nothing', () => {
    expect(scheduleAt(4, 1)?.earnedSchedule).toBeCloseTo(0.4, 12)
    expect(scheduleAt(0, 1)).toMatchObject({
      earnedSchedule: 0,
      schedulePerformanceIndex: 0,
      estimateAtCompletion: null,
    })
  })

  test('work earned exactly to plan is that week of the plan', () => {
    expect(plannedValues.map((pv, index) => scheduleAt(pv, index + 1)?.scheduleVariance)).toEqual([
      0, 0, 0, 0, 0,
    ])
  })

  test('at the end of a late job the index by value is back at 1 and the index by time is not', () => {
    expect(earnedValue(inputs(100, 100, 100, 140)).schedulePerformanceIndex).toBe(1)
    const schedule = scheduleAt(100, 7)
    expect(schedule?.schedulePerformanceIndex).toBeCloseTo(5 / 7, 12)
    expect(schedule?.scheduleVariance).toBe(-2)
    expect(schedule?.estimateAtCompletion).toBeCloseTo(7, 12)
  })

  test('weeks without planned work at the end of a plan are no part of its duration', () => {
    expect(
      earnedSchedule({ plannedValues: [50, 100, 100, 100], earnedValue: 100, actualTime: 2 }),
    ).toMatchObject({
      plannedDuration: 2,
      earnedSchedule: 2,
      scheduleVariance: 0,
    })
  })

  test('a pause in the plan is passed when what came before it is earned', () => {
    // C counts every week whose planned value is reached: weeks 1 to 3.
    const paused = [40, 40, 40, 100]
    expect(earnedSchedule({ plannedValues: paused, earnedValue: 40, actualTime: 3 })?.earnedSchedule).toBe(3)
    expect(earnedSchedule({ plannedValues: paused, earnedValue: 70, actualTime: 3 })?.earnedSchedule).toBe(
      3.5,
    )
  })

  test('before the start the indices are undefined', () => {
    expect(scheduleAt(0, 0)).toMatchObject({ schedulePerformanceIndex: null, estimateAtCompletion: null })
  })

  test('a plan without value has no earned schedule', () => {
    expect(earnedSchedule({ plannedValues: [], earnedValue: 0, actualTime: 1 })).toBeNull()
    expect(earnedSchedule({ plannedValues: [0, 0], earnedValue: 0, actualTime: 1 })).toBeNull()
  })

  test('more earned is never less schedule, and all stays within the plan', () => {
    const steps = fc.array(fc.integer({ min: 0, max: 40 }), { minLength: 1, maxLength: 12 })
    const share = fc.double({ min: 0, max: 1.2, noNaN: true })
    fc.assert(
      fc.property(steps, share, share, (planned, a, b) => {
        let sum = 0
        const curve = planned.map((step) => (sum += step))
        fc.pre(sum > 0)
        const [less, more] = [a, b].toSorted((x, y) => x - y).map((part) => part * sum)
        const es = (ev: number) => earnedSchedule({ plannedValues: curve, earnedValue: ev, actualTime: 1 })
        expect(es(less!)!.earnedSchedule).toBeLessThanOrEqual(es(more!)!.earnedSchedule)
        expect(es(more!)!.earnedSchedule).toBeLessThanOrEqual(es(more!)!.plannedDuration)
        expect(es(less!)!.earnedSchedule).toBeGreaterThanOrEqual(0)
      }),
    )
  })
})
