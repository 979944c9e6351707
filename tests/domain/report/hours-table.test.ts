import { describe, expect, test } from 'vitest'
import { dayRange, hoursTable, type DayRange } from '../../../domain/report/hours-table.ts'
import type { Table } from '../../../domain/report/table.ts'
import { usualSettings } from '../../../domain/usual-workshop.ts'
import { createViewContext } from '../../../domain/views/view-context.ts'
import { atOnce } from '../../support/at-once.ts'
import { buildCar, entryId, onGate, onTask, personId } from '../../support/car-builder.ts'
import { buildWorkshop, nameOf } from '../../support/workshop-builder.ts'

const withNames = { ...usualSettings, figuresByPerson: true }
const workshop = buildWorkshop((add) => {
  add('settingsSet', withNames)
  add('timeLogged', {
    entryId: entryId('sweeping'),
    personId: personId('Wren'),
    on: { kind: 'workshop', what: 'Sweeping' },
    hotWork: false,
    cause: null,
    time: { kind: 'day', date: '2026-11-24', hours: 0.5 },
    shares: null,
    note: '',
    watchMinutes: null,
  })
})
const now = Date.parse('2026-11-25T10:00:00Z')
const day = (date: string, hours: number) => ({ kind: 'day' as const, date, hours })
const opened = onGate('Boot floor', 'opened')

/** Estimated at 3 and 1 h; opened was passed on 22 Nov, so the hours on it from the 23rd on are rework. */
const dunmere = buildCar()
  .repair('Boot floor')
  .repair('Scuttle')
  .task('Strip')
  .estimate(opened, 3)
  .estimate(onGate('Scuttle', 'opened'), 1)
  .at('2026-11-20T08:00')
  .log('b', 'Wren', day('2026-11-20', 4), [opened, onGate('Scuttle', 'opened')])
  .log('a', 'Joss', day('2026-11-19', 2.25), [onTask('Strip')])
  .at('2026-11-22T08:00')
  .pass('Boot floor', 'opened')
  .at('2026-11-23T17:00')
  .log('c', 'Joss', day('2026-11-23', 1.5), [opened], { cause: 'fit' })
  .at('2026-11-25T08:00')
  .clock('d', 'Joss', '2026-11-25T08:00', [onTask('Strip')])
  .car()

const tableOf = (range: DayRange = { from: null, to: null }, of = workshop): Table =>
  atOnce(
    hoursTable([dunmere], {
      range,
      by: personId('Mara'),
      context: createViewContext({ now, workshop: of, nameOf }),
    }),
  )

describe('the hours as a table', () => {
  test('have every entry by day, with a row for each gate that it lies on', () => {
    const { name, columns, rows } = tableOf()
    expect([name, ...columns.map(({ head }) => head)]).toEqual([
      'Hours',
      'Day',
      'Person',
      'Car',
      'Shell number',
      'Visit',
      'What',
      'Hours h',
      'Rework cause',
      'Note',
      'By clock or hand',
    ])
    const car = ['Dunmere Saloon', '0412', 'visit 1']
    expect(rows).toEqual([
      ['2026-11-19', 'Joss', ...car, 'Strip', 2.25, null, '', 'hand'],
      ['2026-11-20', 'Wren', ...car, 'Boot floor: opened', 3, null, '', 'hand'],
      ['2026-11-20', 'Wren', ...car, 'Scuttle: opened', 1, null, '', 'hand'],
      ['2026-11-23', 'Joss', ...car, 'Boot floor: opened', 1.5, 'fit', '', 'hand'],
      ['2026-11-25', 'Joss', ...car, 'Strip', 2, null, '', 'clock, still running'],
      ['2026-11-24', 'Wren', null, null, null, 'Sweeping', 0.5, null, '', 'hand'],
    ])
  })

  test('are those of the days asked for, the first and the last included', () => {
    const daysOf = (from: string | null, to: string | null) =>
      tableOf({ from, to }).rows.map(([date]) => date)
    expect(daysOf('2026-11-20', '2026-11-23')).toEqual(['2026-11-20', '2026-11-20', '2026-11-23'])
    expect(daysOf(null, '2026-11-19')).toEqual(['2026-11-19'])
    expect(daysOf('2026-11-24', null)).toEqual(['2026-11-25', '2026-11-24'])
    expect(daysOf('2026-12-01', null)).toEqual([])
  })

  test('name nobody where figures by person may not be shown', () => {
    const { rows } = tableOf(undefined, { ...workshop, settings: usualSettings })
    expect(rows).toHaveLength(6)
    expect(rows.map(([, person]) => person)).toEqual([null, null, null, null, null, null])
  })

  test('leave out what was corrected and tell warranty visits apart', () => {
    const car = buildCar()
      .task('Strip')
      .log('a', 'Joss', day('2026-11-19', 2), [onTask('Strip')])
      .visit('second', { kind: 'warranty' })
      .add('timeCorrected', {
        entryId: entryId('b'),
        replaces: entryId('a'),
        personId: personId('Joss'),
        on: { kind: 'work', targets: [onTask('Strip')] },
        cause: null,
        time: day('2026-11-18', 3),
        shares: null,
        reason: 'wrong day',
      })
      .log('c', 'Joss', day('2026-11-20', 1), [onTask('Strip')])
      .car()
    const { rows } = atOnce(
      hoursTable([car], {
        range: { from: null, to: '2026-11-23' },
        by: personId('Mara'),
        context: createViewContext({ now, workshop, nameOf }),
      }),
    )
    expect(rows.map((row) => [row[0], row[4], row[6]])).toEqual([
      ['2026-11-18', 'visit 1', 3],
      ['2026-11-20', 'visit 2, warranty', 1],
    ])
  })
})

describe('the days that hours are asked for', () => {
  test('may be open at either end, and one day by itself', () => {
    expect(dayRange(null, null)).toEqual({ ok: true, value: { from: null, to: null } })
    expect(dayRange('2026-11-23', '2026-11-23').ok).toBe(true)
    expect(dayRange(null, '2026-11-23').ok).toBe(true)
  })

  test.each([
    ['2026-11-24', '2026-11-23', 'The last day lies before the first one.'],
    ['2026-02-30', null, 'One of the two days is no date.'],
    [null, 'soon', 'One of the two days is no date.'],
  ])('from %s to %s are refused in words', (from, to, message) => {
    expect(dayRange(from, to)).toMatchObject({ ok: false, refusal: { message } })
  })
})
