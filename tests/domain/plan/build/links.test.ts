import { describe, expect, test } from 'vitest'
import { fitGroupIdSchema, liftIdSchema } from '../../../../domain/ids.ts'
import { buildProblem, type BuiltProblem } from '../../../../domain/plan/build-problem.ts'
import { buildCar, onGate, onTask, repairId, type CarBuilder } from '../../../support/car-builder.ts'
import { linkNames, planInput } from '../../../support/plan-input.ts'
import { asks } from '../../../support/scene.ts'
import { bayId } from '../../../support/workshop-builder.ts'

const build = (car: CarBuilder): BuiltProblem => buildProblem(planInput([car.car()]))

/** Links between different repairs, or with a task; order inside repairs is left aside. */
const between = (built: BuiltProblem): readonly string[] =>
  linkNames(built).filter((name) => {
    const [before, after] = name.split(' -> ').map((each) => each.split(': ')[0])
    return before !== after
  })

const lagOf = (built: BuiltProblem, name: string): number | undefined =>
  built.problem.links.find(
    ({ before, after }) => `${built.work[before]?.name} -> ${built.work[after]?.name}` === name,
  )?.lag

describe('What comes before what', () => {
  test('gates follow each other in the repair’s own order', () => {
    const built = build(buildCar().repair('Sill', { primedFirst: true }))
    expect(built.work.map(({ name }) => name)).toEqual([
      'Sill: opened',
      'Sill: assessed',
      'Sill: fabricated',
      'Sill: primed',
      'Sill: sealed',
      'Sill: trial-fitted',
      'Sill: welded',
      'Sill: painted',
    ])
    expect(linkNames(built)).toContain('Sill: fabricated -> Sill: primed')
    expect(linkNames(built)).toHaveLength(7)
  })

  test('gates that are done or not needed are passed over', () => {
    const built = build(buildCar().repair('Sill').passTo('Sill', 'assessed').notNeeded('Sill', 'sealed'))
    expect(built.work[0]?.name).toBe('Sill: fabricated')
    expect(linkNames(built)).toContain('Sill: fabricated -> Sill: primed')
  })

  test('the gate after one that cures waits for so long on the clock', () => {
    const built = build(buildCar().repair('Sill', { gates: { sealed: { cureHours: 12 } } }))
    expect(lagOf(built, 'Sill: sealed -> Sill: primed')).toBe(144)
    expect(lagOf(built, 'Sill: primed -> Sill: trial-fitted')).toBe(0)
  })

  test('what covers is opened before and closed after what it covers, cured', () => {
    const built = build(
      buildCar()
        .repair('Skin')
        .repair('Box', { gates: { painted: { cureHours: 16 } } })
        .cover('Skin', 'Box'),
    )
    expect(between(built)).toEqual(['Box: painted -> Skin: welded', 'Skin: opened -> Box: opened'])
    expect(lagOf(built, 'Box: painted -> Skin: welded')).toBe(192)
  })

  test('what lies further in has to be finished too before the outermost is closed, but cures for its own cover only', () => {
    const built = build(
      buildCar()
        .repair('Skin')
        .repair('Box')
        .repair('Rib', { gates: { painted: { cureHours: 16 } } })
        .cover('Skin', 'Box')
        .cover('Box', 'Rib'),
    )
    expect(lagOf(built, 'Rib: painted -> Box: welded')).toBe(192)
    expect(lagOf(built, 'Rib: painted -> Skin: welded')).toBe(0)
    expect(between(built)).not.toContain('Skin: opened -> Rib: opened')
  })

  test('a cover that stands open already is waited for no more', () => {
    const built = build(buildCar().repair('Skin').repair('Box').cover('Skin', 'Box').passTo('Skin', 'opened'))
    expect(between(built)).toEqual(['Box: painted -> Skin: welded'])
  })

  test('trial-fitted waits until every member of its group is primed', () => {
    const fitted = { gates: { 'trial-fitted': { asks: asks({ fitUp: true }) } } }
    const built = build(
      buildCar()
        .repair('Sill', fitted)
        .repair('Wing')
        .add('fitGroupSet', {
          groupId: fitGroupIdSchema.parse('group-door'),
          name: 'door',
          members: [repairId('Sill'), repairId('Wing')],
          hungParts: [],
          edges: [],
        }),
    )
    expect(between(built)).toEqual(['Wing: primed -> Sill: trial-fitted'])
  })

  test('a task waits for gates and tasks and holds gates, and its own curing is waited for', () => {
    const built = build(
      buildCar()
        .repair('Sill')
        .task('strip', { holds: [onGate('Sill', 'opened')], cureHours: 2 })
        .task('wax', { waitsFor: [onGate('Sill', 'painted'), onTask('strip')] }),
    )
    expect(between(built)).toEqual(['Sill: painted -> wax', 'strip -> Sill: opened', 'strip -> wax'])
    expect(lagOf(built, 'strip -> wax')).toBe(24)
  })

  test('a hold that the manager has released keeps nothing waiting', () => {
    const built = build(
      buildCar()
        .repair('Sill')
        .task('strip', { holds: [onGate('Sill', 'opened')] })
        .add('holdReleased', {
          repairId: repairId('Sill'),
          gate: 'opened',
          code: 'task',
          subject: 'task-strip',
          reason: 'only the doors are left',
          ownHold: false,
        }),
    )
    expect(between(built)).toEqual([])
  })

  test('repairs that were closed as found or retired, and other visits, are not planned', () => {
    const car = buildCar()
      .repair('Sill')
      .repair('Wing')
      .add('repairRetired', { repairId: repairId('Wing'), reason: 'sound after all' })
    expect(build(car).work.map(({ repairId: id }) => id)).toEqual(Array(8).fill(repairId('Sill')))
    const paused = buildCar().repair('Sill')
    paused.add('visitStatusSet', { visitId: paused.car().currentVisit!, status: 'paused', reason: '' })
    expect(build(paused).work).toEqual([])
  })
})

