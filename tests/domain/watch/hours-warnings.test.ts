import { describe, expect, it } from 'vitest'
import type { CarState } from '../../../domain/car.ts'
import { lineIdSchema } from '../../../domain/ids.ts'
import { carWarnings } from '../../../domain/watch/car-warnings.ts'
import type { Warning } from '../../../domain/watch/warning.ts'
import {
  buildCar,
  entryId,
  onGate,
  onTask,
  personId,
  variationId,
  visitId,
  type CarBuilder,
} from '../../support/car-builder.ts'
import { buildWorkshop } from '../../support/workshop-builder.ts'

const workshop = buildWorkshop()
/** Wednesday of week 48. */
const at = Date.parse('2026-11-25T15:00:00Z')

const warningsOf = (car: CarState, now = at): readonly Warning[] => carWarnings(car, { at: now, workshop })
const of = <Kind extends Warning['kind']>(kind: Kind, car: CarBuilder, now = at) =>
  warningsOf(car.car(), now).filter(
    (warning): warning is Extract<Warning, { kind: Kind }> => warning.kind === kind,
  )

const day = (date: string, hours: number) => ({ kind: 'day' as const, date, hours })
const span = (date: string, from: string, to: string) => ({
  kind: 'span' as const,
  start: `${date}T${from}:00Z`,
  end: `${date}T${to}:00Z`,
})
const boot = onGate('Boot floor', 'opened')
const dunmere = () => buildCar().repair('Boot floor').at('2026-11-20T08:00')
const threePoints = (car: CarBuilder, shortest: number, likely: number, longest: number) => {
  const lineId = lineIdSchema.parse('line-boot')
  const agreed = (shortest + 4 * likely + longest) / 6
  const line = { lineId, target: boot, hours: { shortest, likely, longest }, agreed, payer: 'owner' as const }
  const answer = { how: 'letter' as const, note: '' }
  const visit = visitId('first')
  return car
    .add('estimateSet', { visitId: visit, lines: [line] })
    .add('estimateAccepted', { visitId: visit, payer: 'owner', lineIds: [lineId], costIds: [], ...answer })
}

describe('hours that nobody has authorised', () => {
  it('are those on a gate whose estimate waits, until its payer accepts it', () => {
    const car = dunmere()
      .estimate(boot, 4, { accepted: false })
      .log('a', 'Joss', day('2026-11-23', 1.5), [boot])
      .log('b', 'Wren', day('2026-11-24', 1), [boot])
    expect(of('not authorised', car)).toMatchObject([
      { hours: 2.5, since: '2026-11-23', why: { is: 'estimate waits', payer: 'owner' } },
    ])
    const answer = { how: 'call' as const, note: '', costIds: [] }
    const lineIds = [...car.car().visits.get(visitId('first'))!.lines.keys()]
    car.add('estimateAccepted', { visitId: visitId('first'), payer: 'owner', lineIds, ...answer })
    expect(warningsOf(car.car())).toEqual([])
  })

  it('are those on a gate without an estimate, whoever logged them, until they are corrected away', () => {
    const car = dunmere().estimate(onGate('Boot floor', 'assessed'), 2)
    car.log('a', 'Joss', day('2026-11-25', 1), [boot])
    expect(of('not authorised', car)).toMatchObject([
      { hours: 1, since: '2026-11-25', why: { is: 'not estimated' }, target: boot },
    ])
    car.add('timeCorrected', {
      entryId: entryId('b'),
      replaces: entryId('a'),
      personId: personId('Joss'),
      on: { kind: 'work', targets: [onGate('Boot floor', 'assessed')] },
      cause: null,
      time: day('2026-11-25', 1),
      shares: null,
      reason: 'the wrong gate',
    })
    expect(warningsOf(car.car())).toEqual([])
  })

  it('are not estimated either where the estimate says zero, accepted or not', () => {
    const car = dunmere().estimate(boot, 0).log('a', 'Joss', day('2026-11-25', 1), [boot])
    expect(warningsOf(car.car())).toMatchObject([
      { kind: 'not authorised', why: { is: 'not estimated' }, hours: 1 },
    ])
  })

  it('are only those beyond the accepted hours while a variation waits', () => {
    const car = dunmere()
      .estimate(boot, 4)
      .vary('Corner', [{ target: boot, hours: 3 }])
      .log('a', 'Joss', day('2026-11-23', 4), [boot])
    expect(of('not authorised', car)).toEqual([])
    car.log('b', 'Joss', day('2026-11-24', 1), [boot])
    expect(of('not authorised', car)).toMatchObject([
      { hours: 1, since: '2026-11-24', why: { is: 'variation waits', title: 'Corner' } },
    ])
    car.decide('Corner', 'declined')
    expect(of('not authorised', car)).toMatchObject([{ hours: 1, why: { is: 'declined' } }])
    car.add('declinedSettled', {
      variationId: variationId('Corner'),
      choice: 'workshop pays',
      reason: 'ours',
    })
    expect(warningsOf(car.car())).toEqual([])
  })

  it('are told once for two people on one gate, and of tasks too', () => {
    const car = dunmere().task('Strip')
    car.log('a', 'Joss', span('2026-11-25', '08:00', '10:00'), [onTask('Strip')])
    car.log('b', 'Wren', span('2026-11-25', '08:00', '10:00'), [onTask('Strip')])
    expect(of('not authorised', car)).toMatchObject([{ hours: 4, target: onTask('Strip') }])
  })

  it('are not told of a car that was delivered', () => {
    const car = dunmere().log('a', 'Joss', day('2026-11-23', 1), [boot])
    car.add('visitStatusSet', { visitId: visitId('first'), status: 'delivered', reason: '' })
    expect(warningsOf(car.car())).toEqual([])
  })
})

