import { describe, expect, test } from 'vitest'
import { awayIdSchema, bookingIdSchema, carIdSchema, partyIdSchema } from '../../../domain/ids.ts'
import { buildProblem, type BuiltProblem } from '../../../domain/plan/build-problem.ts'
import { explainStarts } from '../../../domain/plan/explain.ts'
import { planFromSchedule, type ScheduleTold } from '../../../domain/plan/plan-from-schedule.ts'
import { planSchema } from '../../../domain/plan/plan.ts'
import type { Schedule } from '../../../domain/plan/schedule.ts'
import { solve } from '../../../domain/plan/solve/solve.ts'
import { buildCar, onGate, personId, visitId } from '../../support/car-builder.ts'
import { activityOf, MONDAY, planInput, planOf } from '../../support/plan-input.ts'
import { bayId } from '../../support/workshop-builder.ts'
import { scoreSchedule } from '../../support/score-schedule.ts'

const HOUR = 3_600_000
const standing = () =>
  buildCar().add('shellMoved', { bayId: bayId('1 metalwork'), fixture: 'wheels', note: '' })
const booked = (from: string, to: string) => ({
  bookingId: bookingIdSchema.parse('booking-one'),
  bayId: bayId('1 metalwork'),
  from,
  to,
})
const told = (built: BuiltProblem, schedule: Schedule, over: Partial<ScheduleTold> = {}): ScheduleTold => ({
  starts: built.work.map(({ name }) => ({ reason: 'order', words: `Why ${name}.` })),
  likelihood: null,
  score: scoreSchedule(built.problem, schedule),
  now: MONDAY,
  ...over,
})

