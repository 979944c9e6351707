import { expect, test } from 'vitest'
import { gatesTable } from '../../../domain/report/gates-table.ts'
import { createViewContext } from '../../../domain/views/view-context.ts'
import { atOnce } from '../../support/at-once.ts'
import { buildCar, onGate, repairId } from '../../support/car-builder.ts'
import { buildWorkshop, nameOf } from '../../support/workshop-builder.ts'

const context = createViewContext({
  now: Date.parse('2026-11-25T10:00:00Z'),
  workshop: buildWorkshop(),
  nameOf,
})
const day = (date: string, hours: number) => ({ kind: 'day' as const, date, hours })
const opened = onGate('Boot floor', 'opened')

test('every gate stands in the order of its repair, with when and by whom it was done and its hours', () => {
  const car = buildCar()
    .repair('Boot floor', { primedFirst: true })
    .agree('Boot floor', 2)
    .at('2026-11-20T08:00')
    .by('Joss')
    .log('a', 'Joss', day('2026-11-19', 2.5), [opened])
    .pass('Boot floor', 'opened')
    .by('Mara')
    .notNeeded('Boot floor', 'assessed')
    .log('b', 'Joss', day('2026-11-20', 1), [onGate('Boot floor', 'fabricated')])
    .car()
  const { name, columns, rows } = atOnce(gatesTable([car], context))
  expect([name, ...columns.map(({ head }) => head)]).toEqual([
    'Gates',
    'Car',
    'Shell number',
    'Repair',
    'Zone',
    'Type',
    'Gate',
    'Status',
    'Done on',
    'Done by',
    'Authorised h',
    'Earned h',
    'Spent h',
  ])
  const repair = ['Dunmere Saloon', '0412', 'Boot floor', 'right rear', null]
  const open = (gate: string, spent = 0) => [...repair, gate, 'open', null, null, 2, 0, spent]
  expect(rows).toEqual([
    [...repair, 'opened', 'passed', '2026-11-20', 'Joss', 2, 2, 2.5],
    [...repair, 'assessed', 'not needed', '2026-11-20', 'Mara', 0, 0, 0],
    open('fabricated', 1),
    open('primed'),
    open('sealed'),
    open('trial-fitted'),
    open('welded'),
    open('painted'),
  ])
})

test('hours of a warranty visit count beside those of the first one', () => {
  const car = buildCar()
    .repair('Boot floor')
    .estimate(opened, 2)
    .at('2026-11-20T08:00')
    .log('a', 'Joss', day('2026-11-19', 2.5), [opened])
    .pass('Boot floor', 'opened')
    .visit('second', { kind: 'warranty' })
    .reopen('Boot floor', 'opened')
    .estimate(opened, 1, { payer: 'workshop' })
    .log('b', 'Wren', day('2026-11-21', 0.5), [opened])
    .car()
  // Earned stays with the first visit: 2 h; 2 + 1 h authorised, 2.5 + 0.5 h spent.
  expect(atOnce(gatesTable([car], context)).rows[0]?.slice(5)).toEqual([
    'opened',
    'open',
    null,
    null,
    3,
    2,
    3,
  ])
})

test('gates of a retired repair have the day and the person of that', () => {
  const car = buildCar()
    .repair('Boot floor')
    .at('2026-11-20T08:00')
    .add('repairRetired', { repairId: repairId('Boot floor'), reason: 'the whole floor is renewed' })
    .car()
  expect(atOnce(gatesTable([car], context)).rows[7]?.slice(5, 9)).toEqual([
    'painted',
    'retired',
    '2026-11-20',
    'Mara',
  ])
})
