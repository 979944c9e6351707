import { describe, expect, test } from 'vitest'
import { overtimeIdSchema } from '../../../domain/ids.ts'
import { buildProblem, type BuiltProblem } from '../../../domain/plan/build-problem.ts'
import { frozenUntil } from '../../../domain/plan/frozen-days.ts'
import type { Plan, PlannedWork } from '../../../domain/plan/plan.ts'
import { buildCar, onGate, personId, visitId, type CarBuilder } from '../../support/car-builder.ts'
import { activityOf, MONDAY, planInput } from '../../support/plan-input.ts'
import { bayId, buildWorkshop } from '../../support/workshop-builder.ts'

const HOUR = 12
const agreed = (): CarBuilder => buildCar().repair('Sill').agree('Sill')
const span = (day: string, from: string, to: string) => ({
  kind: 'span' as const,
  start: `${day}T${from}:00Z`,
  end: `${day}T${to}:00Z`,
})
/** The people of an activity, by name. */
const crewOf = (built: BuiltProblem, name: string) => {
  const crew = built.problem.activities[activityOf(built, name)]!.crew!
  const names = (people: readonly number[]) => people.map((person) => built.personIds[person])
  return { people: crew.people, able: names(crew.able), named: names(crew.named) }
}

describe('People', () => {
  test('work their weeks, holidays and absences, in ticks from now on', () => {
    const workshop = buildWorkshop((add) => {
      const week = [[{ from: '10:00', to: '12:00' }], [], [], [], [], [], []]
      const ids = { personId: personId('Pim'), roles: ['technician' as const], skills: ['metalwork'] }
      add('personAdded', { ...ids, week, absences: [{ from: '2026-11-30', to: '2026-12-04' }] })
      add('calendarSet', {
        week: Array(7).fill([]),
        holidays: [{ date: '2026-12-07', name: 'Founders’ Day' }],
      })
    })
    const { problem, personIds } = buildProblem(
      planInput([agreed().car()], { workshop, now: MONDAY + 2.5 * 3_600_000 + 1 }),
    )
    const own = problem.calendars[problem.people[personIds.indexOf(personId('Pim'))]!.calendar]!
    // Now is 10:30 and a moment, so tick 0 is 10:35. Mon 30 Nov is off, Mon 7 Dec a holiday, Mon 14 Dec is worked.
    const monday = (weeks: number) => weeks * 7 * 24 * HOUR - 31
    expect(own.spans.slice(0, 2)).toEqual([
      { from: 0, to: 17 },
      { from: monday(3) + 2 * HOUR, to: monday(3) + 4 * HOUR },
    ])
  })

  test('with overtime work longer', () => {
    const workshop = buildWorkshop((add) =>
      add('overtimeSet', {
        overtimeId: overtimeIdSchema.parse('overtime-one'),
        people: [personId('Joss')],
        from: '2026-11-23',
        to: '2026-11-23',
        weekdays: [1],
        span: { from: '17:00', to: '19:00' },
      }),
    )
    const { problem, personIds } = buildProblem(planInput([agreed().car()], { workshop }))
    const spansOf = (name: string) =>
      problem.calendars[problem.people[personIds.indexOf(personId(name))]!.calendar]!.spans
    expect(spansOf('Joss')[2]).toEqual({ from: 9 * HOUR, to: 11 * HOUR })
    expect(spansOf('Wren')[2]).toEqual({ from: 24 * HOUR, to: 24 * HOUR + 54 })
  })

  test('may do what they have the skill for, and everybody what asks for none', () => {
    const car = buildCar().repair('Sill', {
      gates: { opened: { skill: 'any' }, painted: { skill: 'paint' }, welded: { people: 2 } },
    })
    const built = buildProblem(planInput([car.car()]))
    const all = ['Mara', 'Joss', 'Wren', 'Ines'].map(personId)
    expect(crewOf(built, 'Sill: opened').able).toEqual(all)
    expect(crewOf(built, 'Sill: painted').able).toEqual([personId('Ines')])
    expect(crewOf(built, 'Sill: welded')).toMatchObject({ people: 2, able: all.slice(0, 3) })
  })

  test('who left the workshop are not planned', () => {
    const workshop = buildWorkshop((add) =>
      add('personChanged', {
        personId: personId('Joss'),
        roles: ['technician'],
        skills: ['metalwork'],
        week: null,
        absences: [],
        active: false,
      }),
    )
    const built = buildProblem(planInput([agreed().car()], { workshop }))
    expect(built.personIds).toEqual(['Mara', 'Wren', 'Ines'].map(personId))
  })
})

