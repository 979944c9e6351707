import { describe, expect, test } from 'vitest'
import { costIdSchema, spendingIdSchema } from '../../../domain/ids.ts'
import { targetHours } from '../../../domain/value/hours.ts'
import { onGate, repairId, variationId } from '../../support/car-builder.ts'
import { VISIT } from '../../support/driver.ts'
import { createScene } from '../../support/scene.ts'
import { buildWorkshop } from '../../support/workshop-builder.ts'

const plate = costIdSchema.parse('cost-plate')
const cost = {
  costId: plate,
  repairId: repairId('Boot floor'),
  kind: 'material' as const,
  name: 'Sheet 1 mm',
}

function withRepair() {
  const scene = createScene()
  scene.repair('Boot floor')
  return scene
}

describe('money of an estimate', () => {
  test('is accepted by its payer, and put to them anew when it changes; the first amount stays', () => {
    const { driver } = withRepair()
    const costs = () => driver.car.visits.get(VISIT)?.costs.get(plate)
    const set = (amount: number) =>
      driver.must('setCosts', { visitId: VISIT, costs: [{ ...cost, amount, payer: 'owner' }] })
    set(4_000)
    driver.must('acceptEstimate', {
      visitId: VISIT,
      payer: 'owner',
      lineIds: [],
      costIds: [plate],
      how: 'call',
      note: '',
    })
    expect(costs()).toMatchObject({ amount: 4_000, accepted: { by: expect.any(String) } })
    set(5_500)
    expect(costs()).toMatchObject({ amount: 5_500, baseline: 4_000, accepted: null })
  })

  const takeOff = ({ driver }: ReturnType<typeof withRepair>) =>
    driver.give('takeCostOff', { visitId: VISIT, costId: plate })

  test('that nobody accepted is taken off again, and may come back', () => {
    const scene = withRepair()
    const { driver } = scene
    const set = () =>
      driver.must('setCosts', { visitId: VISIT, costs: [{ ...cost, amount: 4_000, payer: 'owner' }] })
    set()
    expect(takeOff(scene).ok).toBe(true)
    expect([...(driver.car.visits.get(VISIT)?.costs ?? [])]).toEqual([])
    expect(takeOff(scene)).toMatchObject({
      ok: false,
      refusal: { message: 'This cost is not on the estimate of the visit that is going on.' },
    })
    set()
    expect(driver.car.visits.get(VISIT)?.costs.get(plate)).toMatchObject({ amount: 4_000, baseline: 4_000 })
  })

  test('that was accepted once stays, whatever it came to since, so that its first amount does too', () => {
    const scene = withRepair()
    const { driver } = scene
    const set = (amount: number) =>
      driver.must('setCosts', { visitId: VISIT, costs: [{ ...cost, amount, payer: 'owner' }] })
    const answer = { how: 'call' as const, note: '' }
    set(4_000)
    driver.must('acceptEstimate', {
      visitId: VISIT,
      payer: 'owner',
      lineIds: [],
      costIds: [plate],
      ...answer,
    })
    set(5_500)
    expect(takeOff(scene)).toMatchObject({
      ok: false,
      refusal: {
        message: 'Sheet 1 mm was accepted by the owner and stays on the estimate.',
        next: 'Set its amount to 0, and let its payer accept that.',
      },
    })
  })

  test('that something was spent on stays until that is voided', () => {
    const scene = withRepair()
    const { driver } = scene
    driver.must('setCosts', { visitId: VISIT, costs: [{ ...cost, amount: 4_000, payer: 'owner' }] })
    driver.must('spendCost', {
      ...cost,
      spendingId: spendingIdSchema.parse('spending-plate'),
      visitId: VISIT,
      date: '2026-01-05',
      amount: 3_990,
      payer: 'owner',
    })
    expect(takeOff(scene)).toMatchObject({
      ok: false,
      refusal: { message: 'Something was spent on Sheet 1 mm.' },
    })
  })

  test('that the workshop pays itself needs nobody’s answer', () => {
    const { driver } = withRepair()
    driver.must('setCosts', { visitId: VISIT, costs: [{ ...cost, amount: 4_000, payer: 'workshop' }] })
    expect(driver.car.visits.get(VISIT)?.costs.get(plate)?.accepted).not.toBeNull()
  })

  test('is refused when nothing is chosen, and when it is for a repair that is not there', () => {
    const { driver } = withRepair()
    const nothing = { visitId: VISIT, payer: 'owner' as const, lineIds: [], costIds: [] }
    expect(driver.give('acceptEstimate', { ...nothing, how: 'call', note: '' })).toMatchObject({
      ok: false,
      refusal: { message: 'Nothing is chosen.', next: 'Choose what is accepted.' },
    })
    const elsewhere = { ...cost, repairId: repairId('Nowhere'), amount: 1, payer: 'owner' as const }
    expect(driver.give('setCosts', { visitId: VISIT, costs: [elsewhere] })).toMatchObject({
      ok: false,
      refusal: { message: 'A cost is for a repair that is not known.' },
    })
  })

  test('is spent on a day that has come', () => {
    const { driver } = withRepair()
    const spend = (date: string) =>
      driver.give('spendCost', {
        ...cost,
        spendingId: spendingIdSchema.parse('spending-plate'),
        costId: null,
        visitId: VISIT,
        date,
        amount: 3_990,
        payer: 'owner',
      })
    expect(spend('2999-01-01')).toMatchObject({
      ok: false,
      refusal: { message: 'The date lies in the future.' },
    })
    expect(spend('2026-01-05').ok).toBe(true)
    expect(driver.car.spendings.size).toBe(1)
    expect(spend('2026-01-05')).toMatchObject({ ok: false, refusal: { code: 'already' } })
  })
})

