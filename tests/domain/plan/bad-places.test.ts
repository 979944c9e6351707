import { describe, expect, test } from 'vitest'
import { bookingIdSchema, carIdSchema } from '../../../domain/ids.ts'
import { buildCar } from '../../support/car-builder.ts'
import { beside, planAsSaid as plan, said } from '../../support/planned-badly.ts'
import { bayId } from '../../support/workshop-builder.ts'

describe('What stands in a bay and cannot be moved in time is named in words', () => {
  test('a shell that is open, not braced, and would have to be moved', () => {
    const car = beside()
      .repair('Sill', { loadBearing: true, gates: { welded: { bayKind: 'jig' } } })
      .agree('Sill')
      .passTo('Sill', 'opened')
      .add('shellMoved', { bayId: bayId('1 metalwork'), fixture: 'wheels', note: '' })
    const { faults, names } = plan([car.car()])
    expect(said(faults)).toEqual([
      "not braced | Sill: welded: a bay of the kind 'jig' is needed while Sill stands open, and the shell is neither braced nor on a fixture, so it cannot be moved there. | Brace the shell, plan it on a jig, rotisserie or dolly, or give its bay that kind.",
    ])
    expect(names).not.toContain('Sill: welded')
    expect(names).toContain('Sill: trial-fitted')
  })

  test('an open shell that is not braced and stands nowhere', () => {
    const car = buildCar().repair('Sill', { loadBearing: true }).agree('Sill').passTo('Sill', 'primed')
    const { faults, names } = plan([car.repair('Wing').agree('Wing').car()])
    expect(faults.map(({ code }) => code)).toEqual(['not braced'])
    expect(faults[0]!.words).toMatch(
      /^Sill: trial-fitted and Sill: welded: a bay of the kind 'metalwork' is needed while Sill/,
    )
    expect(names).toEqual([])
  })

  test('two cars booked into one bay, and a bay booked that another stands in', () => {
    const booking = (id: string, from: string) => ({
      bookingId: bookingIdSchema.parse(id),
      bayId: bayId('1 metalwork'),
      from,
      to: '2026-12-04',
    })
    const first = beside().add('bayBooked', booking('booking-a', '2026-11-30')).car()
    const other = { carId: carIdSchema.parse('car-marrick'), name: 'Marrick' }
    const second = buildCar(other).repair('Sill').add('bayBooked', booking('booking-b', '2026-12-01'))
    expect(plan([first, second.car()]).faults.map(({ words }) => words)).toContain(
      '1 metalwork is booked for Dunmere Saloon and Marrick on the same days.',
    )
    const standing = buildCar(other)
      .repair('Sill')
      .add('shellMoved', { bayId: bayId('1 metalwork'), fixture: 'wheels', note: '' })
    const now = beside().add('bayBooked', booking('booking-a', '2026-11-23')).car()
    expect(plan([now, standing.car()]).faults.map(({ words }) => words)).toContain(
      '1 metalwork is booked for Dunmere Saloon now, and Marrick stands in it.',
    )
  })

  test('a bay booked that an open shell, not braced, cannot leave by then', () => {
    const open = buildCar()
      .add('shellMoved', { bayId: bayId('1 metalwork'), fixture: 'wheels', note: '' })
      .repair('Sill', { loadBearing: true })
      .agree('Sill', 10)
      .passTo('Sill', 'opened')
    const booking = (from: string) => ({
      bookingId: bookingIdSchema.parse('booking-b'),
      bayId: bayId('1 metalwork'),
      from,
      to: '2026-12-18',
    })
    const booked = (from: string) =>
      buildCar({ carId: carIdSchema.parse('car-marrick'), name: 'Marrick' })
        .repair('Wing')
        .add('bayBooked', booking(from))
    // Six gates of ten hours take until Wed 2 Dec at 12:00.
    const words =
      '1 metalwork is booked for Marrick while Dunmere Saloon stands in it, open and not braced, so that it cannot be moved.'
    expect(plan([open.car(), booked('2026-12-02').car()]).faults.map((fault) => fault.words)).toContain(words)
    expect(plan([open.car(), booked('2026-12-07').car()]).faults).toEqual([])
  })

  test('a car with nothing to plan that stands where another is brought to, until it is moved to the yard', () => {
    const idle = buildCar({ carId: carIdSchema.parse('car-marrick'), name: 'Marrick' })
    const standsIn = (bay: string) =>
      idle.add('shellMoved', { bayId: bayId(bay), fixture: 'wheels', note: '' }).car()
    expect(said(plan([beside().car(), standsIn('1 metalwork')]).faults)).toEqual([
      'in the way | It stands in 1 metalwork with no work there to plan, and the plan brings Dunmere Saloon there on Mon 23 Nov. | Move Marrick out by then, or add the work that it still needs there.',
    ])
    expect(plan([beside().car(), standsIn('yard')]).faults).toEqual([])
  })
})