const standingCar = (): CarBuilder =>
  buildCar().add('shellMoved', { bayId: bayId('1 metalwork'), fixture: 'wheels', note: '' })

describe('Sides that may not stand open together', () => {
  const bearing = (side: 'left' | 'right' | 'centre', name: string, car: CarBuilder): CarBuilder =>
    car.repair(name, { loadBearing: true, zone: { side, place: 'middle' } })

  test('load-bearing repairs stand open from opened to welded, and different sides are apart', () => {
    const car = buildCar()
    for (const [side, name] of [
      ['left', 'A'],
      ['left', 'B'],
      ['right', 'C'],
      ['centre', 'D'],
    ] as const)
      bearing(side, name, car)
    const { problem, work } = build(car)
    expect(problem.stands.map(({ from, until }) => [work[from ?? -1]?.name, work[until]?.name])).toEqual([
      ['A: opened', 'A: welded'],
      ['B: opened', 'B: welded'],
      ['C: opened', 'C: welded'],
      ['D: opened', 'D: welded'],
    ])
    expect(problem.apart).toEqual([
      [0, 2],
      [0, 3],
      [1, 2],
      [1, 3],
      [2, 3],
    ])
  })

  test('one that stands open now is held from tick 0, and one lifted for is not kept apart', () => {
    const car = bearing('right', 'B', bearing('left', 'A', standingCar())).passTo('A', 'opened')
    const apart = build(car).problem
    expect(apart.stands[0]?.from).toBeNull()
    expect(apart.apart).toEqual([[0, 1]])
    const lifted = car.add('supportLifted', {
      liftId: liftIdSchema.parse('lift-one-two'),
      repairIds: [repairId('A'), repairId('B')],
      how: 'on the jig',
    })
    expect(build(lifted).problem.apart).toEqual([])
  })

  test('where a side cannot close before the other was opened, the other one goes first', () => {
    // The cover is of the left side and bears load; the box far behind it, under an open plate, is of the right side.
    const car = buildCar()
    bearing('left', 'Cover', car)
    car.repair('Plate')
    bearing('right', 'Box', car)
    car.passTo('Plate', 'opened').cover('Cover', 'Plate').cover('Plate', 'Box')
    const built = build(car)
    expect(linkNames(built)).toContain('Box: welded -> Cover: opened')
    expect(built.faults).toEqual([])
  })
})
