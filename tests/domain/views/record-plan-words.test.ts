import { describe, expect, it } from 'vitest'
import { overtimeIdSchema, planIdSchema } from '../../../domain/ids.ts'
import { recordView } from '../../../domain/views/record-view.ts'
import { buildCar, type CarBuilder, onGate, personId, variationId } from '../../support/car-builder.ts'
import { buildWorkshop, nameOf } from '../../support/workshop-builder.ts'

const workshop = buildWorkshop()
const now = Date.parse('2026-11-25T10:40:00Z')

/** Words of the last so many facts, in the order in which they were stated. */
const lastWords = (car: CarBuilder, count: number) =>
  recordView({ facts: car.facts(), head: 'a'.repeat(64), now, workshop, nameOf, showsMoney: true })
    .lines.slice(0, count)
    .map(({ words }) => words)
    .toReversed()

describe('the record of planning', () => {
  it('says what was pinned, what is left, and what is expected', () => {
    const target = onGate('Boot floor', 'opened')
    const car = buildCar()
      .repair('Boot floor')
      .vary('Corner', [{ target, hours: 2 }])
      .add('workPinned', { target, people: [personId('Joss'), personId('Wren')], day: '2026-11-27' })
      .add('workPinned', { target, people: [], day: '2027-01-08' })
      .add('workUnpinned', { target })
      .add('leftSaid', { target, hours: 2.25 })
      .add('leftSaid', { target, hours: 0 })
      .add('decisionExpected', { variationId: variationId('Corner'), expected: '2026-12-04' })
      .add('fixturePlanned', { fixture: 'rotisserie' })
      .add('fixturePlanned', { fixture: null })
    expect(lastWords(car, 8)).toEqual([
      'Boot floor: opened pinned to Joss and Wren on Fri 27 Nov',
      'Boot floor: opened pinned on Fri 8 Jan 2027',
      'Boot floor: opened no longer pinned',
      'Boot floor: opened: still to do 2.25 h',
      'Boot floor: opened: nothing left to do but the signature',
      "Answer to 'Corner' expected on Fri 4 Dec",
      'Structural work planned on a rotisserie',
      'No fixture planned',
    ])
  })

  it("says what was set for the workshop's planning, who works longer, and which plan was taken", () => {
    const overtimeId = overtimeIdSchema.parse('overtime-one')
    const car = buildCar()
      .add('planningSet', {
        moveMinutes: 45,
        movePeople: 2,
        decisionDays: 7,
        frozenDays: 1,
        takeByItself: false,
      })
      .add('fixturesSet', { counts: { jig: 1, rotisserie: 2, dolly: null } })
      .add('overtimeSet', {
        overtimeId,
        people: [personId('Joss'), personId('Wren')],
        from: '2026-11-28',
        to: '2026-12-19',
        weekdays: [6, 1],
        span: { from: '08:00', to: '12:00' },
      })
      .add('overtimeCancelled', { overtimeId })
      .add('planTaken', {
        planId: planIdSchema.parse('plan-one'),
        sha256: 'b'.repeat(64),
        cause: 'A part is late.',
        cars: [],
      })
    expect(lastWords(car, 5)).toEqual([
      'Planning set: a move takes 45 minutes and 2 people, a decision 7 days; 1 day kept, changes taken by the manager',
      'Fixtures counted: jig 1, rotisserie 2 and dolly not limited',
      'Overtime of Joss and Wren, Mon and Sat 08:00 to 12:00, 28 Nov to 19 Dec',
      'Overtime cancelled',
      'Plan of 0 cars taken: A part is late.',
    ])
  })
})
