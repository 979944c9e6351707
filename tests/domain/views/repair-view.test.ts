import { describe, expect, it } from 'vitest'
import { ASKS_NOTHING } from '../../../domain/catalogue/type-plan.ts'
import { jointIdSchema, readingIdSchema } from '../../../domain/ids.ts'
import { repairView } from '../../../domain/views/repair-view.ts'
import { buildCar, type CarBuilder, onGate, personId, repairId } from '../../support/car-builder.ts'
import { buildWorkshop, nameOf } from '../../support/workshop-builder.ts'

const workshop = buildWorkshop()
const now = Date.parse('2026-11-25T10:40:00Z')
const viewOf = (builder: CarBuilder, name = 'Leg tail') =>
  repairView({ car: builder.car(), repairId: repairId(name), now, workshop, nameOf })!

const photos = { gates: { opened: { asks: { ...ASKS_NOTHING, photosBefore: 1, photos: 1 } } } }
const legTail = () => buildCar().repair('Leg tail', photos).agree('Leg tail')
const photoOf = (car: CarBuilder, id: string, shows: 'before' | 'after') =>
  car.photo(id, [{ what: 'gate', repairId: repairId('Leg tail'), gate: 'opened', shows, layerId: null }])

describe('the next gate', () => {
  it('says what it asks for and what is there, and may be passed once all is there', () => {
    const car = photoOf(legTail(), 'one', 'before')
    expect(viewOf(car).next).toMatchObject({
      gate: 'opened',
      mayPass: false,
      asks: [
        { words: 'A photo before cutting', have: '1 of 1', met: true },
        { words: 'A photo after', have: '0 of 1', met: false },
      ],
    })
    photoOf(car, 'two', 'after')
    expect(viewOf(car).next).toMatchObject({ mayPass: true, holds: [] })
  })

  it('shows a released hold with who released it and why, and is free of it', () => {
    const car = photoOf(legTail(), 'one', 'before').add('holdReleased', {
      repairId: repairId('Leg tail'),
      gate: 'opened',
      code: 'evidence',
      subject: 'photo',
      reason: 'the camera broke',
      ownHold: false,
    })
    expect(viewOf(car).next).toMatchObject({
      mayPass: true,
      holds: [{ code: 'evidence', released: { by: 'Mara', reason: 'the camera broke' } }],
    })
  })

  it('says whom it would hold for the skill they lack, and lets it pass for the rest', () => {
    const release = {
      repairId: repairId('Leg tail'),
      gate: 'opened',
      code: 'skill',
      subject: personId('Ines'),
      reason: 'she learned it with Joss',
    } as const
    const car = buildCar().repair('Leg tail').agree('Leg tail')
    const words = "Ines does not have the skill 'metalwork', which opened needs."
    expect(viewOf(car).next).toMatchObject({ mayPass: true, holds: [] })
    expect(viewOf(car).next!.skillHolds).toMatchObject([
      { subject: personId('Ines'), words, releasable: true, released: null, asked: false },
    ])
    car.add('releaseAsked', release)
    expect(viewOf(car).next!.skillHolds).toMatchObject([{ released: null, asked: true }])
    car.add('holdReleased', { ...release, ownHold: false })
    expect(viewOf(car).next!.skillHolds).toMatchObject([
      { released: { by: 'Mara', reason: 'she learned it with Joss' } },
    ])
  })

  it('asks no skill of anybody where its gate needs none', () => {
    expect(
      viewOf(buildCar().repair('Leg tail', { gates: { opened: { skill: 'any' } } })).next!.skillHolds,
    ).toEqual([])
  })

  it('brings the cautions of its gate', () => {
    const car = buildCar().repair('Leg tail', { loadBearing: true })
    expect(viewOf(car).next!.cautions.some((words) => words.startsWith('Load-bearing metal'))).toBe(true)
  })

  it('is none for a finished repair', () => {
    expect(viewOf(legTail().passTo('Leg tail', 'painted')).next).toBeNull()
  })
})

it('a repair that the car does not have gives no view', () => {
  const car = buildCar().car()
  expect(repairView({ car, repairId: repairId('Nothing'), now, workshop, nameOf })).toBeNull()
})

