import { describe, expect, it } from 'vitest'
import { hoursSheetView } from '../../../domain/views/hours-sheet-view.ts'
import type { HoursPair } from '../../../domain/views/shared-views.ts'
import { buildCar, entryId, onGate, onTask, visitId, type CarBuilder } from '../../support/car-builder.ts'
import { buildWorkshop, nameOf } from '../../support/workshop-builder.ts'
import { createEstimateHistory } from '../../support/estimate-history.ts'

const workshop = buildWorkshop()
/** Wednesday of week 48. */
const now = Date.parse('2026-11-25T10:00:00Z')
const history = createEstimateHistory([])

const sheetOf = (car: CarBuilder, at = now) =>
  hoursSheetView({ car: car.car(), now: at, workshop, nameOf, history })
const day = (date: string, hours: number) => ({ kind: 'day' as const, date, hours })
const boot = onGate('Boot floor', 'opened')
const dunmere = () => buildCar().repair('Boot floor').at('2026-11-20T08:00')
const figures = ({ authorised, waiting, earned, spent }: HoursPair) => [authorised, waiting, earned, spent]

describe('the hours of a car', () => {
  it('stand at every level: payer, car, repair, gate and task, down to the entry', () => {
    const car = dunmere()
      .task('Strip')
      .agree('Boot floor', 2)
      .estimate(onTask('Strip'), 5, { payer: 'workshop' })
      .log('a', 'Joss', day('2026-11-23', 1.5), [boot])
      .at('2026-11-23T12:00')
      .pass('Boot floor', 'opened')
      .log('b', 'Wren', day('2026-11-24', 1), [onTask('Strip')])
    const { total, payers, works } = sheetOf(car)
    expect(figures(total.hours)).toEqual([21, 0, 2, 2.5])
    expect(total).toMatchObject({ expected: 20.5, variance: -0.5, index: 0.8 })
    expect(payers.map(({ payer, hours }) => [payer, ...figures(hours)])).toEqual([
      ['owner', 16, 0, 2, 1.5],
      ['workshop', 5, 0, 0, 1],
    ])
    expect(works.map(({ name, expected, payers: of }) => [name, expected, of])).toEqual([
      ['Boot floor', 15.5, ['owner']],
      ['Strip', 5, ['workshop']],
    ])
    const [opened] = works[0]!.gates
    expect(opened).toMatchObject({
      gate: 'opened',
      status: 'passed',
      expected: 1.5,
      variance: 0.5,
      band: null,
      entries: [{ entryId: entryId('a'), person: 'Joss', date: '2026-11-23', hours: 1.5, ofHours: 1.5 }],
    })
    expect(works[1]!.entries).toMatchObject([{ person: 'Wren', hours: 1 }])
  })

  it('count a running clock as it runs, on each gate by its share', () => {
    const car = dunmere()
      .repair('Scuttle')
      .estimate(boot, 3)
      .estimate(onGate('Scuttle', 'opened'), 1)
      .clock('a', 'Joss', '2026-11-25T08:00', [boot, onGate('Scuttle', 'opened')])
    const spentAt = (time: string) => {
      const { total, works } = sheetOf(car, Date.parse(`2026-11-25T${time}:00Z`))
      return [total.hours.spent, ...works.map(({ hours }) => hours.spent)]
    }
    expect(spentAt('10:00')).toEqual([2, 1.5, 0.5])
    expect(spentAt('12:00')).toEqual([4, 3, 1])
    const [entry] = sheetOf(car).works[0]!.gates[0]!.entries
    expect(entry).toMatchObject({ running: true, hours: 1.5, ofHours: 2, end: null })
  })

  it('are each payer’s: waiting apart, spent by what each has authorised, given back alike', () => {
    const car = dunmere()
      .estimate(boot, 6)
      .estimate(boot, 2, { payer: 'insurer' })
      .estimate(onGate('Boot floor', 'assessed'), 4, { payer: 'insurer', accepted: false })
      .log('a', 'Joss', day('2026-11-23', 4), [boot])
    const payersOf = () =>
      sheetOf(car).payers.map(({ payer, hours }) => [payer, ...figures(hours), hours.givenBack])
    expect(payersOf()).toEqual([
      ['owner', 6, 0, 0, 3, 0],
      ['insurer', 2, 4, 0, 1, 0],
    ])
    car.notNeeded('Boot floor', 'opened')
    expect(payersOf()).toEqual([
      ['owner', 0, 0, 0, 3, 6],
      ['insurer', 0, 4, 0, 1, 2],
    ])
  })

  it('have no figure that is not a number where nothing is estimated or spent', () => {
    const { total, payers, works } = sheetOf(dunmere())
    expect(total).toMatchObject({ expected: 0, variance: 0, index: null })
    expect(payers).toEqual([])
    expect(works.map(({ name, index }) => [name, index])).toEqual([['Boot floor', null]])
    expect(JSON.stringify(works)).not.toMatch(/NaN|Infinity/)
  })

  it('are those of the visit that goes on', () => {
    const car = dunmere()
      .agree('Boot floor')
      .passTo('Boot floor', 'painted')
      .add('visitStatusSet', { visitId: visitId('first'), status: 'delivered', reason: '' })
      .visit('second', { kind: 'warranty' })
    expect(sheetOf(car)).toMatchObject({ works: [], payers: [], total: { expected: 0 } })
  })

  it('leave out an entry that was voided', () => {
    const car = dunmere().agree('Boot floor').log('a', 'Joss', day('2026-11-23', 4), [boot])
    car.add('factVoided', { number: car.facts().length, reason: 'not him' })
    expect(sheetOf(car).total.hours.spent).toBe(0)
  })
})

describe('the band of hours', () => {
  it('of a gate runs around what is said to be left, as wide as its three points', () => {
    const car = dunmere().estimate(boot, 6).log('a', 'Joss', day('2026-11-23', 2), [boot])
    car.at('2026-11-24T08:00').add('leftSaid', { target: boot, hours: 3 })
    // The line's three points are one figure, so half and four of five fall together.
    expect(sheetOf(car).works[0]!.gates[0]).toMatchObject({ left: 3, expected: 5, band: { p50: 5, p80: 5 } })
  })

  it('of a repair, the car and its payers holds what is spent and narrows to nothing when all is done', () => {
    const car = dunmere().agree('Boot floor').log('a', 'Joss', day('2026-11-23', 4), [boot])
    const before = sheetOf(car)
    for (const { band } of [before.total, before.payers[0]!, before.works[0]!]) {
      expect(band!.p50).toBeGreaterThan(4)
      expect(band!.p80).toBeGreaterThan(band!.p50)
    }
    car.at('2026-11-24T08:00').passTo('Boot floor', 'painted')
    const after = sheetOf(car)
    expect([after.total.band, after.payers[0]!.band, after.works[0]!.band]).toEqual([null, null, null])
  })

  it('of two payers lies below that of the car, each by their share', () => {
    const car = dunmere().task('Strip').agree('Boot floor').estimate(onTask('Strip'), 8, { payer: 'insurer' })
    const { total, payers, works } = sheetOf(car)
    expect(payers.map(({ payer, band }) => [payer, band!.p50 < total.band!.p50])).toEqual([
      ['owner', true],
      ['insurer', true],
    ])
    // One is drawn, the other read from its table.
    expect(payers[0]!.band!.p50 / works[0]!.band!.p50).toBeCloseTo(1, 2)
  })
})
