import { describe, expect, test } from 'vitest'
import { bookingIdSchema, carIdSchema, partIdSchema } from '../../../domain/ids.ts'
import { buildProblem } from '../../../domain/plan/build-problem.ts'
import type { PlanInput } from '../../../domain/plan/plan-input.ts'
import type { WhatIf } from '../../../domain/plan/plan.ts'
import { applyWhatIf } from '../../../domain/plan/what-if.ts'
import { buildCar, onGate, personId, repairId, taskId } from '../../support/car-builder.ts'
import { activityOf, planInput, planOf } from '../../support/plan-input.ts'
import { bayId } from '../../support/workshop-builder.ts'

const carId = carIdSchema.parse('car-dunmere')
const partId = partIdSchema.parse('part-skin')
const booking = (id: string, bay: string, from: string, to: string) => ({
  bookingId: bookingIdSchema.parse(id),
  bayId: bayId(bay),
  from,
  to,
})

const input = (): PlanInput =>
  planInput([
    buildCar()
      .repair('Sill', { gates: { fabricated: { people: 2 } } })
      .agree('Sill')
      .add('partNeeded', { partId, repairId: repairId('Sill'), gate: 'fabricated', name: 'Outer skin' })
      .add('partMoved', { partId, state: 'ordered', expected: '2026-11-25', reason: '' })
      .add('shellMoved', { bayId: bayId('1 metalwork'), fixture: 'wheels', note: '' })
      .add('bayBooked', booking('booking-a', '1 metalwork', '2026-11-23', '2026-12-04'))
      .passTo('Sill', 'opened')
      .car(),
    buildCar({ carId: carIdSchema.parse('car-marrick'), name: 'Marrick', shellNumber: '0500' })
      .repair('Wing')
      .agree('Wing')
      .add('bayBooked', booking('booking-b', '3 jig', '2026-11-30', '2026-12-04'))
      .car(),
  ])

const tried = (whatIf: WhatIf): PlanInput => {
  const before = input()
  const copy = structuredClone({ ...before, nameOf: null })
  const after = applyWhatIf(before, whatIf)
  if (!after.ok) throw new Error(after.refusal.message)
  expect({ ...before, nameOf: null }).toEqual(copy)
  return after.value
}
const refused = (whatIf: WhatIf): string => {
  const after = applyWhatIf(input(), whatIf)
  if (after.ok) throw new Error('It was not refused.')
  return `${after.refusal.code}: ${after.refusal.message} ${after.refusal.next}`
}
const finishOf = (from: PlanInput): number => planOf(from).cars[0]!.finish!