it('the gates say why they were reopened, and the journal number of what was signed', () => {
  const car = legTail().passTo('Leg tail', 'trial-fitted').reopen('Leg tail', 'primed')
  const gates = viewOf(car).gates
  expect(gates.map(({ gate, reopenedWhy }) => [gate, reopenedWhy]).slice(3, 6)).toEqual([
    ['sealed', null],
    ['primed', 'the edge stands proud'],
    ['trial-fitted', 'the edge stands proud'],
  ])
  expect(gates[0]!.number).toBe(car.car().repairs.get(repairId('Leg tail'))!.gates.opened.done!.stamp.number)
  expect(gates[4]!.number).toBeNull()
})

it('a gate shows what was last said to be still to do, by whom, until it is done', () => {
  const target = onGate('Leg tail', 'opened')
  const car = legTail()
    .by('Wren')
    .add('leftSaid', { target, hours: 3 })
    .at('2026-11-24T10:00')
    .add('leftSaid', { target, hours: 1.5 })
  const left = { hours: 1.5, at: Date.parse('2026-11-24T10:00:00Z'), by: 'Wren' }
  expect(viewOf(car).gates.map((each) => each.left)).toEqual([left, ...Array.from({ length: 7 }, () => null)])
  expect(viewOf(car.pass('Leg tail', 'opened')).gates[0]!.left).toBeNull()
})

it('the reading of conditions shows the dew point and why it is outside', () => {
  const car = legTail().add('conditionsRead', {
    readingId: readingIdSchema.parse('reading-one'),
    repairIds: [repairId('Leg tail')],
    gate: 'primed',
    airC: 20,
    humidityPercent: 60,
    steelC: 14,
  })
  const [reading] = viewOf(car).conditions
  // Magnus formula with the coefficients of the WMO guide (WMO-No. 8): 20 degrees C at 60 % has its dew point at 12.0.
  expect(reading!.dewPointC).toBeCloseTo(12, 1)
  expect(reading!.marginC).toBeCloseTo(2, 1)
  expect(reading).toMatchObject({ inside: false, gate: 'primed' })
  expect(reading!.words).toContain('at least 3 °C is needed')
})

it('welds count anew after welded was reopened', () => {
  const jointId = jointIdSchema.parse('joint-flange')
  const plan = { welds: [{ jointId, name: 'flange', kind: 'spot' as const, planned: 20 }] }
  const count = (car: CarBuilder, id: string, done: number) =>
    car.add('weldsCounted', {
      readingId: readingIdSchema.parse(`reading-${id}`),
      repairId: repairId('Leg tail'),
      welds: [{ jointId, done }],
    })
  const car = count(buildCar().repair('Leg tail', plan), 'one', 20)
  expect(viewOf(car).welds).toMatchObject([{ planned: 20, done: 20 }])
  car.passTo('Leg tail', 'welded').reopen('Leg tail', 'welded')
  expect(viewOf(car).welds).toMatchObject([{ planned: 20, done: 0 }])
})

it('only what concerns the repair is shown: its clocks, entries, covers and variations', () => {
  const car = legTail()
    .repair('Valance')
    .repair('Spring hanger')
    .cover('Valance', 'Leg tail')
    .cover('Leg tail', 'Spring hanger')
    .clock('a', 'Joss', '2026-11-25T08:10', [onGate('Leg tail', 'opened')])
    .clock('b', 'Wren', '2026-11-25T08:10', [onGate('Valance', 'opened')])
    .vary('Corner', [{ target: onGate('Leg tail', 'fabricated'), hours: 2 }])
    .vary('Edge', [{ target: onGate('Valance', 'fabricated'), hours: 2 }])
  const view = viewOf(car)
  expect(view.clocks.map(({ person }) => person)).toEqual(['Joss'])
  expect(view.entries.map(({ person, hours }) => [person, hours])).toEqual([['Joss', 2.5]])
  expect(view.variations.map(({ title }) => title)).toEqual(['Corner'])
  expect(view.covers.map(({ name, direction }) => [name, direction])).toEqual([
    ['Spring hanger', 'covers'],
    ['Valance', 'covered by'],
  ])
  expect(view.zoneWords).toBe('right rear')
})
