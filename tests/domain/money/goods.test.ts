import { describe, expect, test } from 'vitest'
import { chargeSentences } from '../../../domain/money/charge-words.ts'
import { buildCar, type CarBuilder, onGate, repairId, visitId } from '../../support/car-builder.ts'
import {
  acceptCost,
  costId,
  estimateCost,
  goods,
  moneyOf,
  type Rates,
  spend,
  spendingId,
} from '../../support/money-builder.ts'

const RATES: Rates = [{ from: '2026-01-01', usual: 6_000, bySkill: [] }]
const opened = onGate('Boot floor', 'opened')
const day = (date: string, hours: number) => ({ kind: 'day', date, hours }) as const
const boot = (): CarBuilder => buildCar().repair('Boot floor')
const whole = (car: CarBuilder) => moneyOf(car.car(), RATES).whole

/** €40.00 accepted, €10.00 of it spent. */
const bought = (repair?: string) => {
  const car = boot()
  estimateCost(car, 'Panel', 4_000, repair === undefined ? {} : { repair })
  acceptCost(car, 'Panel')
  return spend(car, 'bill', 1_000, { on: 'Panel' })
}
const finish = (car: CarBuilder, status: 'finished' | 'delivered') =>
  car.add('visitStatusSet', { visitId: visitId('first'), status, reason: '' })

describe('a cost for the whole car', () => {
  test('is earned as it is spent while the visit goes on, then whole, and no more is expected', () => {
    expect(whole(bought())).toMatchObject({ earned: goods(1_000), expected: goods(4_000) })
    for (const car of [finish(bought(), 'finished'), finish(bought(), 'delivered'), bought().visit('second')])
      expect(whole(car)).toMatchObject({ earned: goods(4_000), expected: goods(1_000) })
  })
})

describe('a cost for a repair', () => {
  test('is earned whole once the repair is finished', () => {
    const car = bought('Boot floor').passTo('Boot floor', 'painted')
    expect(whole(car)).toMatchObject({ earned: goods(4_000), expected: goods(1_000) })
  })

  test('stays as its visit left it, whatever a later one does to the repair', () => {
    const car = bought('Boot floor').visit('second').passTo('Boot floor', 'painted')
    expect(whole(car)).toMatchObject({ earned: goods(1_000), expected: goods(1_000) })
  })

  test('leaves the authorised but for what was spent when the repair is closed as found', () => {
    const car = bought('Boot floor').add('closedAsFound', {
      repairId: repairId('Boot floor'),
      variationId: null,
      attachments: [],
      protection: 'Zinc primer and wax.',
      answer: 'Leave it.',
      cautionShown: true,
    })
    expect(whole(car)).toMatchObject({ authorised: goods(1_000), earned: goods(1_000) })
  })

  test('that still waits is not waited for once the repair is retired', () => {
    const car = boot()
    estimateCost(car, 'Panel', 4_000, { repair: 'Boot floor' })
    car.add('repairRetired', { repairId: repairId('Boot floor'), reason: 'sound' })
    expect(whole(car)).toMatchObject({ waiting: goods(0), baseline: goods(4_000) })
  })

  test('is not spent on by a bill of another visit', () => {
    const car = boot()
    estimateCost(car, 'Panel', 4_000, { repair: 'Boot floor' })
    acceptCost(car, 'Panel')
    car.add('repairRetired', { repairId: repairId('Boot floor'), reason: 'sound' }).visit('second')
    car.add('costSpent', {
      spendingId: spendingId('bill'),
      visitId: visitId('second'),
      costId: costId('Panel'),
      repairId: null,
      kind: 'part',
      name: 'Panel',
      date: '2026-11-23',
      amount: 3_000,
      payer: 'owner',
    })
    expect(whole(car)).toMatchObject({ authorised: goods(0), spent: goods(0) })
  })

  test('that nobody accepted is beyond what is authorised, all of it', () => {
    const car = boot()
    estimateCost(car, 'Panel', 4_000)
    spend(car, 'bill', 1_000, { on: 'Panel' })
    expect(whole(car)).toMatchObject({ beyond: goods(1_000), asked: goods(0) })
  })
})

describe('what is said of a visit’s money', () => {
  const sentences = (car: CarBuilder, rates: Rates) => {
    const visit = car.car().visits.get(visitId('first'))!
    return chargeSentences(visit, moneyOf(car.car(), rates), { currency: 'EUR', year: 2026 })
  }
  const fixed = (car: CarBuilder) =>
    car.add('visitChanged', {
      visitId: visitId('first'),
      promised: '2026-12-18',
      priority: 1,
      charge: { by: 'fixed' },
    })

  test('asks the workshop for nothing, whatever it bought', () => {
    const car = boot()
    estimateCost(car, 'Panel', 4_000, { payer: 'workshop' })
    acceptCost(car, 'Panel', 'workshop')
    spend(car, 'bill', 4_000, { on: 'Panel', payer: 'workshop' })
    expect(whole(car).asked).toEqual(goods(0))
    expect(sentences(car, RATES).join(' ')).not.toContain('The workshop is asked')
  })

  test('says of a fixed price that the work comes to just that, or to less', () => {
    const car = fixed(boot()).estimate(opened, 10).log('a', 'Joss', day('2026-11-20', 4), [opened])
    expect(sentences(car, RATES)).toContain('The work for the owner is expected to come to just that.')
    car.pass('Boot floor', 'opened')
    expect(sentences(car, RATES)).toContain(
      'The work for the owner is expected to come to €240.00: €360.00 stay with the workshop.',
    )
  })

  test('compares nothing with a fixed price while hours have no rate', () => {
    const car = fixed(boot())
      .estimate(opened, 10)
      .at('2026-11-24T09:00')
      .estimate(onGate('Boot floor', 'welded'), 1)
    car.log('a', 'Joss', day('2026-11-24', 4), [opened])
    expect(sentences(car, [{ from: '2026-11-23', usual: 6_000, bySkill: [] }])).toHaveLength(2)
  })

  test('says what went beyond in money, and in hours where they have no rate', () => {
    const parts = spend(boot(), 'bill', 1_000)
    expect(sentences(parts, RATES).at(-1)).toMatch(/^€10\.00 more went beyond what the owner has authorised/)
    const hours = boot().log('a', 'Joss', day('2026-11-24', 4), [opened])
    expect(sentences(hours, []).at(-1)).toMatch(/^4\.0 h without a rate more went beyond/)
  })
})
