import { describe, expect, it } from 'vitest'
import { type CarBuilder, onGate, onTask, personId, repairId, taskId } from '../../support/car-builder.ts'
import { boot, day, dunmere, of, span, threePoints, warningsOf } from '../../support/warnings.ts'

const scuttle = onGate('Scuttle', 'opened')

/** Hours of one day on the first gate of a repair, which is passed that evening with nothing left to do. */
const done = (car: CarBuilder, name: string, date: string, hours: number) =>
  car
    .log(`${name} ${date}`, 'Joss', day(date, hours), [onGate(name, 'opened')])
    .at(`${date}T17:00`)
    .pass(name, 'opened')

describe('the hours that a car is over', () => {
  it('are worth a talk from half an hour on', () => {
    const over = (hours: number) =>
      of('over authorised', done(dunmere().estimate(boot, 4), 'Boot floor', '2026-11-24', hours))
    expect(over(4.45)).toEqual([])
    expect(over(4.5)).toMatchObject([{ hours: 0.5 }])
  })

  it('are over since the day from which they have been so all the time', () => {
    const car = dunmere().repair('Scuttle').repair('Valance')
    car.estimate(boot, 4).estimate(scuttle, 4).estimate(onGate('Valance', 'opened'), 1)
    // One hour over on Wednesday, one under on Thursday, one over again on Monday.
    done(done(car, 'Boot floor', '2026-11-18', 5), 'Scuttle', '2026-11-19', 2)
    done(car, 'Valance', '2026-11-23', 3)
    expect(of('over authorised', car)).toMatchObject([{ hours: 1, since: '2026-11-23' }])
  })

  it('are reckoned by the day worked and not by the order of their repairs', () => {
    const car = dunmere().repair('Scuttle').estimate(boot, 4).estimate(scuttle, 4)
    done(done(car, 'Boot floor', '2026-11-20', 6), 'Scuttle', '2026-11-18', 5)
    expect(of('over authorised', car)).toMatchObject([{ hours: 3, since: '2026-11-18' }])
  })

  it('are saved on the day that the work was done, not when it was last worked on', () => {
    const car = dunmere().repair('Scuttle').repair('Valance')
    car.estimate(boot, 4).estimate(scuttle, 1).estimate(onGate('Valance', 'opened'), 1)
    car.log('a', 'Joss', day('2026-11-20', 0.25), [scuttle])
    done(done(car, 'Boot floor', '2026-11-19', 5), 'Valance', '2026-11-23', 2)
    car.at('2026-11-24T09:00').pass('Scuttle', 'opened')
    // Over by 1 h, 2 h, then 1.25 h; saved on Friday it would have been 0.25 h until Monday.
    expect(of('over authorised', car)).toMatchObject([{ hours: 1.25, since: '2026-11-19' }])
  })

  it('are over since the hours beyond both what is authorised and what is told of on its own', () => {
    const car = dunmere()
      .estimate(boot, 4, { accepted: false })
      .log('a', 'Joss', day('2026-11-18', 5), [boot])
      .at('2026-11-24T09:00')
      .add('leftSaid', { target: boot, hours: 3 })
    expect(of('not authorised', car)).toMatchObject([{ hours: 5 }])
    expect(of('over authorised', car)).toMatchObject([{ hours: 3, since: '2026-11-24' }])
  })

  it('stand with their repairs and tasks, most first, less than half an hour left out', () => {
    const assessed = onGate('Boot floor', 'assessed')
    const car = dunmere().repair('Scuttle').repair('Valance').task('Strip')
    for (const target of [scuttle, boot, assessed, onGate('Valance', 'opened'), onTask('Strip')])
      car.estimate(target, 1)
    done(done(car, 'Scuttle', '2026-11-20', 2), 'Boot floor', '2026-11-20', 2)
    done(car, 'Valance', '2026-11-20', 1.25)
    car.log('b', 'Joss', day('2026-11-20', 2), [assessed]).pass('Boot floor', 'assessed')
    car.log('c', 'Joss', day('2026-11-20', 4), [onTask('Strip')])
    car.add('taskSigned', { taskId: taskId('Strip'), did: [personId('Joss')], note: '' })
    expect(of('over authorised', car)[0]?.parts).toEqual([
      { of: { taskId: taskId('Strip') }, hours: 3 },
      { of: { repairId: repairId('Boot floor') }, hours: 2 },
      { of: { repairId: repairId('Scuttle') }, hours: 1 },
    ])
  })

  it('are not told of a repair that was retired', () => {
    const car = dunmere().repair('Scuttle').estimate(boot, 1).estimate(scuttle, 9)
    done(done(car, 'Boot floor', '2026-11-20', 3), 'Scuttle', '2026-11-20', 1)
    expect(of('over authorised', car)).toMatchObject([{ repairId: repairId('Boot floor') }])
    car.add('repairRetired', { repairId: repairId('Boot floor'), reason: 'sound' })
    expect(of('over authorised', car)).toEqual([])
  })
})

