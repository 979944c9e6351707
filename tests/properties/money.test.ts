import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { CarState } from '../../domain/car.ts'
import { PAYERS, type WorkTarget } from '../../domain/facts/shapes.ts'
import { GATES } from '../../domain/gates.ts'
import { agreedCosts } from '../../domain/money/agreed-costs.ts'
import { addMoney, type MoneySum } from '../../domain/money/money-sum.ts'
import { rateOn, skillOf } from '../../domain/money/rates.ts'
import type { VisitMoney } from '../../domain/money/visit-money.ts'
import { rounded } from '../../domain/text/words.ts'
import { entryDate, entryPieces, visitEntries } from '../../domain/value/entry-hours.ts'
import {
  buildCar,
  type CarBuilder,
  onGate,
  onTask,
  repairId,
  variationId,
  visitId,
} from '../support/car-builder.ts'
import {
  acceptCost,
  cost,
  estimateCost,
  moneyOf,
  type Rates,
  spend,
  workshopWith,
} from '../support/money-builder.ts'

/** A slice in every run; PANELWRIGHT_CASES for more. */
const CASES = Math.ceil(Number(process.env['PANELWRIGHT_CASES'] ?? 1200) / 6)

const MONEY_FIGURES = ['baseline', 'authorised', 'waiting', 'earned', 'spent', 'beyond', 'expected'] as const

const REPAIRS = ['Boot floor', 'Scuttle', 'Sill, left'] as const
const TASK = 'Cavity wax'
const RATES: Rates = [
  { from: '2026-11-02', usual: 6_133, bySkill: [{ skill: 'paint', perHour: 7_891 }] },
  { from: '2026-11-18', usual: 6_417, bySkill: [] },
]
const AT = Date.parse('2026-11-25T10:40:00Z')
const context = { at: AT, workshop: workshopWith(RATES) }

const repairs = fc.constantFrom(...REPAIRS)
const gates = fc.constantFrom(...GATES)
const payers = fc.constantFrom(...PAYERS)
const targets: fc.Arbitrary<WorkTarget> = fc.oneof(
  { weight: 5, arbitrary: fc.tuple(repairs, gates).map(([repair, gate]) => onGate(repair, gate)) },
  { weight: 1, arbitrary: fc.constant(onTask(TASK)) },
)
const hours = fc.integer({ min: 1, max: 200 }).map((twentieths) => twentieths / 20)
const amounts = fc.integer({ min: 1, max: 500_000 })
const dates = fc.integer({ min: 1, max: 24 }).map((day) => `2026-11-${String(day).padStart(2, '0')}`)
const costNames = fc.constantFrom('Panel', 'Sheet', 'Blasting')

type Step = (car: CarBuilder, number: number) => unknown

