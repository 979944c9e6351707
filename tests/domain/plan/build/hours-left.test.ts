import { describe, expect, test } from 'vitest'
import { expectedRest } from '../../../../domain/plan/build/rest-of-work.ts'
import { buildProblem } from '../../../../domain/plan/build-problem.ts'
import { buildCar, onGate, type CarBuilder } from '../../../support/car-builder.ts'
import { activityOf, planInput } from '../../../support/plan-input.ts'

describe('The expected rest of work that is begun', () => {
  const points = { shortest: 2, likely: 4, longest: 12 }

  test('is the PERT mean less what was spent, while the shortest time is not yet spent', () => {
    // (2 + 4·4 + 12) / 6 = 5 (Malcolm et al. 1959).
    expect(expectedRest(points, 0)).toBeCloseTo(5, 9)
    expect(expectedRest(points, 1.5)).toBeCloseTo(3.5, 9)
    expect(expectedRest(points, 2)).toBeCloseTo(3, 9)
  })

  test('is a sixth of what is possible still, where the shortest is the likeliest', () => {
    // Mode at the lower end: shapes 1 and 5, so P(B > x) = (1 - x)^5 and E[B - x | B > x] = (1 - x)/6, by integration.
    const skewed = { shortest: 0, likely: 0, longest: 12 }
    for (const spent of [0.5, 3, 6, 11]) expect(expectedRest(skewed, spent)).toBeCloseTo((12 - spent) / 6, 6)
  })

  test('where the longest is the likeliest, agrees with the integral worked out by hand', () => {
    // Shapes 5 and 1: f = 5 t^4, so E[B - x | B > x] = (5/6 (1 - x^6)) / (1 - x^5) - x.
    const skewed = { shortest: 0, likely: 10, longest: 10 }
    for (const x of [0.2, 0.5, 0.9])
      expect(expectedRest(skewed, 10 * x)).toBeCloseTo(10 * (((5 / 6) * (1 - x ** 6)) / (1 - x ** 5) - x), 6)
  })

  test('shrinks as hours are spent, never below nothing, and is over with the longest time', () => {
    let last = Infinity
    for (let spent = 0; spent <= 12; spent += 0.5) {
      const rest = expectedRest(points, spent)
      expect(rest).toBeLessThan(last)
      expect(rest).toBeGreaterThanOrEqual(0)
      last = rest
    }
    expect(expectedRest(points, 12)).toBe(0)
    expect(expectedRest(points, 40)).toBe(0)
    expect(expectedRest({ shortest: 3, likely: 3, longest: 3 }, 3)).toBe(0)
  })
})

describe('What is left of a gate', () => {
  const left = (car: CarBuilder, name: string) => {
    const built = buildProblem(planInput([car.car()]))
    const index = activityOf(built, name)
    return { ...built.work[index]!, ticks: built.problem.activities[index]!.work }
  }
  const span = (from: string, to: string) => ({
    kind: 'span' as const,
    start: `2026-11-20T${from}:00Z`,
    end: `2026-11-20T${to}:00Z`,
  })

  test('is its mean before it is begun, on all of its people together', () => {
    const car = buildCar().repair('Sill', {
      gates: { welded: { hours: { shortest: 2, likely: 4, longest: 12 }, people: 2 } },
    })
    // 5 hours of two people are 2.5 hours: 30 ticks of 5 minutes.
    expect(left(car, 'Sill: welded')).toMatchObject({ hours: 5, begun: false, ticks: 30 })
  })

  test('is what was agreed where that differs from its plan, with the three points drawn out to it', () => {
    const car = buildCar().repair('Sill').estimate(onGate('Sill', 'opened'), 6)
    expect(left(car, 'Sill: opened')).toMatchObject({
      hours: 6,
      points: { shortest: 6, likely: 6, longest: 6 },
    })
  })

  test('grows by what variations add once they are accepted', () => {
    const car = buildCar().repair('Sill').estimate(onGate('Sill', 'opened'), 6)
    car.vary('More rust', [{ target: onGate('Sill', 'opened'), hours: 4 }])
    expect(left(car, 'Sill: opened').hours).toBe(6)
    car.decide('More rust', 'accepted')
    expect(left(car, 'Sill: opened').hours).toBe(10)
  })

  test('is the expected rest once hours are spent, and never nothing', () => {
    const car = buildCar().repair('Sill')
    car.log('a', 'Joss', span('08:00', '09:30'), [onGate('Sill', 'opened')])
    const { hours, begun } = left(car, 'Sill: opened')
    expect(begun).toBe(true)
    expect(hours).toBeCloseTo(expectedRest({ shortest: 1, likely: 2, longest: 3 }, 1.5), 9)
    car.log('b', 'Joss', span('09:30', '16:00'), [onGate('Sill', 'opened')])
    expect(left(car, 'Sill: opened').ticks).toBe(1)
  })

  test('is what its technician said, less what was done since', () => {
    const car = buildCar().repair('Sill')
    car.log('a', 'Joss', span('08:00', '09:00'), [onGate('Sill', 'opened')])
    car.at('2026-11-20T09:00').add('leftSaid', { target: onGate('Sill', 'opened'), hours: 7 })
    expect(left(car, 'Sill: opened').hours).toBe(7)
    car.at('2026-11-20T12:00').log('b', 'Joss', span('09:00', '11:00'), [onGate('Sill', 'opened')])
    expect(left(car, 'Sill: opened').hours).toBe(5)
  })

  test('is a signature of no length when nothing but that is left', () => {
    const car = buildCar().repair('Sill')
    car.log('a', 'Joss', span('08:00', '09:00'), [onGate('Sill', 'opened')])
    car.add('leftSaid', { target: onGate('Sill', 'opened'), hours: 0 })
    expect(left(car, 'Sill: opened')).toMatchObject({ hours: 0, ticks: 0, begun: true })
  })

  test('is the whole again after it was reopened', () => {
    const car = buildCar().repair('Sill')
    car.log('a', 'Joss', span('08:00', '10:00'), [onGate('Sill', 'opened')]).pass('Sill', 'opened')
    car.at('2026-11-21T08:00').reopen('Sill', 'opened')
    expect(left(car, 'Sill: opened')).toMatchObject({ hours: 2, begun: false })
  })
})
