import { expect, test } from 'vitest'
import type { Command } from '../../domain/commands/command-shapes.ts'
import { tellCommand } from '../../renderer/outbox/tell.ts'

/** Answers as the screens have read them, with more around them than is asked for. */
const read = [
  { people: [{ id: 'person-ilse', name: 'Ilse Brandt', roles: ['technician'] }] },
  {
    clock: { entryId: 'entry-1', what: 'Inner sill: primed', carId: 'car-1', carName: 'Larkspur 4' },
    canDo: [
      { carId: 'car-1', carName: 'Larkspur 4', repairId: 'repair-1', taskId: null, name: 'Boot floor' },
    ],
  },
  {
    repair: { id: 'repair-1', name: 'Boot floor' },
    section: { layers: [{ id: 'layer-1', name: 'inner panel' }] },
  },
  { fitGroups: [{ id: 'group-1', name: 'Door, right', edges: [{ edgeId: 'edge-1', name: 'front edge' }] }] },
  { welds: [{ jointId: 'joint-1', name: 'rear flange' }] },
  undefined,
]

const told = (kind: Command['kind'], payload: unknown) =>
  tellCommand(
    {
      id: 'command-1' as Command['id'],
      kind,
      carId: 'car-1' as Command['carId'],
      seen: null,
      by: 'person-ilse' as Command['by'],
      code: null,
      second: null,
      happened: null,
      made: '2026-11-25T10:40:00+00:00',
      payload,
    },
    read,
    { now: Date.parse('2026-11-25T10:40:00+00:00'), zone: 'Europe/Berlin' },
  )

test('what waits is told with the names that were read last', () => {
  const on = { kind: 'work', targets: [{ kind: 'gate', repairId: 'repair-1', gate: 'opened' }] }
  expect(
    told('startClock', { entryId: 'entry-2', personId: 'person-ilse', on, hotWork: true, cause: null }),
  ).toEqual({
    what: 'Clock started on Boot floor: opened, hot work',
    where: 'Larkspur 4',
    on: 'Boot floor: opened',
    by: 'Ilse Brandt',
  })
  expect(told('stopClock', { entryId: 'entry-1', overtime: false, shares: null }).what).toBe(
    'Clock stopped on Inner sill: primed',
  )
})

test('readings are told with the figures that were entered, so that they can be entered again', () => {
  const conditions = { repairIds: ['repair-1'], gate: 'primed', airC: 16, humidityPercent: 71, steelC: 13.5 }
  expect(told('readConditions', conditions)).toEqual({
    what: 'Conditions for primed of Boot floor: air 16.0 °C, humidity 71 %, steel 13.5 °C',
    where: 'Larkspur 4, Boot floor',
    on: '',
    by: 'Ilse Brandt',
  })
})

test('what nobody can read is named by its kind', () => {
  expect(told('readConditions', { gate: 7 }).what).toBe('Read conditions')
  expect(told('changeSettings', {}).what).toBe('Change settings')
  expect(told('addNote', { text: 'sill rings hollow' }).what).toBe('sill rings hollow')
})

test('gaps and welds are told one by one', () => {
  const readings = [{ edgeId: 'edge-1', gapsMm: [3.5, 4], flushMm: 0.5 }]
  expect(told('recordFitUp', { groupId: 'group-1', kind: 'dry', readings, good: false, note: '' }).what).toBe(
    'Door, right: front edge 3.5, 4 mm, flush 0.5 mm; not good',
  )
  const welds = [{ jointId: 'joint-1', done: 14 }]
  expect(told('countWelds', { repairId: 'repair-1', welds }).what).toBe('Boot floor: rear flange 14 done')
})