/** One step in the life of a car; whether a workshop would do it just then plays no part in the sums. */
const steps: fc.Arbitrary<Step> = fc.oneof(
  fc.tuple(targets, hours, fc.boolean(), payers).map(
    ([target, agreed, accepted, payer]): Step =>
      (car) =>
        car.estimate(target, agreed, { accepted, payer }),
  ),
  fc.tuple(repairs, gates).map(
    ([repair, gate]): Step =>
      (car) =>
        car.pass(repair, gate),
  ),
  fc.tuple(repairs, gates).map(
    ([repair, gate]): Step =>
      (car) =>
        car.notNeeded(repair, gate),
  ),
  repairs.map(
    (repair): Step =>
      (car) =>
        car.add('repairRetired', { repairId: repairId(repair), reason: 'not wanted' }),
  ),
  fc
    .tuple(fc.uniqueArray(targets, { minLength: 1, maxLength: 3, selector: JSON.stringify }), hours, dates)
    .map(
      ([on, spent, date]): Step =>
        (car, number) =>
          car.log(`e${number}`, 'Joss', { kind: 'day', date, hours: spent }, on),
    ),
  fc
    .tuple(targets, hours, amounts, payers, fc.constantFrom('accepted', 'declined', null))
    .map(([target, more, amount, payer, answer]): Step => (car, number) => {
      const title = `v${number}`
      car.add('variationRaised', {
        variationId: variationId(title),
        visitId: visitId('first'),
        payer,
        title,
        why: 'found later',
        ifNot: '',
        findings: [],
        attachments: [],
        lines: [{ target, hours: more, low: more, high: more }],
        costs: [withoutPayer(cost(title, amount, { repair: REPAIRS[number % REPAIRS.length]! }))],
      })
      if (answer !== null) car.decide(title, answer)
      if (answer === 'declined' && number % 2 === 0)
        car.add('declinedSettled', {
          variationId: variationId(title),
          choice: 'workshop pays',
          reason: 'our mistake',
        })
    }),
  fc.tuple(costNames, amounts, payers, fc.boolean()).map(([name, amount, payer, accepted]): Step => (car) => {
    estimateCost(car, name, amount, { payer, ...(name !== 'Blasting' && { repair: 'Boot floor' }) })
    if (accepted) acceptCost(car, name, payer)
  }),
  fc.tuple(fc.option(costNames), amounts, payers, dates).map(
    ([on, amount, payer, date]): Step =>
      (car, number) =>
        spend(car, `s${number}`, amount, { on, payer, date }),
  ),
)

function withoutPayer({ payer: _, ...line }: ReturnType<typeof cost>) {
  return line
}

const stories = fc.array(steps, { minLength: 3, maxLength: 25 })

function told(story: readonly Step[], car = buildCar()): CarBuilder {
  for (const name of REPAIRS) car.repair(name)
  car.task(TASK)
  story.forEach((step, number) => step(car, number))
  return car
}

const charges = fc.constantFrom(
  { by: 'hour' } as const,
  { by: 'fixed' } as const,
  { by: 'capped', capHours: 0.5 } as const,
)

/** Labour of the visit's entries, reckoned piece by piece without payers. */
function spentLabour(car: CarState): number {
  return visitEntries(car, visitId('first'))
    .flatMap((entry) =>
      entryPieces(car, entry, context).map(({ target, hours: worked }) => {
        const rate = rateOn(RATES, entryDate(entry, 'UTC'), skillOf(car, target))
        return rate === null ? 0 : rounded(worked * rate, 0)
      }),
    )
    .reduce((sum, amount) => sum + amount, 0)
}

const figuresOf = (money: VisitMoney): readonly MoneySum[] =>
  [money.whole, ...money.byPayer].flatMap((each) => [
    ...MONEY_FIGURES.map((figure) => each[figure]),
    each.asked,
  ])

