import { describe, expect, it } from 'vitest'
import { carIdSchema } from '../../../domain/ids.ts'
import { shopFloorView } from '../../../domain/views/shop-floor-view.ts'
import { onGate, personId, repairId } from '../../support/car-builder.ts'
import { dunmere, floorOf, inBay, now } from '../../support/floor-views.ts'
import { buildWorkshop, nameOf } from '../../support/workshop-builder.ts'

describe('people and clocks', () => {
  it('counts who is in and lists who is clocked on', () => {
    const car = dunmere().clock('a', 'Joss', '2026-11-25T08:10', [onGate('Boot floor', 'opened')])
    const floor = floorOf([car.car()])
    expect(floor.peopleIn).toBe(4)
    expect(floor.clockedOn).toMatchObject([
      {
        person: 'Joss',
        carName: 'Dunmere Saloon',
        what: 'Boot floor: opened',
        pastDayEnd: false,
        countsTo: now,
      },
    ])
  })

  it('tells who is in without a clock, who is away until when, and whose day off it is', () => {
    const part = buildWorkshop((add) => {
      const person = { roles: ['technician' as const], skills: ['metalwork'] }
      const away = { from: '2026-11-23', to: '2026-11-27' }
      const mondays = [[{ from: '08:00', to: '16:00' }], [], [], [], [], [], []]
      add('personChanged', {
        ...person,
        personId: personId('Ines'),
        week: null,
        absences: [away],
        active: true,
      })
      add('personAdded', { ...person, personId: personId('Pia'), week: mondays, absences: [] })
      add('personAdded', { ...person, personId: personId('Tam'), week: null, absences: [away] })
    })
    const car = dunmere()
      .clock('a', 'Joss', '2026-11-25T08:10', [onGate('Boot floor', 'opened')])
      .clock('b', 'Tam', '2026-11-25T09:10', [onGate('Boot floor', 'opened')])
    const cars = [car.car()]
    const floor = shopFloorView({ cars, now, workshop: part, nameOf, by: null, plan: null })
    expect(floor.peopleIn).toBe(3)
    expect(floor.notClocked.map(({ person }) => person)).toEqual(['Mara', 'Wren'])
    // Tam came all the same: their clock says where they are.
    expect(floor.clockedOn.map(({ person }) => person)).toEqual(['Joss', 'Tam'])
    expect(floor.awayToday.map(({ person, until }) => [person, until])).toEqual([
      ['Ines', '2026-11-27'],
      ['Pia', null],
    ])
  })

  it('says of a clock on a gate that was passed before that it is rework', () => {
    const car = dunmere()
      .passTo('Boot floor', 'opened')
      .reopen('Boot floor', 'opened')
      .clock('a', 'Joss', '2026-11-25T08:10', [onGate('Boot floor', 'opened')])
      .repair('Scuttle')
      .clock('b', 'Wren', '2026-11-25T08:20', [onGate('Scuttle', 'opened')])
    expect(floorOf([car.car()]).clockedOn.map(({ person, rework }) => [person, rework])).toEqual([
      ['Joss', true],
      ['Wren', false],
    ])
  })

  it('names a clocked act on many gates by its first ones', () => {
    const names = ['Boot floor', 'Scuttle', 'Roof gutter', 'Battery tray']
    const car = inBay('yard')
    for (const name of names) car.repair(name)
    car.clock(
      'a',
      'Joss',
      '2026-11-25T08:10',
      names.map((name) => onGate(name, 'primed')),
    )
    expect(floorOf([car.car()]).clockedOn[0]!.what).toBe('Boot floor: primed; Scuttle: primed; and 2 more')
  })
})

describe('photos of the day', () => {
  const taken = (repair: string) =>
    [{ what: 'gate', repairId: repairId(repair), gate: 'opened', shows: 'work', layerId: null }] as const

  it('are those of every car that count at today, the newest first, with car, repair, gate and who', () => {
    const one = dunmere()
      .by('Joss')
      .at('2026-11-24T23:59')
      .photo('yesterday', [...taken('Boot floor')])
    one.at('2026-11-25T08:30').photo('first', [...taken('Boot floor')])
    one.at('2026-11-25T10:00').photo('third', [...taken('Boot floor')])
    const two = inBay('3 jig', { carId: carIdSchema.parse('car-second'), name: 'Velloran' })
      .repair('Scuttle')
      .by('Wren')
      .at('2026-11-25T09:00')
      .photo('second', [...taken('Scuttle')])
    const { count, newest } = floorOf([one.car(), two.car()]).photosToday
    expect(count).toBe(3)
    expect(
      newest.map(({ caption, carName, by, serves }) => [caption, carName, by, serves[0]?.repairName]),
    ).toEqual([
      ['third', 'Dunmere Saloon', 'Joss', 'Boot floor'],
      ['second', 'Velloran', 'Wren', 'Scuttle'],
      ['first', 'Dunmere Saloon', 'Joss', 'Boot floor'],
    ])
    expect(newest[0]).toMatchObject({
      taken: Date.parse('2026-11-25T10:00:00Z'),
      serves: [{ gate: 'opened' }],
    })
  })

  it('are counted in full where more were taken than are shown', () => {
    const car = dunmere().at('2026-11-25T08:00')
    for (let each = 10; each < 30; each += 1) car.photo(`${each}`, [...taken('Boot floor')])
    const { count, newest } = floorOf([car.car()]).photosToday
    expect(count).toBe(20)
    expect(newest.map(({ caption }) => caption)).toEqual(
      Array.from({ length: 12 }, (_, index) => `${29 - index}`),
    )
  })
})
