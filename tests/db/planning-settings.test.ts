import { beforeEach, describe, expect, test } from 'vitest'
import { readFacts } from '../../db/journal.ts'
import { readWorkshop } from '../../db/reads.ts'
import type { CommandPayload } from '../../domain/commands/command-shapes.ts'
import { entryIdSchema, overtimeIdSchema, visitIdSchema } from '../../domain/ids.ts'
import { usualFixtures, usualPlanning } from '../../domain/usual-workshop.ts'
import { createWorkshop, manager, welder, type Workshop } from '../support/workshop.ts'

let workshop: Workshop

/** Monday, 23 November 2026, 08:00; everybody works Monday to Friday to 16:30. */
beforeEach(() => {
  workshop = createWorkshop()
})

describe("the workshop's planning", () => {
  test('is the usual until it is set', () => {
    expect(readWorkshop(workshop.db)).toMatchObject({
      planning: { moveMinutes: 30, movePeople: 2, decisionDays: 7, frozenDays: 2, takeByItself: false },
      fixtures: { jig: null, rotisserie: null, dolly: null },
      planTaken: null,
    })
    const planning = { ...usualPlanning, moveMinutes: 45, takeByItself: true }
    workshop.run('setPlanning', planning)
    workshop.run('setFixtures', { counts: { jig: 1, rotisserie: 2, dolly: null } })
    expect(readWorkshop(workshop.db)).toMatchObject({
      planning,
      fixtures: { jig: 1, rotisserie: 2, dolly: null },
    })
  })

  test.each([
    [{ moveMinutes: 481 }, 'A move takes 480 minutes at most.'],
    [{ movePeople: 7 }, 'A move takes 6 people at most.'],
    [{ decisionDays: 91 }, 'Expect a decision within 90 days.'],
    [{ frozenDays: 31 }, 'At most 30 days can be kept.'],
  ])('refuses %o', (over, message) => {
    expect(workshop.refused('setPlanning', { ...usualPlanning, ...over }).message).toContain(message)
  })

  test('refuses more fixtures than a hall holds', () => {
    expect(workshop.refused('setFixtures', { counts: { ...usualFixtures, jig: 51 } }).message).toContain(
      'A workshop has 50 of these at most.',
    )
  })

  test('belongs to the workshop and not to a car, and is the manager who says it', () => {
    expect(workshop.refused('setPlanning', usualPlanning, { carId: workshop.addCar() }).message).toBe(
      'This belongs to the workshop and not to a car.',
    )
    for (const [kind, payload] of [
      ['setPlanning', usualPlanning],
      ['setFixtures', { counts: usualFixtures }],
    ] as const)
      expect(workshop.refusalCode(kind, payload, { by: welder })).toBe('not-allowed')
    expect(readFacts(workshop.db, null).filter(({ kind }) => kind === 'planningSet')).toEqual([])
  })
})

describe('the fixture of a car', () => {
  test('is planned, and planned away', () => {
    const carId = workshop.addCar()
    for (const fixture of ['jig', null] as const) {
      workshop.run('planFixture', { fixture }, { carId })
      expect(workshop.car(carId).fixturePlanned).toBe(fixture)
    }
  })

  test('is refused where the workshop has none', () => {
    const carId = workshop.addCar()
    workshop.run('setFixtures', { counts: { ...usualFixtures, rotisserie: 0 } })
    expect(workshop.refused('planFixture', { fixture: 'rotisserie' }, { carId }).message).toBe(
      'The workshop has no rotisserie.',
    )
  })

  test('is refused on a car that was delivered', () => {
    const carId = workshop.addCar()
    const visitId = visitIdSchema.parse('visit-s-101')
    for (const status of ['finished', 'delivered'] as const)
      workshop.run('setVisitStatus', { visitId, status, reason: '' }, { carId })
    expect(workshop.refused('planFixture', { fixture: 'jig' }, { carId }).message).toBe(
      'The visit is delivered.',
    )
  })
})

describe('overtime', () => {
  const overtimeId = overtimeIdSchema.parse('overtime-saturdays')
  const saturdays: CommandPayload<'setOvertime'> = {
    overtimeId,
    people: [welder],
    from: '2026-11-28',
    to: '2026-12-19',
    weekdays: [6],
    span: { from: '08:00', to: '12:00' },
  }
  const overtimes = () => [...readWorkshop(workshop.db).overtime.keys()]

  test('stands until it is cancelled', () => {
    workshop.run('setOvertime', saturdays)
    expect(overtimes()).toEqual([overtimeId])
    workshop.run('cancelOvertime', { overtimeId })
    expect(overtimes()).toEqual([])
    expect(workshop.refused('cancelOvertime', { overtimeId }).message).toBe(
      'This overtime does not stand any more.',
    )
  })

  test.each<[string, Partial<typeof saturdays>, string]>([
    ['of nobody', { people: [] }, 'Name who works longer.'],
    [
      'of somebody who is not known',
      { people: [manager, 'person-none' as typeof manager] },
      'Somebody named here does not work in the workshop.',
    ],
    ['on no day of the week', { weekdays: [] }, 'Choose a day of the week.'],
    [
      'on days of the week that do not come',
      { to: '2026-12-01', weekdays: [3, 4, 5] },
      'None of the chosen days of the week falls on 28 Nov to 1 Dec.',
    ],
    ['that ends before it starts', { to: '2026-11-27' }, 'The overtime ends before it starts.'],
    ['in the past', { from: '2026-11-02', to: '2026-11-22' }, 'These days are in the past.'],
    [
      'with an empty span',
      { span: { from: '12:00', to: '12:00' } },
      'The working time must end after it starts.',
    ],
  ])('%s is refused', (_name, over, message) => {
    expect(workshop.refused('setOvertime', { ...saturdays, ...over }).message).toContain(message)
    expect(overtimes()).toEqual([])
  })

  test('that is known already is refused', () => {
    workshop.run('setOvertime', saturdays)
    expect(workshop.refusalCode('setOvertime', saturdays)).toBe('already')
  })

  /** A clock from 11:00 to 20:00 of a day; until when it counts by itself, on the workshop's clock (UTC+1). */
  const countsTo = (date: string, name: string): string => {
    workshop.now = Date.parse(`${date}T11:00:00+01:00`)
    const entryId = entryIdSchema.parse(`entry-${name}`)
    const on = { kind: 'workshop' as const, what: 'Sweeping' }
    workshop.run('startClock', { entryId, personId: welder, on, hotWork: false, cause: null })
    workshop.pass({ hours: 9 })
    workshop.run('stopClock', { entryId, overtime: false, shares: null })
    const stops = readFacts(workshop.db, null).filter((fact) => fact.kind === 'clockStopped')
    return stops.at(-1)?.payload.countsTo.slice(11, 16) ?? ''
  }

  test('lets a clock count to its end, on a Saturday and past the end of a day, and not after it is cancelled', () => {
    expect(countsTo('2026-11-27', 'friday')).toBe('16:30')
    workshop.run('setOvertime', saturdays)
    workshop.run('setOvertime', {
      ...saturdays,
      overtimeId: overtimeIdSchema.parse('overtime-evenings'),
      weekdays: [5],
      span: { from: '17:00', to: '19:00' },
    })
    expect(countsTo('2026-11-28', 'saturday')).toBe('12:00')
    expect(countsTo('2026-12-04', 'long-friday')).toBe('19:00')
    workshop.run('cancelOvertime', { overtimeId })
    expect(countsTo('2026-12-05', 'day-off')).toBe('11:00')
  })
})
