import { describe, expect, it } from 'vitest'
import {
  fitGroupIdSchema,
  holdIdSchema,
  dimensionIdSchema,
  edgeIdSchema,
  readingIdSchema,
} from '../../../domain/ids.ts'
import { carView } from '../../../domain/views/car-view.ts'
import {
  buildCar,
  type CarBuilder,
  onGate,
  onTask,
  repairId,
  variationId,
  visitId,
} from '../../support/car-builder.ts'
import { buildWorkshop, nameOf } from '../../support/workshop-builder.ts'

const workshop = buildWorkshop()
const now = Date.parse('2026-11-25T10:40:00Z')

const viewOf = (builder: CarBuilder) => carView({ car: builder.car(), now, workshop, nameOf })
const cardOf = (builder: CarBuilder, name: string) =>
  viewOf(builder).repairs.find((repair) => repair.name === name)!

describe('fit groups', () => {
  const groupId = fitGroupIdSchema.parse('group-boot')
  const edgeId = edgeIdSchema.parse('edge-right')
  const group = () =>
    buildCar()
      .repair('Valance')
      .repair('Quarter')
      .add('fitGroupSet', {
        groupId,
        name: 'boot opening',
        members: [repairId('Valance'), repairId('Quarter')],
        hungParts: ['boot lid'],
        edges: [{ edgeId, name: 'right edge', nominalMm: 4, toleranceMm: 1, flushToleranceMm: 1 }],
      })
  const offer = (car: CarBuilder, id: string, gap: number, good: boolean) =>
    car.add('fitUpRecorded', {
      readingId: readingIdSchema.parse(`reading-${id}`),
      groupId,
      kind: 'full',
      readings: [{ edgeId, gapsMm: [gap, gap + 0.5], flushMm: 0 }],
      good,
      note: '',
    })

  it('say which members are not ready and why', () => {
    const car = group().passTo('Valance', 'primed').pass('Quarter', 'opened')
    expect(viewOf(car).fitGroups[0]!.members.map(({ name, ready, why }) => [name, ready, why])).toEqual([
      ['Valance', true, 'is open and primed'],
      ['Quarter', false, 'is not primed yet'],
    ])
  })

  it('show the last fit-up first, with what was out of tolerance', () => {
    const car = offer(offer(group(), 'first', 5, false), 'second', 4, true)
    const [view] = viewOf(car).fitGroups
    expect(view).toMatchObject({ good: true, stale: false })
    expect(view!.fitUps.map(({ good, words }) => [good, words])).toEqual([
      [true, 'good'],
      [false, 'not good: right edge: widest gap is 5.5 mm; at most 5 mm is allowed'],
    ])
    expect(view!.edges[0]!.last).toMatchObject({
      minMm: 4,
      maxMm: 4.5,
      taperMm: 0.5,
      inside: true,
      words: 'inside',
    })
  })

  it('go stale when a member is reopened at primed or earlier', () => {
    const car = offer(group().passTo('Valance', 'primed').passTo('Quarter', 'primed'), 'first', 4, true)
    car.reopen('Quarter', 'primed')
    expect(viewOf(car).fitGroups[0]).toMatchObject({ good: false, stale: true, fitUps: [{ stale: true }] })
  })
})