describe('What if', () => {
  test('somebody is off: the days are not in their calendar', () => {
    const whatIf = {
      kind: 'person off',
      personId: personId('Joss'),
      from: '2026-11-24',
      to: '2026-11-27',
    } as const
    const { workshop } = tried(whatIf)
    expect(workshop.people.get(personId('Joss'))!.absences).toEqual([
      { from: '2026-11-24', to: '2026-11-27' },
    ])
    expect(refused({ ...whatIf, to: '2026-11-20' })).toContain('The last day comes before the first.')
    expect(refused({ ...whatIf, from: '2026-11-16', to: '2026-11-20' })).toContain('This day is in the past.')
    expect(refused({ ...whatIf, personId: personId('Nobody') })).toContain(
      'unknown: This person is not known.',
    )
  })

  test('a part is late: its gate waits, and the car is finished later', () => {
    const whatIf = { kind: 'part late', carId, partId, expected: '2026-12-14' } as const
    const built = buildProblem(tried(whatIf))
    expect(built.work[activityOf(built, 'Sill: fabricated')]!.earliest[0]!.words).toBe(
      'Outer skin: ordered; expected Mon 14 Dec.',
    )
    expect(finishOf(tried(whatIf))).toBeGreaterThan(finishOf(input()) + 14 * 24 * 3_600_000)
    expect(refused({ ...whatIf, partId: 'part-other' })).toContain('This part is not known.')
  })

  test('another car comes: it has the repairs of one that is here, none begun, from that day on', () => {
    const whatIf = {
      kind: 'new car',
      like: carId,
      name: 'Hesslow',
      arrives: '2026-12-07',
      promised: '2027-01-15',
      priority: 2,
    } as const
    const after = tried(whatIf)
    const plan = planOf(after)
    expect(plan.cars).toHaveLength(3)
    expect(plan.faults.filter(({ carId: of }) => of === plan.cars[2]!.carId)).toEqual([])
    expect(plan.cars[2]).toMatchObject({ promised: '2027-01-15', priority: 2 })
    const own = plan.work.filter(({ carId: id }) => id === plan.cars[2]!.carId)
    expect(own).toHaveLength(8)
    expect(Math.min(...own.map(({ start }) => start))).toBeGreaterThanOrEqual(
      Date.parse('2026-12-07T08:00:00Z'),
    )
    const twice = applyWhatIf(after, whatIf)
    expect(twice.ok && new Set(twice.value.cars.map(({ id }) => id)).size).toBe(4)
    expect(refused({ ...whatIf, arrives: '2026-11-01' })).toContain('This day is in the past.')
  })

  test('a car like one of which a task was not needed needs it no more', () => {
    const like = buildCar()
      .repair('Sill')
      .task('strip')
      .task('wax')
      .agree('Sill')
      .add('taskSigned', { taskId: taskId('strip'), did: [], note: '' })
      .add('taskNotNeeded', { taskId: taskId('wax'), reason: 'No cavities' })
    const after = applyWhatIf(planInput([like.car()]), {
      kind: 'new car',
      like: carId,
      name: 'Hesslow',
      arrives: '2026-12-07',
      promised: null,
      priority: 1,
    })
    if (!after.ok) throw new Error(after.refusal.message)
    const tasks = [...after.value.cars[1]!.tasks.values()]
    expect(tasks.map(({ plan, status }) => [plan.name, status])).toEqual([
      ['strip', 'open'],
      ['wax', 'not needed'],
    ])
  })

  test('people work longer', () => {
    const whatIf = {
      kind: 'overtime',
      people: [personId('Joss'), personId('Wren'), personId('Mara')],
      from: '2026-11-23',
      to: '2026-12-11',
      weekdays: [1, 2, 3, 4, 5],
      span: { from: '16:30', to: '20:00' },
    } satisfies WhatIf
    expect(finishOf(tried(whatIf))).toBeLessThan(finishOf(input()))
    expect(refused({ ...whatIf, span: { from: '17:00', to: '17:00' } })).toContain('The overtime ends before')
    expect(refused({ ...whatIf, people: [personId('Nobody')] })).toContain('This person is not known.')
  })

  test('there is one more bay', () => {
    const built = buildProblem(tried({ kind: 'one more bay', name: '7 oven', kinds: ['oven', 'booth'] }))
    expect(built.bayNames).toContain('7 oven')
    expect(built.problem.bays.at(-1)).toMatchObject({ places: 1, storage: false })
  })

  test('a booking is elsewhere: its bay is kept for it there, and a clash is refused', () => {
    const whatIf = { kind: 'booking', carId, bookingId: booking('booking-a', '', '', '').bookingId } as const
    const moved = { ...whatIf, bayId: bayId('3 jig'), from: '2026-12-07', to: '2026-12-11' }
    const built = buildProblem(tried(moved))
    expect(built.problem.cars[0]!.bookings).toHaveLength(1)
    expect(built.bayIds[built.problem.cars[0]!.bookings[0]!.bay]).toBe(bayId('3 jig'))
    expect(refused({ ...moved, from: '2026-12-01' })).toBe(
      'clash: Marrick is booked into 3 jig on these days. Choose other dates or another bay, or change that booking.',
    )
    expect(refused({ ...moved, bayId: bayId('9 none') })).toContain('This bay is not known.')
  })

  test('a stay without a booking is booked elsewhere; a booking that was cancelled is not known', () => {
    const bookingId = bookingIdSchema.parse('booking-x')
    const added = { kind: 'booking', carId, bookingId, bayId: bayId('3 jig') } as const
    const days = { from: '2026-12-07', to: '2026-12-11' }
    expect(buildProblem(tried({ ...added, ...days })).problem.cars[0]!.bookings).toHaveLength(2)
    const before = input()
    const cancelled = buildCar()
      .add('bayBooked', booking('booking-x', '1 metalwork', '2026-11-23', '2026-12-04'))
      .add('bookingCancelled', { bookingId, reason: '' })
      .car()
    const after = applyWhatIf({ ...before, cars: [cancelled] }, { ...added, carId: cancelled.id, ...days })
    expect(after).toMatchObject({ ok: false, refusal: { message: 'This booking is not known.' } })
  })

  test('work is given to somebody and put on a day', () => {
    const whatIf = {
      kind: 'pin',
      carId,
      target: onGate('Sill', 'assessed'),
      people: [personId('Mara')],
      day: '2026-11-27',
    } satisfies WhatIf
    const work = planOf(tried(whatIf)).work.find(
      ({ target }) => target.kind === 'gate' && target.gate === 'assessed',
    )!
    expect(work).toMatchObject({
      people: [personId('Mara')],
      start: Date.parse('2026-11-27T08:00:00Z'),
      pinned: { people: true, day: true },
    })
    expect(refused({ ...whatIf, target: onGate('Sill', 'opened') })).toContain(
      'Sill: opened is done already.',
    )
    expect(refused({ ...whatIf, day: '2026-11-20' })).toContain('This day is in the past.')
  })

  test('work is tried only with people who could be given it', () => {
    const pin = { kind: 'pin', carId, target: onGate('Sill', 'assessed'), day: null } as const
    expect(refused({ ...pin, people: [personId('Mara'), personId('Wren')] })).toContain(
      'Sill: assessed takes 1 person.',
    )
    expect(refused({ ...pin, people: [personId('Ines')] })).toContain("not the skill 'metalwork'")
  })
})