describe('rates', () => {
  test('hold from their day on, those of the same day in place of each other', () => {
    const { rates } = buildWorkshop((add) => {
      const set = (from: string, usual: number) => add('ratesSet', { from, usual, bySkill: [] })
      set('2026-06-01', 7_000)
      set('2026-01-01', 6_000)
      set('2026-06-01', 7_500)
    })
    expect(rates).toEqual([
      { from: '2026-01-01', usual: 6_000, bySkill: [] },
      { from: '2026-06-01', usual: 7_500, bySkill: [] },
    ])
  })

  test('are one for each skill', () => {
    const twice = [
      { skill: 'weld', perHour: 7_000 },
      { skill: 'weld', perHour: 8_000 },
    ]
    expect(
      withRepair().driver.give('setRates', { from: '2026-01-01', usual: 6_000, bySkill: twice }),
    ).toMatchObject({ ok: false, refusal: { message: 'A skill has two rates.' } })
  })
})

describe('a variation', () => {
  const fabricated = onGate('Boot floor', 'fabricated')
  const raised = () => {
    const scene = withRepair()
    const { driver } = scene
    driver.must('raiseVariation', {
      variationId: variationId('Inner channel'),
      visitId: VISIT,
      payer: 'owner',
      title: 'Inner channel',
      why: 'holed behind the plate',
      ifNot: 'The plate rusts through again.',
      findings: [],
      attachments: [],
      lines: [{ target: fabricated, hours: 6, low: 4, high: 11 }],
      costs: [{ ...cost, amount: 9_000 }],
    })
    const authorised = () =>
      targetHours(driver.car, VISIT, fabricated, { at: driver.now, workshop: driver.workshop }).authorised
    const decide = (
      changed: Parameters<typeof driver.give<'decideVariation'>>[1]['changed'],
      decision: 'accepted' | 'declined' = 'accepted',
    ) =>
      driver.give('decideVariation', {
        variationId: variationId('Inner channel'),
        decision,
        changed,
        how: 'visit',
        note: '',
      })
    return { driver, authorised, decide, before: authorised() }
  }

  test('counts with the hours and the money that its payer accepted, and keeps what was asked', () => {
    const { driver, authorised, decide, before } = raised()
    const changed = {
      lines: [{ target: fabricated, hours: 4 }],
      costs: [{ costId: plate, amount: 8_000 }],
    }
    expect(decide(changed).ok).toBe(true)
    expect(authorised()).toBe(before + 4)
    expect(driver.car.variations.get(variationId('Inner channel'))).toMatchObject({
      status: 'accepted',
      decided: { changed: true },
      asked: [{ hours: 6, low: 4, high: 11 }],
      costs: [{ amount: 8_000 }],
    })
  })

  test('is not answered with work that was not asked for, nor declined with other hours', () => {
    const { authorised, decide, before } = raised()
    const other = { lines: [{ target: onGate('Boot floor', 'welded'), hours: 2 }], costs: [] }
    expect(decide(other)).toMatchObject({
      ok: false,
      refusal: { message: 'The answer names work that was not asked for.' },
    })
    const less = { lines: [{ target: fabricated, hours: 2 }], costs: [] }
    expect(decide(less, 'declined')).toMatchObject({
      ok: false,
      refusal: { message: 'What is declined has no other hours.' },
    })
    expect(authorised()).toBe(before)
  })

  test('with hours out of order is not taken', () => {
    const { driver } = withRepair()
    expect(
      driver.give('raiseVariation', {
        variationId: variationId('Out of order'),
        visitId: VISIT,
        payer: 'owner',
        title: 'Out of order',
        why: 'holed',
        ifNot: '',
        findings: [],
        attachments: [],
        lines: [{ target: fabricated, hours: 6, low: 8, high: 11 }],
        costs: [],
      }),
    ).toMatchObject({
      ok: false,
      refusal: { message: expect.stringContaining('Give the hours in order: low, likely, high.') },
    })
  })
})

describe('the grade seen from outside', () => {
  test('is entered before opening, and stands from then on', () => {
    const scene = withRepair()
    const { driver } = scene
    const grade = (value: 'pitted' | 'holed') =>
      driver.give('gradeOutside', { repairId: repairId('Boot floor'), grade: value, note: '' })
    expect(grade('pitted').ok).toBe(true)
    scene.passTo('Boot floor', 'opened')
    expect(grade('holed')).toMatchObject({ ok: false, refusal: { next: 'Grade its layers instead.' } })
    expect(driver.car.repairs.get(repairId('Boot floor'))?.outside?.grade).toBe('pitted')
  })
})

describe('hours taken from finished repairs', () => {
  test('are said once, before the repair is begun', () => {
    const scene = withRepair()
    const { driver } = scene
    const say = () =>
      driver.give('takeHours', { repairId: repairId('Boot floor'), repairs: 9, over: 1.2, deviation: 0.3 })
    expect(say().ok).toBe(true)
    expect(driver.car.repairs.get(repairId('Boot floor'))?.taken).toEqual({
      repairs: 9,
      over: 1.2,
      deviation: 0.3,
    })
    expect(say()).toMatchObject({ ok: false, refusal: { code: 'already' } })
  })

  test('cannot be said of a repair that is begun', () => {
    const scene = withRepair()
    scene.passTo('Boot floor', 'opened')
    const said = { repairId: repairId('Boot floor'), repairs: 9, over: 1.2, deviation: 0.3 }
    expect(scene.driver.give('takeHours', said)).toMatchObject({
      ok: false,
      refusal: { message: expect.stringContaining('is begun'), next: 'Change its estimate lines instead.' },
    })
  })
})