describe('the rest of a car', () => {
  it('shows a task with what it waits for', () => {
    const car = buildCar()
      .repair('Valance')
      .task('Cavity wax', { waitsFor: [onGate('Valance', 'painted')] })
      .estimate(onTask('Cavity wax'), 4)
    expect(viewOf(car).tasks).toMatchObject([
      {
        name: 'Cavity wax',
        status: 'open',
        hours: { authorised: 4 },
        waitsFor: ['Valance: painted'],
        holds: [{ words: 'Valance must be painted first.' }],
      },
    ])
  })

  it('says what a hold set by hand is on', () => {
    const hold = { words: 'the inspector looks first', clears: 'the inspector', expected: null }
    const car = buildCar()
      .repair('Valance')
      .add('holdSet', { ...hold, holdId: holdIdSchema.parse('hold-first'), scope: { kind: 'car' } })
      .add('holdSet', {
        ...hold,
        holdId: holdIdSchema.parse('hold-second'),
        scope: { kind: 'gate', repairId: repairId('Valance'), gate: 'welded' },
      })
    expect(viewOf(car).holds.map(({ on }) => on)).toEqual(['the car', 'Valance: welded'])
  })

  it('compares a dimension only with readings taken alike', () => {
    const dimensionId = dimensionIdSchema.parse('dimension-door')
    const car = buildCar().add('dimensionAdded', {
      dimensionId,
      name: 'door aperture, left',
      kind: 'aperture',
      side: 'left',
      limitMm: 2,
      mm: 1214,
      stood: 'stands',
      doorsHung: true,
    })
    for (const [id, mm, doorsHung] of [
      ['inside', 1215, true],
      ['outside', 1217, true],
      ['unlike', 1214, false],
    ] as const)
      car.add('dimensionRead', {
        readingId: readingIdSchema.parse(`reading-${id}`),
        dimensionId,
        mm,
        stood: 'stands',
        doorsHung,
      })
    const [dimension] = viewOf(car).dimensions
    expect(dimension!.readings.map(({ mm, driftMm, inside }) => [mm, driftMm, inside])).toEqual([
      [1214, null, null],
      [1217, 3, false],
      [1215, 1, true],
    ])
  })

  it('lists photos with the latest first, entries that count, and the visit that goes on', () => {
    const car = buildCar()
      .repair('Valance')
      .photo('one', [{ what: 'car' }])
      .photo('two', [
        { what: 'gate', repairId: repairId('Valance'), gate: 'opened', shows: 'before', layerId: null },
      ])
      .log('a', 'Joss', { kind: 'day', date: '2026-11-23', hours: 2 }, [onGate('Valance', 'opened')])
      .log('b', 'Wren', { kind: 'day', date: '2026-11-24', hours: 1 }, [onGate('Valance', 'opened')])
      .visit('warranty', { kind: 'warranty' })
    const view = viewOf(car)
    expect(view.photos.map(({ caption, serves }) => [caption, serves[0]!.shows])).toEqual([
      ['two', 'before'],
      ['one', 'car'],
    ])
    expect(view.header.photo).toBe(view.photos[1]!.sha256)
    expect(view.entries.map(({ person, hours }) => [person, hours])).toEqual([
      ['Wren', 1],
      ['Joss', 2],
    ])
    expect(view.visits.map(({ kind, current }) => [kind, current])).toEqual([
      ['warranty', true],
      ['agreed', false],
    ])
    expect(view.header).toMatchObject({ visitId: visitId('warranty'), warranty: true })
  })

  it('keeps showing the hours of the visit that a repair was done in', () => {
    const car = buildCar()
      .repair('Valance')
      .agree('Valance', 2)
      .passTo('Valance', 'painted')
      .visit('warranty', { kind: 'warranty' })
    expect(cardOf(car, 'Valance').hours).toMatchObject({ authorised: 16, earned: 16 })
    car
      .reopen('Valance', 'painted')
      .log('a', 'Ines', { kind: 'day', date: '2026-11-24', hours: 1 }, [onGate('Valance', 'painted')])
    expect(cardOf(car, 'Valance').hours).toMatchObject({ authorised: 0, spent: 1, rework: 1 })
  })

  it('shows variations with what was found, and that one was answered by closing as found', () => {
    const car = buildCar()
      .repair('Valance')
      .vary('Corner', [{ target: onGate('Valance', 'fabricated'), hours: 2.5 }])
      .decide('Corner', 'declined')
      .add('closedAsFound', {
        repairId: repairId('Valance'),
        variationId: variationId('Corner'),
        attachments: [],
        protection: 'wax',
        answer: 'leave it',
        cautionShown: false,
      })
    expect(viewOf(car).variations).toMatchObject([
      {
        title: 'Corner',
        owner: 'Owner',
        hours: 2.5,
        status: 'declined',
        decidedHow: 'call',
        closedAsFound: true,
        lines: [{ what: 'Valance: fabricated', hours: 2.5 }],
      },
    ])
  })
})
