import { describe, expect, test } from 'vitest'
import { commandShapes } from '../../../domain/commands/command-shapes.ts'
import { planNames } from '../../../domain/drawing/plan-rows.ts'
import type { WhatIf } from '../../../domain/plan/plan.ts'
import { createWhen } from '../../../renderer/parts/frame/when.tsx'
import { whatIfAct } from '../../../renderer/plan/what-if-acts.ts'
import { whatIfWords } from '../../../renderer/plan/what-if-words.ts'
import { planViewFixture } from '../../support/plan-view-fixture.ts'

const view = planViewFixture({ works: 20 })
const names = planNames(view)
const when = createWhen(view.zone, '2026-11-25')
const [wren, joss] = view.people.map(({ personId }) => personId) as [never, never]
const [{ carId }] = view.cars as unknown as [{ readonly carId: never }]

const off: WhatIf = { kind: 'person off', personId: wren, from: '2026-11-30', to: '2026-12-04' }
const late: WhatIf = { kind: 'part late', carId, partId: 'part-outer-sill', expected: '2026-12-14' }
const overtime: WhatIf = {
  kind: 'overtime',
  people: [wren, joss],
  from: '2026-11-28',
  to: '2026-12-19',
  weekdays: [6],
  span: { from: '08:00', to: '12:00' },
}
const bay: WhatIf = { kind: 'one more bay', name: '9', kinds: ['booth'] }
const newCar: WhatIf = {
  kind: 'new car',
  like: carId,
  name: 'Sable',
  arrives: '2026-12-01',
  promised: null,
  priority: 1,
}

describe('what is assumed, in words', () => {
  test.each([
    [off, 'Wren is off, 30 Nov to 4 Dec'],
    [late, 'outer sill of the Ostwick comes on Mon 14 Dec'],
    [overtime, 'Wren and Joss also work Saturdays from 08:00 to 12:00, 28 Nov to 19 Dec'],
    [bay, 'one more bay, 9, for booth'],
    [newCar, 'Sable comes in on Tue 1 Dec with the repairs of the Ostwick, nothing promised'],
  ])('%o', (whatIf, words) => {
    expect(whatIfWords(whatIf, names, when, 'outer sill')).toBe(words)
  })
})

describe('taking what was assumed', () => {
  const workshop = {
    people: [
      {
        id: wren,
        name: 'Wren',
        roles: ['technician' as const],
        skills: ['metalwork'],
        week: null,
        absences: [{ from: '2026-12-21', to: '2027-01-02' }],
        active: true,
        contact: { name: 'Wren', phone: '', email: '', address: '' },
      },
    ],
    bays: [
      {
        id: view.bays[0]!.bayId,
        name: '1',
        kinds: ['metalwork'],
        floor: { x: 0, y: 0, width: 42, height: 60 },
        active: true,
      },
    ],
  } as unknown as Parameters<typeof whatIfAct>[1]
  let made = 0
  const newId = <Id extends string>() => `new-id-${(made += 1)}-of-test` as Id

  test.each([off, late, overtime, bay])('$kind makes a command that the host takes in', (whatIf) => {
    const act = whatIfAct(whatIf, workshop, newId)!
    expect(commandShapes[act.kind].safeParse(act.payload)).toMatchObject({ success: true })
  })

  test('an absence is added to those that are there', () => {
    const act = whatIfAct(off, workshop, newId)
    expect(act?.payload).toMatchObject({
      skills: ['metalwork'],
      absences: [
        { from: '2026-12-21', to: '2027-01-02' },
        { from: '2026-11-30', to: '2026-12-04' },
      ],
    })
  })

  test('one more bay stands beside the others', () => {
    const act = whatIfAct(bay, workshop, newId)
    if (act?.kind !== 'addBay') throw new Error('It adds a bay.')
    expect(act.payload.floor.x).toBeGreaterThanOrEqual(42)
  })

  test('a new car has a form of its own, and somebody who is gone none', () => {
    expect(whatIfAct(newCar, workshop, newId)).toBeNull()
    expect(whatIfAct({ ...off, personId: joss }, workshop, newId)).toBeNull()
  })
})
