import { describe, expect, it } from 'vitest'
import { ASKS_NOTHING } from '../../../domain/catalogue/type-plan.ts'
import type { CarState } from '../../../domain/car.ts'
import { carIdSchema, fitGroupIdSchema } from '../../../domain/ids.ts'
import type { Plan, PlannedWork } from '../../../domain/plan/plan.ts'
import { daySheetView } from '../../../domain/views/day-sheet-view.ts'
import { buildCar, entryId, onGate, onTask, personId, repairId, visitId } from '../../support/car-builder.ts'
import { simplePlan } from '../../support/kept-plan.ts'
import { bayId, buildWorkshop, nameOf } from '../../support/workshop-builder.ts'

const workshop = buildWorkshop()
/** Wednesday of week 48. */
const now = Date.parse('2026-11-25T10:40:00Z')

const sheetOf = (cars: readonly CarState[], person = 'Joss') =>
  daySheetView({ personId: personId(person), cars, now, workshop, nameOf, plan: null })
const doNames = (cars: readonly CarState[], person = 'Joss') =>
  sheetOf(cars, person).canDo.map(({ name, gate }) => [name, gate])

const plannedWork: PlannedWork = {
  carId: carIdSchema.parse('car-dunmere'),
  visitId: visitId('first'),
  target: onGate('Boot floor', 'opened'),
  start: now,
  finish: now,
  people: [],
  bayId: null,
  hours: 1,
  begun: false,
  pinned: { people: false, day: false },
  why: { reason: 'order', words: '' },
}

const carNumber = (id: string, priority: number, promised: string) =>
  buildCar({ carId: carIdSchema.parse(`car-number-${id}`), shellNumber: id, name: `Car ${id}` })
    .add('visitChanged', { visitId: visitId('first'), priority, promised, charge: { by: 'hour' } })
    .add('shellMoved', { bayId: bayId('3 jig'), fixture: 'jig', note: '' })
    .repair(`Boot floor ${id}`)
    .agree(`Boot floor ${id}`)