describe('hours on finished work', () => {
  const passed = () => dunmere().agree('Boot floor', 4).at('2026-11-23T12:00').pass('Boot floor', 'opened')

  it('are those begun after the gate was passed, with their causes, for a week', () => {
    const car = passed()
      .log('a', 'Joss', span('2026-11-23', '09:00', '11:00'), [boot])
      .log('b', 'Joss', span('2026-11-24', '09:00', '10:00'), [boot], { cause: 'fit' })
      .log('c', 'Wren', span('2026-11-25', '09:00', '10:00'), [boot], { cause: 'fit' })
    expect(of('after the end', car)).toMatchObject([
      { hours: 2, since: '2026-11-24', causes: ['fit'], standing: 'passed', personId: personId('Wren') },
    ])
    expect(of('after the end', car, Date.parse('2026-12-01T12:00:00Z'))).toMatchObject([{ hours: 1 }])
    expect(of('after the end', car, Date.parse('2026-12-02T12:00:00Z'))).toEqual([])
  })

  it('are told without a cause where none was given', () => {
    const car = passed().log('a', 'Joss', span('2026-11-24', '09:00', '10:00'), [boot])
    expect(of('after the end', car)).toMatchObject([{ causes: ['not stated'] }])
  })

  it('are its rework once the gate is reopened, and told no more', () => {
    const car = passed().log('a', 'Joss', span('2026-11-24', '09:00', '10:00'), [boot], { cause: 'fit' })
    car.at('2026-11-24T10:00').reopen('Boot floor', 'opened')
    expect(of('after the end', car)).toEqual([])
    car.at('2026-11-24T11:00').pass('Boot floor', 'opened')
    expect(of('after the end', car)).toEqual([])
  })

  it('are told of a gate that is not needed too, but not those from before', () => {
    const car = dunmere()
      .agree('Boot floor', 4)
      .log('a', 'Joss', span('2026-11-23', '09:00', '11:00'), [boot])
      .at('2026-11-23T12:00')
      .notNeeded('Boot floor', 'opened')
    expect(of('after the end', car)).toEqual([])
    car.log('b', 'Joss', span('2026-11-24', '09:00', '10:00'), [boot])
    expect(of('after the end', car)).toMatchObject([{ hours: 1, standing: 'not needed', causes: [] }])
  })

  it('count for nothing once the entry is voided', () => {
    const car = passed().log('a', 'Joss', span('2026-11-24', '09:00', '10:00'), [boot], { cause: 'fit' })
    car.add('factVoided', { number: car.facts().length, reason: 'not him' })
    expect(warningsOf(car.car())).toEqual([])
  })
})

describe('the 80 % mark of a gate', () => {
  // 4, 5 and 12 hours: 80 % at 7.102761 h, modified PERT beta, calculated with @stdlib's beta quantile.
  const MARK = 7.102761
  const opened = () => threePoints(dunmere(), 4, 5, 12)

  it('warns once the hours pass it, says since when, and ends when the gate is passed', () => {
    const car = opened().log('a', 'Joss', day('2026-11-23', 7.1), [boot])
    expect(of('overrun', car)).toEqual([])
    car.log('b', 'Wren', day('2026-11-24', 1), [boot])
    const [overrun] = of('overrun', car)
    expect(overrun).toMatchObject({ spent: 8.1, left: null, since: '2026-11-24', target: boot })
    expect(overrun!.mark).toBeCloseTo(MARK, 6)
    expect(overrun!.hours).toBeCloseTo(8.1 - MARK, 6)
    car.at('2026-11-25T09:00').pass('Boot floor', 'opened')
    expect(of('overrun', car)).toEqual([])
  })

  it('counts in what is said to be left, from the day that it was said, and less what was done since', () => {
    const car = opened().log('a', 'Joss', span('2026-11-23', '08:00', '11:00'), [boot])
    car.at('2026-11-23T12:00').add('leftSaid', { target: boot, hours: 5 })
    expect(of('overrun', car)).toMatchObject([{ spent: 3, left: 5, since: '2026-11-23' }])
    car.log('b', 'Joss', span('2026-11-24', '08:00', '10:00'), [boot])
    expect(of('overrun', car)).toMatchObject([{ spent: 5, left: 3, since: '2026-11-23' }])
    car.at('2026-11-24T12:00').add('leftSaid', { target: boot, hours: 1 })
    expect(of('overrun', car)).toEqual([])
  })

  it('moves with an accepted variation', () => {
    const car = opened().log('a', 'Joss', day('2026-11-23', 8), [boot])
    expect(of('overrun', car)).toHaveLength(1)
    car.vary('Corner', [{ target: boot, hours: 3 }]).decide('Corner', 'accepted')
    expect(of('overrun', car)).toEqual([])
    // 6 + 3 hours draw the points out by half.
    car.log('b', 'Joss', day('2026-11-24', 3), [boot])
    expect(of('overrun', car)[0]!.mark).toBeCloseTo(1.5 * MARK, 5)
  })

  it('counts a running clock as it runs', () => {
    const car = opened().log('a', 'Joss', day('2026-11-24', 6), [boot])
    car.clock('b', 'Wren', '2026-11-25T10:00', [boot])
    expect(of('overrun', car, Date.parse('2026-11-25T11:00:00Z'))).toEqual([])
    expect(of('overrun', car, Date.parse('2026-11-25T12:00:00Z'))).toMatchObject([
      { spent: 8, since: '2026-11-25' },
    ])
  })
})

