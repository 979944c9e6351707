import { describe, expect, test } from 'vitest'
import { labourMoney, splitMoney, totalOf } from '../../../domain/money/money-sum.ts'
import { visitMoney } from '../../../domain/money/visit-money.ts'
import {
  buildCar,
  type CarBuilder,
  onGate,
  onTask,
  repairId,
  variationId,
  visitId,
} from '../../support/car-builder.ts'
import { costId, goods, labour, moneyOf, type Rates, workshopWith } from '../../support/money-builder.ts'
import { repairPlan } from '../../support/plans.ts'
import { sure } from '../../support/varied.ts'

/** €60 an hour from January, €70 from 23 Nov 2026. */
const RATES: Rates = [
  { from: '2026-01-01', usual: 6_000, bySkill: [] },
  { from: '2026-11-23', usual: 7_000, bySkill: [] },
]
const day = (date: string, hours: number) => ({ kind: 'day', date, hours }) as const
const opened = onGate('Boot floor', 'opened')
const welded = onGate('Boot floor', 'welded')
const boot = (): CarBuilder => buildCar().repair('Boot floor')

const ofSecond = (car: CarBuilder) =>
  visitMoney(car.car(), car.car().visits.get(visitId('second'))!, {
    at: Date.parse('2026-11-25T10:40:00Z'),
    workshop: workshopWith(RATES),
  })
const ofPayer = (money: ReturnType<typeof moneyOf>, payer: string) =>
  money.byPayer.find((each) => each.payer === payer)

const askInsurer = (car: CarBuilder, hours: number, amount = 0) =>
  car.add('variationRaised', {
    variationId: variationId('Hit from behind'),
    visitId: visitId('first'),
    payer: 'insurer',
    title: 'Hit from behind',
    why: 'the claim covers it',
    ifNot: '',
    findings: [],
    attachments: [],
    lines: [sure(opened, hours)],
    costs:
      amount === 0 ? [] : [{ costId: costId('Panel'), repairId: null, kind: 'part', name: 'Panel', amount }],
  })
const settle = (car: CarBuilder, choice: 'workshop pays' | 'stopped') =>
  car
    .decide('Hit from behind', 'declined')
    .at('2026-11-24T09:00')
    .add('declinedSettled', { variationId: variationId('Hit from behind'), choice, reason: 'so agreed' })