describe('Work begun', () => {
  test('stays with whose clock runs on it, and goes first', () => {
    const car = agreed().passTo('Sill', 'assessed')
    car.log('a', 'Wren', span('2026-11-20', '08:00', '09:00'), [onGate('Sill', 'fabricated')])
    expect(crewOf(buildProblem(planInput([car.car()])), 'Sill: fabricated').named).toEqual([personId('Wren')])
    car.clock('b', 'Joss', '2026-11-23T07:55', [onGate('Sill', 'fabricated')])
    const built = buildProblem(planInput([car.car()]))
    expect(crewOf(built, 'Sill: fabricated').named).toEqual([personId('Joss')])
    expect(built.problem.activities[activityOf(built, 'Sill: fabricated')]!.first).toBe(0)
    expect(built.problem.activities[activityOf(built, 'Sill: sealed')]!.first).toBeNull()
  })

  test('goes to whoever may do it while that person is off', () => {
    const car = agreed()
    car.log('a', 'Wren', span('2026-11-20', '08:00', '09:00'), [onGate('Sill', 'opened')])
    const workshop = buildWorkshop((add) =>
      add('personChanged', {
        personId: personId('Wren'),
        roles: ['technician'],
        skills: ['metalwork'],
        week: null,
        absences: [{ from: '2026-11-23', to: '2026-11-27' }],
        active: true,
      }),
    )
    const built = buildProblem(planInput([car.car()], { workshop }))
    expect(crewOf(built, 'Sill: opened').named).toEqual([])
    // On a Sunday nobody is there, and that is no reason to give it to somebody else.
    const sunday = buildProblem(planInput([car.car()], { now: MONDAY - 24 * 3_600_000 }))
    expect(crewOf(sunday, 'Sill: opened').named).toEqual([personId('Wren')])
  })
})

const planned = (name: string, start: string, people: readonly string[]): PlannedWork => ({
  carId: agreed().car().id,
  visitId: visitId('first'),
  target: onGate('Sill', name as 'opened'),
  start: Date.parse(`${start}:00Z`),
  finish: Date.parse(`${start}:00Z`) + 3_600_000,
  people: people.map(personId),
  bayId: null,
  hours: 1,
  begun: false,
  pinned: { people: false, day: false },
  why: { reason: 'now', words: '' },
})
const inForce = (work: PlannedWork[]): Plan => ({
  madeAt: MONDAY,
  work,
  stays: [],
  moves: [],
  cars: [],
  faults: [],
  score: { latenessHours: 0, moves: 0, end: MONDAY, changes: 0 },
})

describe('The plan in force', () => {
  test('is kept for today and the next working days, as many as the workshop says', () => {
    expect(frozenUntil(buildWorkshop(), MONDAY)).toBe(Date.parse('2026-11-26T00:00:00Z'))
    const friday = MONDAY + 4 * 24 * 3_600_000
    expect(frozenUntil(buildWorkshop(), friday)).toBe(Date.parse('2026-12-02T00:00:00Z'))
  })

  test('names the people of the frozen days and puts that work first, in its order', () => {
    const plan = inForce([
      planned('opened', '2026-11-25T08:00', ['Wren']),
      planned('assessed', '2026-11-24T08:00', ['Joss']),
      planned('fabricated', '2026-11-26T08:00', ['Wren']),
    ])
    const built = buildProblem(planInput([agreed().car()], { inForce: plan }))
    expect(crewOf(built, 'Sill: opened').named).toEqual([personId('Wren')])
    expect(crewOf(built, 'Sill: assessed').named).toEqual([personId('Joss')])
    expect(crewOf(built, 'Sill: fabricated').named).toEqual([])
    // Assessed was to start earlier, but it waits for opened.
    expect(built.problem.activities.map(({ first }) => first).slice(0, 3)).toEqual([0, 1, null])
    expect(built.problem.activities[2]!.inForce).toEqual({ start: 3 * 24 * HOUR, crew: [2] })
  })

  test('work that should have started by now is no change when it starts now', () => {
    const plan = inForce([planned('opened', '2026-11-19T08:00', ['Wren'])])
    const { problem } = buildProblem(planInput([agreed().car()], { inForce: plan }))
    expect(problem.activities[0]!.inForce?.start).toBe(0)
  })
})

describe('Pins', () => {
  test('name people before those who have it', () => {
    const car = agreed()
    car.log('a', 'Wren', span('2026-11-20', '08:00', '09:00'), [onGate('Sill', 'opened')])
    car.add('workPinned', { target: onGate('Sill', 'opened'), people: [personId('Mara')], day: null })
    const built = buildProblem(planInput([car.car()]))
    expect(crewOf(built, 'Sill: opened').named).toEqual([personId('Mara')])
    expect(built.work[0]!.pinned).toEqual({ people: true, day: false })
  })

  test('to a day put what comes before it first as well', () => {
    const car = agreed().add('workPinned', {
      target: onGate('Sill', 'fabricated'),
      people: [],
      day: '2026-12-10',
    })
    const { problem, work } = buildProblem(planInput([car.car()]))
    expect(problem.activities.map(({ first }) => first).slice(0, 4)).toEqual([0, 1, 2, null])
    expect(work[2]!.pinned).toEqual({ people: false, day: true })
  })
})

