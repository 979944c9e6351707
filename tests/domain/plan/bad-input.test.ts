import { describe, expect, test } from 'vitest'
import { fitGroupIdSchema } from '../../../domain/ids.ts'
import { onGate, onTask, personId, repairId, variationId } from '../../support/car-builder.ts'
import { asks } from '../../support/scene.ts'
import { beside, planAsSaid as plan, said, wing } from '../../support/planned-badly.ts'
import { bayId, buildWorkshop } from '../../support/workshop-builder.ts'

describe('Bad input is named in words, what follows it is left out, and the rest is planned', () => {
  test('covers that go round in a circle', () => {
    const car = beside().repair('A').repair('B').cover('A', 'B').cover('B', 'A').car()
    const { faults, names, made } = plan([car])
    expect(said(faults)).toEqual([
      'circle | Dunmere Saloon: These cover each other in a circle: A covers B covers A. | Take out one of these links: metal cannot lie both over and under.',
    ])
    expect(names).toEqual(wing)
    expect(made.work).toHaveLength(8)
    expect(made.cars[0]!.finish).toBeNull()
  })

  test('tasks that wait for each other', () => {
    const car = beside()
      .task('wax', { waitsFor: [onTask('test')] })
      .task('test', { waitsFor: [onTask('wax')] })
      .car()
    const { faults, names } = plan([car])
    expect(faults.map(({ code, words }) => `${code}: ${words}`)).toEqual([
      'circle: Dunmere Saloon: these wait for each other in a circle: test, then wax, then test.',
    ])
    expect(names).toEqual(wing)
  })

  test('sides that must stand open together and may not', () => {
    const fitted = { 'trial-fitted': { asks: asks({ fitUp: true }) } }
    const car = beside()
      .repair('Left', { loadBearing: true, zone: { side: 'left', place: 'middle' }, gates: fitted })
      .repair('Right', { loadBearing: true, gates: fitted })
      .add('fitGroupSet', {
        groupId: fitGroupIdSchema.parse('group-lid'),
        name: 'lid',
        members: [repairId('Left'), repairId('Right')],
        hungParts: [],
        edges: [],
      })
      .car()
    const { faults, names } = plan([car])
    expect(faults).toHaveLength(1)
    expect(faults[0]!.words).toBe(
      'Dunmere Saloon: Left and Right are load-bearing on different sides and all must be open when the lid is offered up.',
    )
    expect(names).toEqual(wing)
  })

  test('a skill that nobody has, and more people than have it', () => {
    const car = beside()
      .repair('Sill', { gates: { welded: { skill: 'lead loading' }, primed: { skill: 'paint', people: 2 } } })
      .agree('Sill')
      .car()
    const { faults, names } = plan([car])
    expect(said(faults)).toEqual([
      "no skill | Sill: primed: 2 people with the skill 'paint' are needed, and 1 at work has it. | Give somebody the skill 'paint' under Workshop, People, or change what the work asks for.",
      "no skill | Sill: welded: 1 person with the skill 'lead loading' is needed, and nobody at work has it. | Give somebody the skill 'lead loading' under Workshop, People, or change what the work asks for.",
    ])
    expect(names).toEqual([...wing, 'Sill: opened', 'Sill: assessed', 'Sill: fabricated', 'Sill: sealed'])
  })

  test('a load-bearing repair that could not be closed again is not opened either', () => {
    const car = beside()
      .repair('Sill', { loadBearing: true, gates: { welded: { skill: 'lead loading' } } })
      .car()
    expect(plan([car]).names).toEqual(wing)
  })

  test('and an open one that cannot be closed keeps the other sides shut', () => {
    const car = beside()
      .repair('Sill', { loadBearing: true, gates: { welded: { skill: 'lead loading' } } })
      .repair('Left', { loadBearing: true, zone: { side: 'left', place: 'middle' } })
      .passTo('Sill', 'trial-fitted')
      .add('shellMoved', { bayId: bayId('1 metalwork'), fixture: 'wheels', note: '' })
      .car()
    expect(plan([car]).names).toEqual(wing)
  })

  test('a kind of bay that there is not', () => {
    const car = beside().task('blast', { bayKind: 'oven' }).car()
    const { faults, names } = plan([car])
    expect(said(faults)).toEqual([
      "no bay | blast: a bay of the kind 'oven' is needed, and there is none. | Give a bay the kind 'oven' under Workshop, Bays, or change what the work asks for.",
    ])
    expect(names).toEqual(wing)
  })

  test('a workshop that never opens', () => {
    const workshop = buildWorkshop((add) => add('calendarSet', { week: Array(7).fill([]), holidays: [] }))
    const { faults, names } = plan([beside().car()], workshop)
    expect(faults.map(({ code, carId }) => [code, carId])).toEqual([['no hours', null]])
    expect(faults[0]!.words).toMatch(/^Nobody has any working hours before .*, so nothing can be planned\.$/)
    expect(names).toEqual([])
  })

  test('somebody without working hours, where only they have the skill', () => {
    const workshop = buildWorkshop((add) =>
      add('personChanged', {
        personId: personId('Ines'),
        roles: ['technician'],
        skills: ['paint'],
        week: Array(7).fill([]),
        absences: [],
        active: true,
      }),
    )
    const { faults, names } = plan([beside().task('paint it').car()], workshop)
    expect(faults.map(({ code }) => code)).toEqual(['no hours'])
    expect(faults[0]!.words).toContain(
      "paint it: 1 person with the skill 'paint' is needed, and too few of those",
    )
    expect(names).toEqual(wing)
  })

  test('too few with working hours for work that asks for no skill', () => {
    const workshop = buildWorkshop((add) => {
      for (const name of ['Mara', 'Joss', 'Wren', 'Ines'])
        add('personChanged', {
          personId: personId(name),
          roles: ['technician'],
          skills: ['metalwork'],
          week: name === 'Joss' ? null : Array(7).fill([]),
          absences: [],
          active: true,
        })
    })
    const { faults } = plan([beside().task('carry it', { skill: 'any', people: 2 }).car()], workshop)
    expect(faults.map(({ code }) => code)).toContain('no hours')
    expect(faults.find(({ words }) => words.startsWith('carry it'))!.words).toMatch(
      /^carry it: 2 people are needed, and too few have working hours before .*\.$/,
    )
  })

  test('a pinned day that has gone by pins nothing', () => {
    const car = beside().add('workPinned', {
      target: onGate('Wing', 'opened'),
      people: [],
      day: '2026-11-20',
    })
    const { faults, names, made } = plan([car.car()])
    expect(said(faults)).toEqual([
      'pin in the past | Wing: opened: pinned to Fri 20 Nov, which has gone by. | Pin it to another day, or take the pin away.',
    ])
    expect(names).toEqual(wing)
    expect(made.work[0]!.pinned.day).toBe(false)
  })

  test('work pinned to somebody who is not there, or who cannot do it', () => {
    const car = beside()
      .add('workPinned', { target: onGate('Wing', 'opened'), people: [personId('Nobody')], day: null })
      .add('workPinned', { target: onGate('Wing', 'welded'), people: [personId('Ines')], day: null })
    const { faults, names } = plan([car.car()])
    expect(faults.map(({ code, words }) => `${code}: ${words}`)).toEqual([
      'pins clash: Wing: opened: pinned to Nobody, who does not work here now.',
      "no skill: Wing: welded: pinned to Ines, who has not the skill 'metalwork'.",
    ])
    expect(names).toEqual(wing)
  })

  test('no hours are a signature, and a million are none', () => {
    const none = { shortest: 0, likely: 0, longest: 0 }
    const most = { shortest: 1e6, likely: 1e6, longest: 1e6 }
    const car = beside()
      .repair('Sill', { gates: { assessed: { hours: none }, sealed: { hours: most } } })
      .car()
    const { faults, names, made } = plan([car])
    expect(faults.map(({ code, words }) => `${code}: ${words}`)).toEqual([
      'bad hours: Sill: sealed: 1,000,000 h of work cannot be planned.',
      'bad hours: Sill: assessed: estimated at no hours, so planned as a signature only.',
    ])
    expect(names).toEqual([...wing, 'Sill: opened', 'Sill: assessed', 'Sill: fabricated'])
    const signature = made.work.find(({ hours }) => hours === 0)!
    expect(signature.finish).toBe(signature.start)
  })

  test('work under metal that is closed', () => {
    const car = beside()
      .repair('Skin')
      .repair('Box')
      .agree('Box')
      .passTo('Skin', 'painted')
      .cover('Skin', 'Box')
    const { faults, names } = plan([car.car()])
    expect(said(faults)).toEqual([
      'closed over | Box: opened: under Skin, which is closed. | Reopen Skin, or take out the link.',
    ])
    expect(names).toEqual(wing)
  })

  test('work that the workshop has stopped', () => {
    const car = beside().repair('Sill').agree('Sill')
    car
      .vary('Half a sill', [{ target: onGate('Sill', 'opened'), hours: 1 }])
      .decide('Half a sill', 'declined')
    car.add('declinedSettled', {
      variationId: variationId('Half a sill'),
      choice: 'stopped',
      reason: 'It would not hold.',
    })
    const { faults, names } = plan([car.car()])
    expect(faults.map(({ code, words }) => `${code}: ${words}`)).toEqual([
      'not authorised: Sill: opened: stopped by the workshop: It would not hold.',
    ])
    expect(names).toEqual(wing)
  })

  test('a fixture that the workshop has none of', () => {
    const workshop = buildWorkshop((add) =>
      add('fixturesSet', { counts: { jig: 0, rotisserie: null, dolly: null } }),
    )
    const car = beside().repair('Sill', { loadBearing: true }).add('fixturePlanned', { fixture: 'jig' })
    const { faults, names } = plan([car.car()], workshop)
    expect(faults.map(({ code, words }) => `${code}: ${words}`)).toEqual([
      'no fixture: Sill: opened, Sill: assessed, Sill: fabricated and 4 more: planned on a jig, and the workshop has none.',
    ])
    expect(names).toEqual(wing)
  })

  test('nothing at all', () => {
    expect(plan([]).made).toMatchObject({ work: [], stays: [], moves: [], cars: [], faults: [] })
  })
})