describe('what was agreed', () => {
  test('takes the rate of the day of the answer, not of the question', () => {
    const car = askInsurer(boot().at('2026-11-20T09:00'), 2)
    car.at('2026-11-24T09:00').decide('Hit from behind', 'accepted')
    expect(ofPayer(moneyOf(car.car(), RATES), 'insurer')?.authorised).toEqual(labour(2 * 7_000))
  })

  test('keeps the rate of its first answer when its line is accepted once more with others', () => {
    const car = boot().at('2026-11-20T09:00').estimate(opened, 2).estimate(welded, 3, { accepted: false })
    const lineIds = [...car.car().visits.get(visitId('first'))!.lines.keys()]
    car.at('2026-11-24T09:00').add('estimateAccepted', {
      visitId: visitId('first'),
      payer: 'owner',
      lineIds,
      costIds: [],
      how: 'call',
      note: '',
    })
    expect(ofPayer(moneyOf(car.car(), RATES), 'owner')?.authorised).toEqual(labour(2 * 6_000 + 3 * 7_000))
  })

  test('is the workshop’s once it pays for what was declined, from that day on', () => {
    const car = settle(askInsurer(boot().at('2026-11-20T09:00'), 2), 'workshop pays')
    const money = moneyOf(car.car(), RATES)
    expect(ofPayer(money, 'workshop')?.authorised).toEqual(labour(2 * 7_000))
    expect(ofPayer(money, 'insurer')).toBeUndefined()
  })

  test('neither waits nor counts once the work is stopped', () => {
    const { whole } = moneyOf(settle(askInsurer(boot().estimate(opened, 1), 2), 'stopped').car(), RATES)
    expect(whole).toMatchObject({ waiting: labour(0), authorised: labour(6_000) })
  })

  test('moves with merged repairs', () => {
    const car = boot().estimate(opened, 2).repair('Patch').estimate(onGate('Patch', 'opened'), 4)
    const moves = [{ gate: 'opened' as const, hours: 4 }]
    car.add('repairsMerged', {
      repairId: repairId('Patch'),
      into: repairId('Boot floor'),
      moves,
      reason: 'so',
    })
    car.log('a', 'Joss', day('2026-11-20', 6), [opened])
    expect(moneyOf(car.car(), RATES).whole).toMatchObject({
      authorised: labour(6 * 6_000),
      beyond: labour(0),
    })
  })

  test('of a variation has no baseline and belongs to its own visit', () => {
    const car = askInsurer(boot(), 2, 9_000).decide('Hit from behind', 'accepted')
    expect(moneyOf(car.car(), RATES).whole).toMatchObject({
      baseline: goods(0),
      authorised: { labour: 2 * 6_000, goods: 9_000, unpricedHours: 0 },
    })
    expect(ofSecond(car.visit('second').estimate(opened, 3)).whole).toMatchObject({
      baseline: labour(3 * 6_000),
      authorised: labour(3 * 6_000),
    })
  })

  test('waits for its payer on a gate that is passed, and no more on one that is not needed', () => {
    const car = boot().estimate(opened, 2, { accepted: false }).estimate(welded, 3, { accepted: false })
    car.pass('Boot floor', 'opened').notNeeded('Boot floor', 'welded')
    expect(moneyOf(car.car(), RATES).whole.waiting).toEqual(labour(2 * 7_000))
  })

  test('has its first figure at the rate of the day on which the repair, or its visit, came', () => {
    const late = buildCar().at('2026-11-24T09:00').repair('Boot floor').estimate(opened, 2)
    expect(moneyOf(late.car(), RATES).whole.baseline).toEqual(labour(2 * 7_000))
    const again = boot().at('2026-11-24T09:00').visit('second').estimate(opened, 2)
    expect(ofSecond(again).whole.baseline).toEqual(labour(2 * 7_000))
  })
})

describe('who pays for hours', () => {
  const spentBy = (car: CarBuilder) =>
    moneyOf(car.car(), RATES).byPayer.map(({ payer, spent }) => [payer, spent.labour])

  test('are those who have agreed, before those who are asked', () => {
    const car = askInsurer(boot().estimate(opened, 2), 4).log('a', 'Joss', day('2026-11-20', 3), [opened])
    expect(spentBy(car)).toEqual([
      ['owner', 3 * 6_000],
      ['insurer', 0],
    ])
  })

  test('are those who are asked, where nobody has agreed', () => {
    const car = boot().estimate(opened, 2, { accepted: false })
    askInsurer(car, 4).log('a', 'Joss', day('2026-11-20', 3), [opened])
    expect(spentBy(car)).toEqual([
      ['owner', 1 * 6_000],
      ['insurer', 2 * 6_000],
    ])
  })

  test('are not those who agreed to less work', () => {
    const car = askInsurer(boot().estimate(opened, 4), -1).decide('Hit from behind', 'accepted')
    car.log('a', 'Joss', day('2026-11-20', 3), [opened])
    expect(spentBy(car)).toEqual([
      ['owner', 3 * 6_000],
      ['insurer', 0],
    ])
  })

  test('is whom the repair or the task names, where nothing was agreed or asked', () => {
    const car = buildCar().task('Strip', { payer: 'workshop' })
    car.add('repairAdded', {
      repairId: repairId('Boot floor'),
      type: null,
      plan: repairPlan('Boot floor'),
      payer: 'insurer',
    })
    car
      .log('a', 'Joss', day('2026-11-20', 3), [opened])
      .log('b', 'Joss', day('2026-11-20', 1), [onTask('Strip')])
    expect(spentBy(car)).toEqual([
      ['insurer', 3 * 6_000],
      ['workshop', 1 * 6_000],
    ])
  })
})

