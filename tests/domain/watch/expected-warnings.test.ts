import { describe, expect, it } from 'vitest'
import { onGate, visitId } from '../../support/car-builder.ts'
import { boot, day, dunmere, of, span, threePoints, warningsOf } from '../../support/warnings.ts'

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
