import { describe, expect, it } from 'vitest'
import type { WorkingWeek } from '../../../domain/facts/shapes.ts'
import { carWarnings } from '../../../domain/watch/car-warnings.ts'
import { carClocksPastDay } from '../../../domain/watch/clocks.ts'
import type { WorkshopState } from '../../../domain/workshop.ts'
import { buildCar, entryId, onGate, personId, type CarBuilder } from '../../support/car-builder.ts'
import { buildWorkshop } from '../../support/workshop-builder.ts'

const utc = buildWorkshop()
const boot = onGate('Boot floor', 'opened')
/** 08:00 to 16:30 on every day of the week. */
const everyDay: WorkingWeek = Array.from({ length: 7 }, () => [{ from: '08:00', to: '16:30' }])
const london: WorkshopState = { ...utc, zone: 'Europe/London', week: everyDay }

const dunmere = () => buildCar().repair('Boot floor').agree('Boot floor', 40)
const clocksOf = (car: CarBuilder, now: string, workshop = utc) =>
  carClocksPastDay(car.car(), { at: Date.parse(now), workshop })

describe('a clock left running', () => {
  it('warns from the end of its person’s day on, not before', () => {
    const car = dunmere().clock('a', 'Joss', '2026-11-24T14:00', [boot])
    expect(clocksOf(car, '2026-11-24T16:30:00Z')).toEqual([])
    expect(clocksOf(car, '2026-11-24T16:31:00Z')).toMatchObject([
      { since: '2026-11-24', countsTo: Date.parse('2026-11-24T16:30:00Z'), stoppedAt: null },
    ])
    expect(clocksOf(car, '2026-11-25T08:30:00Z')).toMatchObject([{ since: '2026-11-24', hours: 16 }])
  })

  it('warns on when it was stopped late, until somebody says when the work ended', () => {
    const car = dunmere()
      .clock('a', 'Joss', '2026-11-24T14:00', [boot])
      .add('clockStopped', {
        entryId: entryId('a'),
        end: '2026-11-24T18:00:00Z',
        countsTo: '2026-11-24T16:30:00Z',
        overtime: false,
        shares: null,
        watchMinutes: null,
      })
    expect(clocksOf(car, '2026-11-26T09:00:00Z')).toMatchObject([{ since: '2026-11-24', hours: 1.5 }])
    car.add('clockConfirmed', { entryId: entryId('a'), end: '2026-11-24T17:00:00Z', reason: '' })
    expect(clocksOf(car, '2026-11-26T09:00:00Z')).toEqual([])
  })

  it('warns no more once its entry was voided', () => {
    const car = dunmere().clock('a', 'Joss', '2026-11-24T14:00', [boot])
    car.add('factVoided', { number: car.facts().length, reason: 'forgot it' })
    expect(clocksOf(car, '2026-11-25T09:00:00Z')).toEqual([])
  })

  it('warns no more once its entry was corrected', () => {
    const car = dunmere().clock('a', 'Joss', '2026-11-24T14:00', [boot])
    const replaces = entryId('a')
    car
      .add('clockStopped', {
        entryId: replaces,
        end: '2026-11-24T18:00:00Z',
        countsTo: '2026-11-24T16:30:00Z',
        overtime: false,
        shares: null,
        watchMinutes: null,
      })
      .add('timeCorrected', {
        entryId: entryId('b'),
        replaces,
        personId: personId('Joss'),
        on: { kind: 'work', targets: [boot] },
        cause: null,
        time: { kind: 'day', date: '2026-11-24', hours: 2 },
        shares: null,
        reason: 'forgot to stop it',
      })
    expect(clocksOf(car, '2026-11-25T09:00:00Z')).toEqual([])
  })

  it('is one warning for each of two people on one gate', () => {
    const car = dunmere()
      .clock('a', 'Joss', '2026-11-24T14:00', [boot])
      .clock('b', 'Wren', '2026-11-24T14:00', [boot])
    expect(clocksOf(car, '2026-11-25T09:00:00Z').map((clock) => clock.personId)).toEqual([
      personId('Joss'),
      personId('Wren'),
    ])
  })
})

// London 2026: clocks go back on 25 Oct at 01:00Z and forward on 29 Mar (IANA time-zone database).
describe('the workshop’s zone', () => {
  it('ends the day an hour later in UTC on the day that clocks go back', () => {
    const before = dunmere().clock('a', 'Joss', '2026-10-24T10:00', [boot])
    expect(clocksOf(before, '2026-10-24T15:31:00Z', london)).toMatchObject([
      { countsTo: Date.parse('2026-10-24T15:30:00Z') },
    ])
    const after = dunmere().clock('a', 'Joss', '2026-10-25T10:00', [boot])
    expect(clocksOf(after, '2026-10-25T16:00:00Z', london)).toEqual([])
    expect(clocksOf(after, '2026-10-25T16:31:00Z', london)).toMatchObject([
      { countsTo: Date.parse('2026-10-25T16:30:00Z') },
    ])
  })

  it('counts the hours that went by, not those of the wall clock, over the night of the change', () => {
    const car = dunmere().clock('a', 'Joss', '2026-10-24T14:00', [boot])
    expect(clocksOf(car, '2026-10-25T08:30:00Z', london)).toMatchObject([{ since: '2026-10-24', hours: 17 }])
  })

  it('says on which day hours were logged: 23:30 UTC is the next day in summer', () => {
    const time = { kind: 'span' as const, start: '2026-07-07T23:30:00Z', end: '2026-07-08T01:00:00Z' }
    const car = buildCar().repair('Boot floor').log('a', 'Joss', time, [boot])
    const context = (workshop: WorkshopState) => ({ at: Date.parse('2026-07-08T09:00:00Z'), workshop })
    expect(carWarnings(car.car(), context(utc))).toMatchObject([{ since: '2026-07-07' }])
    expect(carWarnings(car.car(), context(london))).toMatchObject([{ since: '2026-07-08' }])
  })

  it('counts a week of days back from the local date over the change', () => {
    const car = dunmere()
      .at('2026-10-19T12:00')
      .pass('Boot floor', 'opened')
      .log('a', 'Joss', { kind: 'day', date: '2026-10-20', hours: 1 }, [boot], { cause: 'fit' })
    const kinds = (now: string) =>
      carWarnings(car.car(), { at: Date.parse(now), workshop: london }).map(({ kind }) => kind)
    expect(kinds('2026-10-26T23:59:00Z')).toEqual(['after the end'])
    expect(kinds('2026-10-27T00:00:00Z')).toEqual([])
  })
})
