import { describe, expect, it } from 'vitest'
import { carIdSchema } from '../../../domain/ids.ts'
import { carsView } from '../../../domain/views/cars-view.ts'
import { buildCar, entryId, onGate, personId, variationId, visitId } from '../../support/car-builder.ts'
import { dunmere, floorOf, inBay, lineOf, now, workshop } from '../../support/floor-views.ts'
import { nameOf } from '../../support/workshop-builder.ts'

describe('the line of a car', () => {
  it('says what is next and who is on it', () => {
    const car = dunmere()
      .repair('Scuttle')
      .agree('Scuttle')
      .passTo('Boot floor', 'assessed')
      .pass('Scuttle', 'opened')
      .clock('a', 'Joss', '2026-11-25T08:10', [onGate('Boot floor', 'fabricated')])
    expect(lineOf(car.car())).toMatchObject({
      next: 'fabricated next, boot floor',
      held: null,
      onIt: ['Joss'],
      openRepairs: 2,
      finishedRepairs: 0,
      repairs: 2,
    })
  })

  it('is not held while anything on the car may go on', () => {
    const car = dunmere().repair('Scuttle').pass('Boot floor', 'opened')
    expect(lineOf(car.car())).toMatchObject({ next: 'assessed next, boot floor', held: null })
  })

  it('says what holds the car when nothing may go on', () => {
    const car = dunmere()
      .repair('Wheel well')
      .agree('Wheel well')
      .cover('Boot floor', 'Wheel well')
      .vary('Corner', [{ target: onGate('Boot floor', 'opened'), hours: 2 }])
    expect(lineOf(car.car())).toMatchObject({
      next: 'opened next, boot floor',
      held: "Boot floor: 'Corner' waits for the owner's answer.",
      decisionsOpen: 1,
    })
  })

  it('gives the reason at the root, not what only waits for it', () => {
    const car = inBay('3 jig')
      .repair('Wheel well')
      .agree('Wheel well')
      .repair('Boot floor')
      .agree('Boot floor')
      .cover('Boot floor', 'Wheel well')
      .vary('Corner', [{ target: onGate('Boot floor', 'opened'), hours: 2 }])
    expect(lineOf(car.car()).held).toBe("Boot floor: 'Corner' waits for the owner's answer.")
  })

  it('is held by time where only the fire watch is missing', () => {
    const car = dunmere()
      .at('2026-11-25T10:20')
      .add('timeLogged', {
        entryId: entryId('weld'),
        personId: personId('Joss'),
        on: { kind: 'work', targets: [onGate('Boot floor', 'opened')] },
        hotWork: true,
        cause: null,
        time: { kind: 'span', start: '2026-11-25T09:20:00Z', end: '2026-11-25T10:20:00Z' },
        shares: null,
        note: '',
        watchMinutes: 60,
      })
    expect(lineOf(car.car()).held).toBe('Boot floor: Fire watch after hot work until Wed 25 Nov 11:20.')
    const [watch] = floorOf([car.car()]).watches
    expect(watch).toMatchObject({
      bay: '1 metalwork',
      person: 'Joss',
      over: false,
      what: 'Boot floor: opened',
    })
  })

  it('is late after the promised day, unless the visit is paused', () => {
    const late = dunmere().add('visitChanged', {
      visitId: visitId('first'),
      promised: '2026-11-24',
      priority: 2,
      charge: { by: 'hour' },
    })
    expect(lineOf(late.car()).latePromise).toBe(true)
    late.add('visitStatusSet', { visitId: visitId('first'), status: 'paused', reason: 'waits for parts' })
    expect(lineOf(late.car())).toMatchObject({ latePromise: false, next: 'paused', held: null })
  })

  it('says that all repairs are finished, or that there are none yet', () => {
    expect(lineOf(dunmere().passTo('Boot floor', 'painted').car()).next).toBe('all repairs finished')
    expect(lineOf(inBay('yard').car()).next).toBe('no repairs yet')
  })
})

describe('the cars of the house', () => {
  it('come by priority, then by promised date, and the delivered ones last', () => {
    const car = (id: string, promised: string | null, priority: number) =>
      buildCar({ carId: carIdSchema.parse(`car-number-${id}`), shellNumber: id }).add('visitChanged', {
        visitId: visitId('first'),
        promised,
        priority,
        charge: { by: 'hour' },
      })
    const cars = [
      car('1', null, 1).car(),
      car('2', '2026-12-18', 1).car(),
      car('3', '2026-12-01', 1)
        .add('visitStatusSet', { visitId: visitId('first'), status: 'delivered', reason: '' })
        .car(),
      car('4', '2026-12-20', 3).car(),
      car('5', '2026-12-04', 1).car(),
    ]
    const order = carsView({ cars, resting: [], now, workshop, nameOf }).cars.map(
      ({ shellNumber }) => shellNumber,
    )
    expect(order).toEqual(['4', '5', '2', '1', '3'])
  })
})

it('a stopped repair keeps its variation in the words', () => {
  const car = dunmere()
    .vary('Corner', [{ target: onGate('Boot floor', 'opened'), hours: 2 }])
    .decide('Corner', 'declined')
    .add('declinedSettled', {
      variationId: variationId('Corner'),
      choice: 'stopped',
      reason: 'not closed as found on load-bearing metal',
    })
  expect(lineOf(car.car()).held).toBe('Boot floor: Stopped: not closed as found on load-bearing metal')
})