describe('Cars and bays', () => {
  test('are due at the end of work on the promised day and weigh by their priority', () => {
    const car = buildCar().repair('Sill')
    car.visit('second', { promised: '2026-11-24', priority: 3 })
    expect(buildProblem(planInput([car.car()])).problem.cars[0]).toMatchObject({
      due: 24 * HOUR + 8.5 * HOUR,
      weight: 4,
    })
    car.visit('third', { promised: '2026-11-28', priority: 1 })
    expect(buildProblem(planInput([car.car()])).problem.cars[0]).toMatchObject({
      due: 5 * 24 * HOUR + 16 * HOUR,
      weight: 1,
    })
  })

  test('a shell keeps its bay, and a yard takes many', () => {
    const car = agreed().add('shellMoved', { bayId: bayId('3 jig'), fixture: 'wheels', note: '' })
    const built = buildProblem(planInput([car.car()]))
    expect(built.bayIds[built.problem.cars[0]!.bay!]).toBe(bayId('3 jig'))
    expect(built.problem.bays.at(-1)).toMatchObject({ storage: true, kinds: [] })
    expect(built.problem.move).toEqual({ work: 6, people: 2, able: [0, 1, 2, 3] })
  })

  test('work on a part off the car, and at the bench, needs no bay', () => {
    const car = buildCar().repair('Door', { on: 'part' }).task('sort', { bayKind: 'bench' })
    const { problem } = buildProblem(planInput([car.car()]))
    expect(new Set(problem.activities.map(({ bayKind }) => bayKind))).toEqual(new Set([null]))
  })

  test('a shell is braced when it is, stands on a fixture, or will be before any side of it is opened', () => {
    const bearing = () => buildCar().repair('Sill', { loadBearing: true })
    const bracedOf = (car: CarBuilder) => buildProblem(planInput([car.car()])).problem.cars[0]!.braced
    expect(bracedOf(bearing())).toBe(false)
    expect(bracedOf(bearing().add('safetySet', { item: 'bracing', stands: true, note: '' }))).toBe(true)
    expect(bracedOf(bearing().add('fixturePlanned', { fixture: 'dolly' }))).toBe(true)
    const onJig = { bayId: bayId('3 jig'), fixture: 'jig' as const, note: '' }
    expect(bracedOf(bearing().passTo('Sill', 'opened').add('shellMoved', onJig))).toBe(true)
    expect(bracedOf(bearing().passTo('Sill', 'opened').add('fixturePlanned', { fixture: 'jig' }))).toBe(false)
  })

  test('hot work is watched for as long as the workshop says', () => {
    const car = buildCar().repair('Sill', { gates: { welded: { hotWork: true } } })
    const { problem } = buildProblem(planInput([car.car()]))
    expect(problem.activities.map(({ watch }) => watch)).toEqual([0, 0, 0, 0, 0, 0, HOUR, 0])
  })

  test('jigs are held from the first load-bearing gate to welded where there are only so many', () => {
    const car = buildCar().repair('Sill', { loadBearing: true }).add('fixturePlanned', { fixture: 'jig' })
    expect(buildProblem(planInput([car.car()])).problem.spans).toEqual([])
    const workshop = buildWorkshop((add) =>
      add('fixturesSet', { counts: { jig: 1, rotisserie: null, dolly: null } }),
    )
    const { problem } = buildProblem(planInput([car.car()], { workshop }))
    expect(problem.resources).toEqual([{ capacity: 1 }])
    expect(problem.spans).toEqual([
      { resource: 0, amount: 1, activities: [0, 1, 2, 3, 4, 5, 6], held: false },
    ])
    car.add('shellMoved', { bayId: bayId('3 jig'), fixture: 'jig', note: '' })
    expect(buildProblem(planInput([car.car()], { workshop })).problem.spans[0]!.held).toBe(true)
  })

  test('the horizon is at least half a year', () => {
    const { problem } = buildProblem(planInput([agreed().car()]))
    expect(problem.horizon).toBeGreaterThan(180 * 24 * HOUR)
    expect(problem.midnights[0]).toBe(-8 * HOUR)
    expect(problem.midnights.at(-1)).toBe(problem.horizon)
  })
})
