import { describe, expect, test } from 'vitest'
import { carIdSchema, type CarId } from '../../../domain/ids.ts'
import { comparePlans } from '../../../domain/plan/compare-plans.ts'
import type { PlannedCar, PlannedWork } from '../../../domain/plan/plan.ts'
import { onGate, personId, visitId } from '../../support/car-builder.ts'
import { planOf } from '../../support/planned.ts'
import { bayId } from '../../support/workshop-builder.ts'

const zone = 'Europe/Berlin'
const at = (moment: string): number => Date.parse(`${moment}:00+01:00`)
const idOf = (name: string): CarId => carIdSchema.parse(`car-${name}`)
const by = { zone, nameOf: (id: CarId) => id.replace('car-', '') }

const car = (name: string, finish: string | null, promised: string | null): PlannedCar => ({
  carId: idOf(name),
  visitId: visitId('first'),
  promised,
  priority: 1,
  finish: finish === null ? null : at(finish),
  finish50: null,
  finish80: finish === null ? null : at(finish) + 3_600_000,
  drivers: [],
})
const work = (gate: 'opened' | 'welded', start: string, people: readonly string[]): PlannedWork => ({
  carId: idOf('dunmere'),
  visitId: visitId('first'),
  target: onGate('Sill', gate),
  start: at(start),
  finish: at(start) + 3_600_000,
  people: people.map(personId),
  bayId: null,
  hours: 1,
  begun: false,
  pinned: { people: false, day: false },
  why: { reason: 'now', words: '' },
})

describe('Two plans side by side', () => {
  test('tell of each car when it is finished and how many local days late', () => {
    const before = planOf({ cars: [car('dunmere', '2026-12-18T16:30', '2026-12-18')] })
    const after = planOf({ cars: [car('dunmere', '2026-12-21T09:00', '2026-12-18')] })
    expect(comparePlans(before, after, by).cars).toEqual([
      {
        carId: idOf('dunmere'),
        name: 'dunmere',
        promised: '2026-12-18',
        finishBefore: at('2026-12-18T16:30'),
        finishAfter: at('2026-12-21T09:00'),
        finish80Before: at('2026-12-18T17:30'),
        finish80After: at('2026-12-21T10:00'),
        daysLateBefore: 0,
        daysLateAfter: 3,
      },
    ])
  })

  test('count the promised day to its last moment, and nothing without a promise or a finish', () => {
    const late = (finish: string | null, promised: string | null): number =>
      comparePlans(null, planOf({ cars: [car('dunmere', finish, promised)] }), by).cars[0]!.daysLateAfter
    // The 80 % finish is an hour after the mean one here.
    expect(late('2026-12-18T23:00', '2026-12-18')).toBe(0)
    expect(late('2026-12-18T23:01', '2026-12-18')).toBe(1)
    expect(late('2026-12-19T00:01', null)).toBe(0)
    expect(late(null, '2026-12-18')).toBe(0)
  })

  test('count the mean finish of both where one has no likelihoods yet', () => {
    const unsure = { ...car('dunmere', '2026-12-18T23:30', '2026-12-18'), finish80: null }
    const sure = car('dunmere', '2026-12-18T23:30', '2026-12-18')
    const compared = (before: typeof sure, after: typeof sure) =>
      comparePlans(planOf({ cars: [before] }), planOf({ cars: [after] }), by).cars[0]!
    expect(compared(unsure, sure)).toMatchObject({ daysLateBefore: 0, daysLateAfter: 0 })
    expect(compared(sure, sure)).toMatchObject({ daysLateBefore: 1, daysLateAfter: 1 })
  })

  test('keep cars that only one of them has', () => {
    const { cars } = comparePlans(
      planOf({ cars: [car('dunmere', '2026-12-18T16:30', null), car('marrick', '2026-12-01T16:30', null)] }),
      planOf({ cars: [car('hesslow', '2026-12-11T16:30', null), car('dunmere', '2026-12-18T16:30', null)] }),
      by,
    )
    expect(
      cars.map(({ name, finishBefore, finishAfter }) => [name, finishBefore !== null, finishAfter !== null]),
    ).toEqual([
      ['hesslow', false, true],
      ['dunmere', true, true],
      ['marrick', true, false],
    ])
  })

  test('count work on another day or with other people as changes, and moves in both', () => {
    const before = planOf({
      work: [work('opened', '2026-11-26T08:00', ['Wren']), work('welded', '2026-11-27T08:00', ['Joss'])],
    })
    const later = (start: string, people: readonly string[]): number =>
      comparePlans(
        before,
        planOf({ work: [work('opened', start, people), work('welded', '2026-11-27T15:00', ['Joss'])] }),
        by,
      ).changes
    expect(later('2026-11-26T08:00', ['Wren'])).toBe(0)
    expect(later('2026-11-25T23:59', ['Wren'])).toBe(1)
    expect(later('2026-11-26T08:00', ['Joss'])).toBe(1)
    const move = { carId: idOf('dunmere'), from: null, to: bayId('one'), start: 0, finish: 1, people: [] }
    expect(comparePlans(null, planOf({ moves: [move] }), by)).toMatchObject({
      movesBefore: 0,
      movesAfter: 1,
      changes: 0,
    })
  })
})
