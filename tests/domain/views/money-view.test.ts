import { describe, expect, test } from 'vitest'
import type { CarState } from '../../../domain/car.ts'
import { moneyView, ratesView } from '../../../domain/views/money-view.ts'
import { buildCar, onGate, visitId } from '../../support/car-builder.ts'
import { acceptCost, estimateCost, type Rates, spend, workshopWith } from '../../support/money-builder.ts'
import { nameOf } from '../../support/workshop-builder.ts'

const now = Date.parse('2026-11-25T10:40:00Z')
const RATES: Rates = [
  { from: '2026-01-01', usual: 6_000, bySkill: [] },
  { from: '2026-06-01', usual: 6_500, bySkill: [{ skill: 'paint', perHour: 8_000 }] },
  { from: '2027-01-01', usual: 7_000, bySkill: [] },
]
const viewOf = (car: CarState, rates = RATES) =>
  moneyView({ car, now, workshop: workshopWith(rates), nameOf })

const withPanel = () => {
  const car = buildCar().repair('Boot floor').estimate(onGate('Boot floor', 'opened'), 2)
  estimateCost(car, 'Panel', 5_000, { repair: 'Boot floor' })
  return acceptCost(car, 'Panel')
}

describe('the rates', () => {
  test('are told with the earlier and the coming ones, the latest first', () => {
    const view = ratesView({ now, workshop: workshopWith(RATES), nameOf })
    expect(view.tables.map(({ from, standing }) => [from, standing])).toEqual([
      ['2027-01-01', 'coming'],
      ['2026-06-01', 'in force'],
      ['2026-01-01', 'earlier'],
    ])
    expect(view.skills).toEqual(['metalwork', 'paint'])
  })
})

describe('the money of a car', () => {
  test('names what each bill was agreed as, the latest day first', () => {
    const car = withPanel()
    spend(car, 'late bill', 2_000, { on: 'Panel', date: '2026-11-24' })
    spend(car, 'early bill', 300, { date: '2026-11-20' })
    const { spendings, costs } = viewOf(car.car())
    expect(spendings).toMatchObject([
      { name: 'late bill', costName: 'Panel' },
      { name: 'early bill', costName: null, repair: 'the whole car' },
    ])
    expect(costs).toMatchObject([{ name: 'Panel', spent: 2_000, accepted: true, repair: 'Boot floor' }])
  })

  test('keeps the first amount of a cost that has changed and waits again', () => {
    const car = estimateCost(withPanel(), 'Panel', 6_500, { repair: 'Boot floor' }).car()
    expect(viewOf(car).costs).toMatchObject([{ amount: 6_500, baseline: 5_000, accepted: false }])
  })

  test('says that no rates are set, and reckons the rest', () => {
    const view = viewOf(withPanel().car(), [])
    expect(view.withoutRate).toBe(
      'No rates are set, so that hours have no money yet; set rates on the Workshop screen.',
    )
    expect(view.whole?.authorised).toEqual({ labour: null, goods: 5_000, total: 5_000, unpricedHours: 2 })
    expect(viewOf(withPanel().car()).withoutRate).toBeNull()
  })

  test('is that of the visit that goes on', () => {
    const car = withPanel()
      .add('visitStatusSet', { visitId: visitId('first'), status: 'delivered', reason: '' })
      .visit('again', { kind: 'warranty' })
      .estimate(onGate('Boot floor', 'welded'), 1, { payer: 'workshop' })
    const view = viewOf(car.car())
    expect(view.payers).toMatchObject([
      { payer: 'workshop', authorised: { total: 6_500 }, asked: { total: 0 } },
    ])
    expect(view.charge[0]).toBe('A warranty visit: the workshop pays for its own work.')
    expect(view.costs).toEqual([])
  })
})
