import { describe, expect, test } from 'vitest'
import { carIdSchema, planIdSchema } from '../../../domain/ids.ts'
import type { CarState } from '../../../domain/car.ts'
import { planView, type PlanViewInput } from '../../../domain/views/plan-view.ts'
import { buildCar, personId } from '../../support/car-builder.ts'
import { MONDAY, planInput, planOf } from '../../support/plan-input.ts'
import { bayId, buildWorkshop, nameOf } from '../../support/workshop-builder.ts'

const planId = planIdSchema.parse('plan-one')
const car = (name: string): CarState =>
  buildCar({ carId: carIdSchema.parse(`car-${name.toLowerCase()}`), name, shellNumber: `S-${name}` })
    .repair('Sill')
    .agree('Sill')
    .task('wax')
    .car()
const paused = (): CarState => {
  const built = buildCar({ carId: carIdSchema.parse('car-paused'), name: 'Paused' }).repair('Sill')
  return built
    .add('visitStatusSet', { visitId: built.car().currentVisit!, status: 'paused', reason: '' })
    .car()
}
const view = (cars: readonly CarState[], over: Partial<PlanViewInput> = {}) => {
  const { workshop } = planInput(cars)
  const plan = planOf(planInput(cars))
  return planView({
    workshop,
    cars,
    placeOf: (carId) => cars.findIndex(({ id }) => id === carId),
    nameOf,
    now: MONDAY,
    state: 'settled',
    inForce: null,
    proposal: { planId, plan },
    ...over,
  })
}

describe('What the Plan screen shows', () => {
  test('every bay, person and planned car by name, and how its work is called', () => {
    const shown = view([car('Dunmere')])
    expect(shown.bays.map(({ name, storage }) => [name, storage])).toEqual([
      ['1 metalwork', false],
      ['3 jig', false],
      ['6 booth', false],
      ['yard', true],
    ])
    expect(shown.people.map(({ name, skills }) => `${name}: ${skills.join()}`)).toEqual([
      'Mara: metalwork',
      'Joss: metalwork',
      'Wren: metalwork',
      'Ines: paint',
    ])
    expect(shown.cars).toHaveLength(1)
    expect(shown.cars[0]).toMatchObject({
      name: 'Dunmere',
      shellNumber: 'S-Dunmere',
      promised: '2026-12-18',
      priority: 1,
    })
    expect(shown.cars[0]!.workNames).toMatchObject({
      'repair-sill/welded': 'Sill: welded',
      'task-wax': 'wax',
    })
    expect(Object.keys(shown.cars[0]!.workNames)).toHaveLength(9)
  })

  test('the same hatching of a car whatever else is planned, one of twelve', () => {
    const many = Array.from({ length: 14 }, (_, index) =>
      car(`Car ${String.fromCharCode(97 + index)}`.replace(' ', '')),
    )
    expect(view([paused(), ...many]).cars.map(({ hatch }) => hatch)).toEqual([
      1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 0, 1, 2,
    ])
  })

  test('days from this week’s Monday to the last finish or promise, with the workshop’s hours and holidays', () => {
    const workshop = buildWorkshop((add) =>
      add('calendarSet', {
        week: [[{ from: '08:00', to: '12:00' }], [], [], [], [], [], []],
        holidays: [{ date: '2026-12-07', name: 'Founders’ Day' }],
      }),
    )
    const { days } = view([car('Dunmere')], { workshop, now: MONDAY + 2 * 24 * 3_600_000 })
    expect(days[0]).toEqual({
      date: '2026-11-23',
      from: Date.parse('2026-11-23T00:00:00Z'),
      to: Date.parse('2026-11-24T00:00:00Z'),
      spans: [{ from: Date.parse('2026-11-23T08:00:00Z'), to: Date.parse('2026-11-23T12:00:00Z') }],
      holiday: null,
    })
    expect(days[14]).toMatchObject({ date: '2026-12-07', spans: [], holiday: 'Founders’ Day' })
    expect(days.at(-1)!.date).toBe('2026-12-18')
  })

  test('when people are off, as far as the days go', () => {
    const workshop = buildWorkshop((add) =>
      add('personChanged', {
        personId: personId('Joss'),
        roles: ['technician'],
        skills: ['metalwork'],
        week: null,
        absences: [
          { from: '2026-11-20', to: '2026-11-24' },
          { from: '2026-12-16', to: '2027-01-08' },
          { from: '2027-03-01', to: '2027-03-05' },
        ],
        active: true,
      }),
    )
    const { people } = view([car('Dunmere')], { workshop })
    expect(people[1]!.off).toEqual([
      { from: '2026-11-23', to: '2026-11-24' },
      { from: '2026-12-16', to: '2026-12-18' },
    ])
  })

  test('a proposal beside what is in force, compared with it', () => {
    const cars = [car('Dunmere')]
    const plan = planOf(planInput(cars))
    const inForce = { planId, plan, takenAt: MONDAY, takenBy: 'Mara' }
    expect(view(cars, { inForce }).proposal).toMatchObject({
      planId,
      changes: 0,
      movesBefore: plan.moves.length,
    })
    expect(view(cars, { inForce, proposal: null }).proposal).toBeNull()
    expect(view(cars, { inForce: null, proposal: null })).toMatchObject({
      cars: [],
      inForce: null,
      proposal: null,
    })
  })

  test('a bay that was given up while it is still planned', () => {
    const workshop = buildWorkshop((add) =>
      add('bayChanged', {
        bayId: bayId('1 metalwork'),
        name: '1 metalwork',
        kinds: ['metalwork'],
        floor: { x: 0, y: 0, width: 30, height: 60 },
        active: false,
      }),
    )
    expect(view([car('Dunmere')], { workshop }).bays.map(({ name }) => name)).toContain('1 metalwork')
    expect(view([], { workshop }).bays.map(({ name }) => name)).not.toContain('1 metalwork')
  })
})