describe('A plan read from a schedule', () => {
  test('says who does what, where and when, in moments and ids, and keeps to its shape', () => {
    const car = standing()
      .repair('Sill', { gates: { painted: { cureHours: 16 } } })
      .agree('Sill')
    car.add('bayBooked', booked('2026-11-23', '2026-12-04'))
    const plan = planOf(planInput([car.car()]))
    expect(planSchema.parse(plan)).toEqual(plan)
    expect(plan.madeAt).toBe(MONDAY)
    expect(plan.work[0]).toMatchObject({
      carId: 'car-dunmere',
      visitId: visitId('first'),
      target: onGate('Sill', 'opened'),
      start: MONDAY,
      finish: MONDAY + 2 * HOUR,
      bayId: bayId('1 metalwork'),
      hours: 2,
      begun: false,
      pinned: { people: false, day: false },
    })
    // Eight gates of two hours: two days of eight hours, the second ending at 16:30, then 16 hours of curing.
    const lastWork = Date.parse('2026-11-24T16:30:00Z')
    expect(plan.work.at(-1)!.finish).toBe(lastWork)
    expect(plan.cars).toEqual([
      {
        carId: 'car-dunmere',
        visitId: visitId('first'),
        promised: '2026-12-18',
        priority: 1,
        finish: lastWork + 16 * HOUR,
        finish50: null,
        finish80: null,
        drivers: [],
      },
    ])
    expect(plan.stays).toEqual([
      {
        carId: 'car-dunmere',
        bayId: bayId('1 metalwork'),
        from: MONDAY,
        to: lastWork,
        bookingId: 'booking-one',
      },
    ])
    expect(plan.score).toEqual({ latenessHours: 0, moves: 0, end: lastWork + 16 * HOUR, changes: 0 })
  })

  test('names a move by those who do it and a car that comes from outside by no bay', () => {
    const plan = planOf(planInput([buildCar().repair('Sill').agree('Sill').car()]))
    expect(plan.moves).toHaveLength(1)
    expect(plan.moves[0]).toMatchObject({
      from: null,
      to: bayId('1 metalwork'),
      start: MONDAY,
      finish: MONDAY + HOUR / 2,
    })
    expect(plan.moves[0]!.people).toHaveLength(2)
  })

  test('gives each car its likely finishes and the three that drive them most', () => {
    const built = buildProblem(planInput([standing().repair('Sill').agree('Sill').task('wax').car()]))
    const { schedule } = solve(built.problem, { seed: 1, schedules: 20 })
    const drivers = [
      { repair: built.problem.activities[0]!.repair, share: 0.6 },
      { repair: built.problem.activities[activityOf(built, 'wax')]!.repair, share: 0.3 },
      { repair: built.problem.activities[0]!.repair, share: 0.06 },
      { repair: built.problem.activities[0]!.repair, share: 0.04 },
    ]
    const plan = planFromSchedule(
      built,
      schedule,
      told(built, schedule, { likelihood: [{ finish50: 100, finish80: 200, late: null, drivers }] }),
    )
    expect(plan.cars[0]).toMatchObject({ finish50: MONDAY + 100 * 300_000, finish80: MONDAY + 200 * 300_000 })
    expect(plan.cars[0]!.drivers).toEqual([
      { name: 'Sill', share: 0.6 },
      { name: 'wax', share: 0.3 },
      { name: 'Sill', share: 0.06 },
    ])
    expect(plan.work[0]!.why).toEqual({ reason: 'order', words: 'Why Sill: opened.' })
  })

  test('names what drives a car’s finish on another car by that car', () => {
    const other = buildCar({ carId: carIdSchema.parse('car-marrick'), name: 'Marrick' })
      .repair('Wing')
      .agree('Wing')
    const built = buildProblem(planInput([standing().repair('Sill').agree('Sill').car(), other.car()]))
    const { schedule } = solve(built.problem, { seed: 1, schedules: 20 })
    const { repair } = built.problem.activities[activityOf(built, 'Wing: opened')]!
    const likely = { finish50: 100, finish80: 200, late: null, drivers: [{ repair, share: 1 }] }
    const plan = planFromSchedule(built, schedule, told(built, schedule, { likelihood: [likely, likely] }))
    expect(plan.cars.map(({ drivers }) => drivers[0]!.name)).toEqual(['Wing of Marrick', 'Wing'])
  })

  test('tells lateness in hours', () => {
    const car = standing().repair('Sill').agree('Sill')
    car.visit('second', { promised: '2026-11-24', priority: 2 }).agree('Sill', 3)
    // Eight gates of three hours end on Wed 25 Nov at 16:30, a day after the end of work on the promised one; times two.
    expect(planOf(planInput([car.car()])).score.latenessHours).toBe(48)
  })

  test('names work that found no place, once a car, by what comes first', () => {
    const built = buildProblem(planInput([standing().repair('Sill').agree('Sill').car()]))
    const { schedule } = solve(built.problem, { seed: 1, schedules: 20 })
    const cut = { ...schedule, placed: schedule.placed.map((each, index) => (index < 6 ? each : null)) }
    const plan = planFromSchedule(built, cut, told(built, cut))
    expect(plan.faults.map(({ code, words }) => `${code}: ${words}`)).toEqual([
      expect.stringMatching(
        /^too long: Sill: welded: found no place before .* 2027, with all that follows\.$/,
      ),
    ])
    expect(plan.work).toHaveLength(6)
    expect(plan.cars[0]!.finish).toBeNull()
  })

  test('says which pins clash: two pieces of work of one person on one day', () => {
    const car = standing()
      .repair('Sill', { gates: { opened: { hours: { shortest: 8, likely: 8, longest: 8 } } } })
      .repair('Wing', { gates: { opened: { hours: { shortest: 8, likely: 8, longest: 8 } } } })
      .add('workPinned', { target: onGate('Sill', 'opened'), people: [personId('Joss')], day: '2026-11-25' })
      .add('workPinned', { target: onGate('Wing', 'opened'), people: [personId('Joss')], day: '2026-11-25' })
    car.estimate(onGate('Sill', 'opened'), 8).estimate(onGate('Wing', 'opened'), 8)
    const built = buildProblem(planInput([car.car()]))
    const { schedule } = solve(built.problem, { seed: 1, schedules: 20 })
    const plan = planFromSchedule(
      built,
      schedule,
      told(built, schedule, { starts: explainStarts(built, schedule) }),
    )
    expect(plan.faults.map(({ code, words }) => `${code}: ${words}`)).toEqual([
      'pins clash: Wing: opened is pinned to Wed 25 Nov and starts on Thu 26 Nov. It waits for Joss until Wed 25 Nov 16:30, first on Sill: opened; work goes on Thu 26 Nov 08:00.',
    ])
  })

  test('says when a booking is not kept because the car comes later', () => {
    const car = buildCar()
      .repair('Sill')
      .agree('Sill')
      .add('shellSentAway', {
        awayId: awayIdSchema.parse('away-one'),
        firmId: partyIdSchema.parse('party-firm'),
        what: 'dipping',
        from: '2026-11-16',
        expected: '2026-12-01',
      })
    car.add('bayBooked', booked('2026-11-25', '2026-12-04'))
    expect(planOf(planInput([car.car()])).faults.map(({ code, words }) => `${code}: ${words}`)).toEqual([
      'pins clash: 1 metalwork is booked for Dunmere Saloon from Wed 25 Nov, and it is not there that day.',
    ])
  })
})