describe('hours within what is authorised', () => {
  test('are used up by one entry after the other', () => {
    const car = boot().estimate(opened, 6)
    car.log('a', 'Joss', day('2026-11-19', 4), [opened]).log('b', 'Wren', day('2026-11-20', 4), [opened])
    expect(moneyOf(car.car(), RATES).whole.beyond).toEqual(labour(2 * 6_000))
  })

  test('are none where more was taken back than there was', () => {
    const car = askInsurer(boot(), -2).decide('Hit from behind', 'accepted')
    car.log('a', 'Joss', day('2026-11-19', 1), [opened])
    expect(moneyOf(car.car(), RATES).whole.beyond).toEqual(labour(6_000))
  })

  test('are the earliest worked, in whatever order they were written down', () => {
    const car = boot().add('visitChanged', {
      visitId: visitId('first'),
      promised: '2026-12-18',
      priority: 1,
      charge: { by: 'capped', capHours: 4 },
    })
    car.estimate(opened, 10)
    car
      .log('late', 'Joss', day('2026-11-24', 4), [opened])
      .log('early', 'Joss', day('2026-11-20', 4), [opened])
    const money = moneyOf(car.car(), RATES)
    expect(money.whole.asked).toEqual(labour(4 * 6_000))
    expect(money.cap?.carried).toEqual(labour(4 * 7_000))
  })

  test('count once against a cap where two pay for them', () => {
    const car = boot().add('visitChanged', {
      visitId: visitId('first'),
      promised: '2026-12-18',
      priority: 1,
      charge: { by: 'capped', capHours: 8 },
    })
    askInsurer(car.estimate(opened, 3), 3).decide('Hit from behind', 'accepted')
    car.log('a', 'Joss', day('2026-11-20', 6), [opened])
    expect(moneyOf(car.car(), RATES).cap?.usedHours).toBeCloseTo(6, 9)
  })

  test('are none of a clock that has just been started', () => {
    const car = boot().estimate(opened, 2).clock('a', 'Joss', '2026-11-25T10:40', [opened])
    expect(moneyOf(car.car(), RATES).whole).toMatchObject({ spent: labour(0), beyond: labour(0) })
  })
})

describe('sums of money', () => {
  test('are rounded halves away from zero, below zero too', () => {
    expect(labourMoney(0.25, 6_002).labour).toBe(1_501)
    expect(labourMoney(-0.25, 6_002).labour).toBe(-1_501)
  })

  test('in parts add up to the whole', () => {
    const parts = splitMoney({ labour: 100, goods: 200, unpricedHours: 3 }, [1, 1, 1])
    expect(parts.map((part) => [part.labour, part.goods])).toEqual([
      [33, 67],
      [34, 66],
      [33, 67],
    ])
    expect(parts.map(({ unpricedHours }) => unpricedHours)).toEqual([1, 1, 1])
  })

  test('are known as far as there are rates', () => {
    expect(totalOf({ labour: 7_000, goods: 0, unpricedHours: 4 })).toBe(7_000)
    expect(totalOf({ labour: 0, goods: 500, unpricedHours: 4 })).toBe(500)
    expect(totalOf({ labour: 0, goods: 0, unpricedHours: 4 })).toBeNull()
  })

  test('name the days without a rate in order', () => {
    const car = boot().at('2026-11-05T09:00').estimate(opened, 2).at('2026-11-03T09:00').estimate(welded, 2)
    expect(moneyOf(car.car(), RATES.slice(1)).withoutRate).toEqual(['2026-11-02', '2026-11-03', '2026-11-05'])
  })
})