describe('money of a visit, through any facts', () => {
  test('adds up exactly: payers to the whole, bills and entries to what is spent, in whole cents', () => {
    const seen = { labour: 0, goods: 0, beyond: 0, asked: 0, carried: 0, unpriced: 0 }
    fc.assert(
      fc.property(stories, charges, (story, charge) => {
        const charged = buildCar().add('visitChanged', {
          visitId: visitId('first'),
          promised: null,
          priority: 1,
          charge,
        })
        const car = told(story, charged).car()
        const money = moneyOf(car, RATES)
        for (const figure of [...MONEY_FIGURES, 'asked'] as const) {
          const { unpricedHours, ...sum } = addMoney(money.byPayer.map((each) => each[figure]))
          expect(money.whole[figure], figure).toMatchObject(sum)
          expect(money.whole[figure].unpricedHours, figure).toBeCloseTo(unpricedHours, 6)
        }
        for (const { labour, goods } of figuresOf(money))
          expect([labour, goods].every(Number.isSafeInteger)).toBe(true)
        const { whole } = money
        expect(whole.spent.labour).toBe(spentLabour(car))
        expect(whole.spent.goods).toBe(
          [...car.spendings.values()].reduce((sum, { amount }) => sum + amount, 0),
        )
        expect(whole.beyond.labour).toBeLessThanOrEqual(whole.spent.labour)
        expect(whole.authorised.goods).toBeLessThanOrEqual(
          agreedCosts(car, car.visits.get(visitId('first'))!, 'UTC').reduce(
            (sum, { amount }) => sum + amount,
            0,
          ),
        )
        // What is spent within the authorised is asked for, or carried by the workshop under a cap or for itself.
        if (charge.by !== 'fixed') {
          const own = money.byPayer.find(({ payer }) => payer === 'workshop')
          const carried =
            (money.cap?.carried.labour ?? 0) + (own?.spent.labour ?? 0) - (own?.beyond.labour ?? 0)
          expect(whole.asked.labour + carried).toBe(whole.spent.labour - whole.beyond.labour)
          seen.carried += money.cap?.carried.labour ?? 0
        }
        seen.labour += whole.spent.labour
        seen.goods += whole.spent.goods
        seen.beyond += whole.beyond.labour
        seen.asked += whole.asked.labour
        seen.unpriced += whole.spent.unpricedHours
      }),
      { numRuns: CASES, endOnFailure: true },
    )
    for (const [what, sum] of Object.entries(seen)) expect(sum, what).toBeGreaterThan(CASES / 10)
  })

  test('stays as it was when a bill is voided and entered again', () => {
    const seen = { entered: 0 }
    fc.assert(
      fc.property(stories, fc.nat(1000), (story, choice) => {
        const builder = told(story)
        const spendings = [...builder.car().spendings.values()]
        const spending = spendings[choice % Math.max(1, spendings.length)]
        if (spending === undefined) return
        const before = moneyOf(builder.car(), RATES)
        builder.add('factVoided', { number: spending.stamp.number, reason: 'typed on the wrong car' })
        expect(moneyOf(builder.car(), RATES).whole.spent.goods).toBe(
          before.whole.spent.goods - spending.amount,
        )
        const { id: _, stamp: __, ...bill } = spending
        builder.add('costSpent', { ...bill, spendingId: `${spending.id}-again` as typeof spending.id })
        expect(moneyOf(builder.car(), RATES)).toEqual(before)
        seen.entered += 1
      }),
      { numRuns: CASES, endOnFailure: true },
    )
    expect(seen.entered).toBeGreaterThan(CASES / 2)
  })

  test('of the days before a change of rates is not changed by it', () => {
    const changed: Rates = [...RATES, { from: '2026-11-21', usual: 9_999, bySkill: [] }]
    const seen = { before: 0, after: 0 }
    fc.assert(
      fc.property(stories, (story) => {
        const car = told(story).car()
        const dayBefore = '2026-11-20T18:00:00Z'
        expect(moneyOf(car, changed, dayBefore).whole.waiting).toEqual(
          moneyOf(car, RATES, dayBefore).whole.waiting,
        )
        const [old, now] = [moneyOf(car, RATES), moneyOf(car, changed)]
        // Everything of this car is accepted in the first days of the month.
        for (const figure of ['baseline', 'authorised', 'earned'] as const)
          expect(now.byPayer.map((each) => each[figure])).toEqual(old.byPayer.map((each) => each[figure]))
        const late = visitEntries(car, visitId('first')).some(
          (entry) => entryDate(entry, 'UTC') >= '2026-11-21',
        )
        if (late) seen.after += now.whole.spent.labour - old.whole.spent.labour
        else {
          expect(now.byPayer.map(({ spent }) => spent)).toEqual(old.byPayer.map(({ spent }) => spent))
          seen.before += old.whole.spent.labour
        }
      }),
      { numRuns: CASES, endOnFailure: true },
    )
    expect(seen.before).toBeGreaterThan(0)
    expect(seen.after).toBeGreaterThan(0)
  })
})