describe('more hours than authorised', () => {
  it('are expected of the car, which names where, instead of each repair', () => {
    const car = dunmere()
      .repair('Scuttle')
      .estimate(boot, 4)
      .estimate(onGate('Scuttle', 'opened'), 2)
      .log('a', 'Joss', day('2026-11-20', 3), [boot])
      .log('b', 'Joss', day('2026-11-23', 4), [boot])
      .at('2026-11-23T16:00')
      .pass('Boot floor', 'opened')
    expect(of('over authorised', car)).toMatchObject([
      {
        repairId: null,
        authorised: 6,
        expected: 9,
        hours: 3,
        since: '2026-11-23',
        parts: [{ hours: 3 }],
      },
    ])
    car.vary('Corner', [{ target: boot, hours: 3 }]).decide('Corner', 'accepted')
    expect(of('over authorised', car)).toEqual([])
  })

  it('are told of an unfinished repair where the rest of the car makes up for them', () => {
    const car = dunmere()
      .repair('Scuttle')
      .estimate(boot, 4)
      .estimate(onGate('Scuttle', 'opened'), 5)
      .log('a', 'Joss', day('2026-11-20', 6), [boot])
      .log('b', 'Joss', day('2026-11-20', 1), [onGate('Scuttle', 'opened')])
      .at('2026-11-20T16:00')
      .pass('Boot floor', 'opened')
      .pass('Scuttle', 'opened')
    expect(of('over authorised', car)).toMatchObject([{ repairId: 'repair-boot-floor', hours: 2, parts: [] }])
    for (const gate of [
      'assessed',
      'fabricated',
      'sealed',
      'primed',
      'trial-fitted',
      'welded',
      'painted',
    ] as const)
      car.pass('Boot floor', gate)
    expect(of('over authorised', car)).toEqual([])
  })

  it('count what is said to be left, from the day that it was said', () => {
    const car = dunmere().estimate(boot, 4).log('a', 'Joss', day('2026-11-20', 1), [boot])
    car.at('2026-11-24T09:00').add('leftSaid', { target: boot, hours: 5 })
    expect(of('over authorised', car)).toMatchObject([{ expected: 6, hours: 2, since: '2026-11-24' }])
    car.at('2026-11-25T09:00').add('leftSaid', { target: boot, hours: 3 })
    expect(of('over authorised', car)).toEqual([])
  })

  it('leave out what is told as not authorised, so that nothing is told twice', () => {
    const car = dunmere()
      .estimate(boot, 4, { accepted: false })
      .log('a', 'Joss', day('2026-11-24', 3), [boot])
    expect(warningsOf(car.car()).map(({ kind }) => kind)).toEqual(['not authorised'])
  })

  it('are not asked of a car that is paused', () => {
    const car = dunmere().estimate(boot, 1).log('a', 'Joss', day('2026-11-24', 3), [boot])
    expect(of('over authorised', car)).toHaveLength(1)
    car.add('visitStatusSet', { visitId: visitId('first'), status: 'paused', reason: '' })
    expect(warningsOf(car.car())).toEqual([])
  })
})

describe('the order of warnings', () => {
  it('is by kind, then the most hours', () => {
    const car = dunmere()
      .repair('Scuttle')
      .repair('Valance')
      .estimate(boot, 1)
      .log('a', 'Joss', day('2026-11-24', 9), [boot])
      .log('b', 'Joss', day('2026-11-23', 1), [onGate('Scuttle', 'opened')])
      .log('c', 'Joss', day('2026-11-23', 2), [onGate('Valance', 'opened')])
      .clock('d', 'Wren', '2026-11-24T15:00', [boot])
    expect(warningsOf(car.car()).map(({ kind, hours }) => [kind, Math.round(hours)])).toEqual([
      ['not authorised', 2],
      ['not authorised', 1],
      ['clock', 23],
      ['over authorised', 10],
      ['overrun', 10],
    ])
  })

  it('holds nothing where all goes as agreed', () => {
    const car = dunmere().agree('Boot floor').log('a', 'Joss', day('2026-11-24', 1), [boot])
    expect(warningsOf(car.car())).toEqual([])
  })
})
