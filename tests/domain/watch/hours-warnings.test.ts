import { describe, expect, it } from 'vitest'
import { entryId, onGate, onTask, personId, variationId, visitId } from '../../support/car-builder.ts'
import { boot, day, dunmere, of, span, warningsOf } from '../../support/warnings.ts'

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

  it('do not wait for a variation that only takes work away', () => {
    const car = dunmere()
      .estimate(boot, 4)
      .vary('Less', [{ target: boot, hours: -1 }])
      .log('a', 'Joss', day('2026-11-23', 4.25), [boot])
    expect(of('not authorised', car)).toEqual([])
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

  it('are those from the moment on at which it was passed, from a twentieth of an hour on', () => {
    // The gate was passed at 12:00.
    const at = (from: string, to: string) =>
      of('after the end', passed().log('a', 'Joss', span('2026-11-23', from, to), [boot]))
    expect(at('12:00', '13:00')).toMatchObject([{ hours: 1 }])
    expect(at('11:59', '13:00')).toEqual([])
    expect(at('12:30', '12:32')).toEqual([])
    expect(at('12:30', '12:34')).toHaveLength(1)
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