describe('what can be done now', () => {
  it('comes by priority, then promised date, then as the repairs were added', () => {
    const cars = [
      carNumber('1', 1, '2026-12-18').repair('Scuttle').agree('Scuttle').car(),
      carNumber('2', 1, '2026-12-04').car(),
      carNumber('3', 3, '2026-12-24').car(),
    ]
    expect(doNames(cars)).toEqual([
      ['Boot floor 3', 'opened'],
      ['Boot floor 2', 'opened'],
      ['Boot floor 1', 'opened'],
      ['Scuttle', 'opened'],
    ])
  })

  it('begins with what the plan gives the person, in its order, then what others may be given', () => {
    const car = carNumber('1', 1, '2026-12-18')
      .repair('Scuttle')
      .agree('Scuttle')
      .repair('Sill')
      .agree('Sill')
    const other = carNumber('2', 2, '2026-12-04').car()
    const given = (repair: string, person: string, start: string): PlannedWork => ({
      ...plannedWork,
      carId: car.car().id,
      target: onGate(repair, 'opened'),
      people: [personId(person)],
      start: Date.parse(`${start}:00Z`),
    })
    const plan: Plan = {
      ...simplePlan(car.car().id),
      work: [
        given('Sill', 'Joss', '2026-11-26T08:00'),
        given('Boot floor 1', 'Wren', '2026-11-25T08:00'),
        given('Scuttle', 'Joss', '2026-11-25T11:00'),
      ],
    }
    const cars = [car.car(), other]
    const { canDo } = daySheetView({ personId: personId('Joss'), cars, now, workshop, nameOf, plan })
    expect(canDo.map(({ name, planned }) => [name, planned])).toEqual([
      ['Scuttle', Date.parse('2026-11-25T11:00:00Z')],
      ['Sill', Date.parse('2026-11-26T08:00:00Z')],
      ['Boot floor 2', null],
      ['Boot floor 1', null],
    ])
  })

  it("begins with what the person's own clock runs on", () => {
    const cars = [
      carNumber('1', 3, '2026-12-01').car(),
      carNumber('2', 1, '2026-12-24')
        .clock('a', 'Joss', '2026-11-25T08:10', [onGate('Boot floor 2', 'opened')])
        .car(),
    ]
    expect(doNames(cars)[0]).toEqual(['Boot floor 2', 'opened'])
    expect(doNames(cars, 'Wren')[0]).toEqual(['Boot floor 1', 'opened'])
    expect(sheetOf(cars).clock).toMatchObject({ what: 'Boot floor 2: opened', carName: 'Car 2' })
    expect(sheetOf(cars, 'Wren').clock).toBeNull()
  })

  it("begins with all that the person's clock runs on, which names each with its share by the estimates", () => {
    const car = carNumber('1', 3, '2026-12-01')
      .repair('Scuttle')
      .agree('Scuttle', 6)
      .repair('Roof')
      .agree('Roof')
    car.clock('a', 'Joss', '2026-11-25T08:10', [onGate('Roof', 'opened'), onGate('Scuttle', 'opened')])
    expect(doNames([car.car()]).map(([name]) => name)).toEqual(['Scuttle', 'Roof', 'Boot floor 1'])
    expect(sheetOf([car.car()]).clock!.parts).toEqual([
      { words: 'Roof: opened', share: 0.25 },
      { words: 'Scuttle: opened', share: 0.75 },
    ])
  })

  it('is what the person has the skill for', () => {
    const car = carNumber('1', 1, '2026-12-18')
      .repair('Roof', { gates: { opened: { skill: 'paint' } } })
      .agree('Roof')
      .repair('Floor mat', { gates: { opened: { skill: 'any' } } })
      .agree('Floor mat')
      .task('Cavity wax')
      .estimate(onTask('Cavity wax'), 4)
    expect(doNames([car.car()])).toEqual([
      ['Boot floor 1', 'opened'],
      ['Floor mat', 'opened'],
    ])
    expect(doNames([car.car()], 'Ines')).toEqual([
      ['Roof', 'opened'],
      ['Floor mat', 'opened'],
      ['Cavity wax', null],
    ])
  })

  it('shows the repair cut through its layers, and of a task the car from above', () => {
    const car = carNumber('1', 1, '2026-12-18')
      .task('Cavity wax')
      .estimate(onTask('Cavity wax'), 4)
      .passTo('Boot floor 1', 'opened')
    const { canDo } = sheetOf([car.car()])
    expect(canDo[0]?.section).toMatchObject({
      layers: [{ name: 'inner panel' }, { name: 'closing plate' }],
      open: true,
      sealed: false,
    })
    expect(sheetOf([car.car()], 'Ines').canDo).toMatchObject([
      { name: 'Cavity wax', section: null, body: car.car().body },
    ])
  })

  it('names what is still missing, and nothing when only the signature is', () => {
    const car = buildCar()
      .repair('Boot floor', { gates: { opened: { asks: { ...ASKS_NOTHING, photos: 1 } } } })
      .agree('Boot floor')
    expect(sheetOf([car.car()]).canDo[0]!.missing).toEqual(['A photo: 0 of 1'])
    car.photo('one', [
      { what: 'gate', repairId: repairId('Boot floor'), gate: 'opened', shows: 'after', layerId: null },
    ])
    expect(sheetOf([car.car()]).canDo[0]!.missing).toEqual([])
  })

  it('carries the photos that are still asked for, so that one can be taken from the line', () => {
    const asks = { ...ASKS_NOTHING, photosBefore: 1, photos: 2 }
    const car = buildCar()
      .repair('Boot floor', { gates: { opened: { asks } } })
      .agree('Boot floor')
    const asked = () =>
      sheetOf([car.car()]).canDo[0]!.photoAsks.map((ask) => [ask.kind, ask.have, ask.photosMissing])
    expect(asked()).toEqual([
      ['photo before', '0 of 1', 1],
      ['photo', '0 of 2', 2],
    ])
    const shows = (what: 'before' | 'after') =>
      ({
        what: 'gate',
        repairId: repairId('Boot floor'),
        gate: 'opened',
        shows: what,
        layerId: null,
      }) as const
    car.photo('one', [shows('before')]).photo('two', [shows('after')])
    expect(asked()).toEqual([['photo', '1 of 2', 1]])
    car.photo('three', [shows('after')])
    expect(asked()).toEqual([])
  })

  it('takes in a fit-up that the group is ready for, and waits while another member is not', () => {
    const asks = { gates: { 'trial-fitted': { asks: { ...ASKS_NOTHING, fitUp: true } } } }
    const car = buildCar()
      .repair('Valance', asks)
      .agree('Valance')
      .repair('Quarter', asks)
      .agree('Quarter')
      .add('fitGroupSet', {
        groupId: fitGroupIdSchema.parse('group-boot'),
        name: 'boot opening',
        members: [repairId('Valance'), repairId('Quarter')],
        hungParts: [],
        edges: [],
      })
      .passTo('Valance', 'primed')
      .passTo('Quarter', 'fabricated')
    expect(doNames([car.car()])).toEqual([['Quarter', 'sealed']])
    expect(sheetOf([car.car()]).waits).toMatchObject([
      {
        name: 'Valance',
        holds: [{ words: 'The boot opening is offered up as one, and Quarter is not primed yet.' }],
      },
    ])
    car.passTo('Quarter', 'primed')
    expect(doNames([car.car()])).toEqual([
      ['Valance', 'trial-fitted'],
      ['Quarter', 'trial-fitted'],
    ])
  })

  it('goes on during a fire watch as long as something is to be done, and then waits for it', () => {
    const car = buildCar()
      .repair('Boot floor', { gates: { opened: { hotWork: true, asks: { ...ASKS_NOTHING, photos: 1 } } } })
      .agree('Boot floor')
      .at('2026-11-25T10:00')
      .add('timeLogged', {
        entryId: entryId('cut'),
        personId: personId('Joss'),
        on: { kind: 'work', targets: [onGate('Boot floor', 'opened')] },
        hotWork: true,
        cause: null,
        time: { kind: 'span', start: '2026-11-25T09:00:00Z', end: '2026-11-25T10:20:00Z' },
        shares: null,
        note: '',
        watchMinutes: 60,
      })
    expect(doNames([car.car()])).toEqual([['Boot floor', 'opened']])
    expect(sheetOf([car.car()]).canDo[0]!.missing).toEqual(['A photo: 0 of 1'])
    car.photo('one', [
      { what: 'gate', repairId: repairId('Boot floor'), gate: 'opened', shows: 'after', layerId: null },
    ])
    expect(sheetOf([car.car()]).waits).toMatchObject([
      { name: 'Boot floor', holds: [{ words: 'Fire watch after hot work until Wed 25 Nov 11:20.' }] },
    ])
    expect(sheetOf([car.car()]).watches).toHaveLength(1)
  })

  it('leaves out cars that are not in work, and finished repairs', () => {
    const paused = carNumber('1', 1, '2026-12-18').add('visitStatusSet', {
      visitId: visitId('first'),
      status: 'paused',
      reason: '',
    })
    const done = carNumber('2', 1, '2026-12-18').passTo('Boot floor 2', 'painted')
    const sheet = sheetOf([paused.car(), done.car()])
    expect([...sheet.canDo, ...sheet.waits]).toEqual([])
  })
})

describe('what waits', () => {
  it('says why, on a car that is in work', () => {
    const car = carNumber('1', 1, '2026-12-18')
      .repair('Wheel well')
      .agree('Wheel well')
      .cover('Boot floor 1', 'Wheel well')
    const [wait] = sheetOf([car.car()]).waits
    expect(wait).toMatchObject({
      name: 'Wheel well',
      place: '3 jig',
      marks: [{ mark: 'held' }, ...Array.from({ length: 7 }, () => ({ mark: 'later' }))],
      holds: [{ words: 'Boot floor 1 covers it and is not open yet.' }],
    })
  })
})