describe('the 80 % mark, case by case', () => {
  // 4, 5 and 12 hours: 80 % at 7.102761 h.
  const opened = () => threePoints(dunmere(), 4, 5, 12)

  it('is passed by a twentieth of an hour at least', () => {
    expect(of('overrun', opened().log('a', 'Joss', day('2026-11-24', 7.14), [boot]))).toEqual([])
    expect(of('overrun', opened().log('a', 'Joss', day('2026-11-24', 7.16), [boot]))).toHaveLength(1)
  })

  it('is not passed by what is said of work that nobody has begun', () => {
    expect(of('overrun', opened().add('leftSaid', { target: boot, hours: 9 }))).toEqual([])
  })

  it('was passed on the day that it was said, though the hours came later', () => {
    const car = opened().log('a', 'Joss', span('2026-11-23', '08:00', '11:00'), [boot])
    car.at('2026-11-23T12:00').add('leftSaid', { target: boot, hours: 5 })
    car.log('b', 'Joss', day('2026-11-25', 6), [boot])
    expect(of('overrun', car)).toMatchObject([{ spent: 9, since: '2026-11-23' }])
  })

  it('was passed by the hours in the order in which they were worked, of each entry its part on the gate', () => {
    const late = opened().log('a', 'Joss', day('2026-11-24', 4), [boot])
    late.log('b', 'Wren', day('2026-11-20', 4), [boot])
    expect(of('overrun', late)).toMatchObject([{ since: '2026-11-24' }])
    const halves = threePoints(dunmere(), 4, 5, 12).estimate(onGate('Boot floor', 'assessed'), 20)
    halves.log('a', 'Joss', day('2026-11-20', 8), [boot, onGate('Boot floor', 'assessed')], {
      shares: [0.5, 0.5],
    })
    halves.log('b', 'Joss', day('2026-11-24', 4), [boot])
    expect(of('overrun', halves)).toMatchObject([{ spent: 8, since: '2026-11-24' }])
  })

  it('is watched while the estimate still waits, not without an estimate', () => {
    const waits = dunmere().estimate(boot, 4, { accepted: false })
    waits.log('a', 'Joss', day('2026-11-24', 40), [boot])
    expect(warningsOf(waits.car()).map(({ kind }) => kind)).toEqual(['not authorised', 'overrun'])
    const bare = dunmere().log('a', 'Joss', day('2026-11-24', 40), [boot])
    expect(warningsOf(bare.car()).map(({ kind }) => kind)).toEqual(['not authorised'])
  })
})

describe('warnings that are alike', () => {
  it('stand with the older first', () => {
    const car = dunmere().repair('Scuttle').repair('Valance')
    const valance = onGate('Valance', 'opened')
    car.log('a', 'Joss', day('2026-11-24', 2), [boot])
    car.log('b', 'Joss', day('2026-11-20', 2), [scuttle])
    car.log('c', 'Joss', day('2026-11-23', 2), [valance])
    expect(warningsOf(car.car()).map(({ since }) => since)).toEqual([
      '2026-11-20',
      '2026-11-23',
      '2026-11-24',
    ])
  })

  it('stand by kind: what is going astray before what went', () => {
    const car = threePoints(dunmere(), 4, 5, 12).repair('Scuttle').agree('Scuttle', 9)
    car.log('a', 'Joss', day('2026-11-24', 8), [boot])
    car.at('2026-11-23T12:00').pass('Scuttle', 'opened')
    car.log('b', 'Joss', span('2026-11-24', '08:00', '12:00'), [scuttle])
    expect(warningsOf(car.car()).map(({ kind }) => kind)).toEqual([
      'over authorised',
      'overrun',
      'after the end',
    ])
  })
})
