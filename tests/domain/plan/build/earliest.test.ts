import { describe, expect, test } from 'vitest'
import type { PayloadOf } from '../../../../domain/facts.ts'
import { awayIdSchema, bookingIdSchema, holdIdSchema, partIdSchema } from '../../../../domain/ids.ts'
import { buildProblem, type BuiltWork } from '../../../../domain/plan/build-problem.ts'
import {
  buildCar,
  entryId,
  onGate,
  onTask,
  ownerId,
  repairId,
  taskId,
  variationId,
  type CarBuilder,
} from '../../../support/car-builder.ts'
import { activityOf, MONDAY, planInput } from '../../../support/plan-input.ts'
import { bayId } from '../../../support/workshop-builder.ts'

/** Ticks from that Monday, 08:00, to a moment of UTC. */
const tickOf = (moment: string): number => (Date.parse(`${moment}:00Z`) - MONDAY) / 300_000

const waits = (car: CarBuilder, name = 'Sill: opened'): BuiltWork['earliest'] => {
  const built = buildProblem(planInput([car.car()]))
  const index = activityOf(built, name)
  const { earliest } = built.work[index]!
  expect(built.problem.activities[index]!.earliest).toBe(Math.max(0, ...earliest.map(({ tick }) => tick)))
  return earliest
}
const agreed = (): CarBuilder => buildCar().repair('Sill').agree('Sill')
const partId = partIdSchema.parse('part-skin')

describe('Work waits', () => {
  test('for nothing where everything is there and agreed', () => {
    expect(waits(agreed())).toEqual([])
  })

  test('for a part until work begins on the day it is expected, or on the next working day', () => {
    const car = agreed().add('partNeeded', {
      partId,
      repairId: repairId('Sill'),
      gate: 'fabricated',
      name: 'Outer skin',
    })
    expect(waits(car, 'Sill: fabricated')).toEqual([
      {
        tick: tickOf('2026-11-30T08:00'),
        reason: 'parts',
        words: 'Outer skin: not ordered yet; expected Mon 30 Nov.',
      },
    ])
    car.add('partMoved', { partId, state: 'ordered', expected: '2026-11-28', reason: '' })
    expect(waits(car, 'Sill: fabricated')).toEqual([
      {
        tick: tickOf('2026-11-30T08:00'),
        reason: 'parts',
        words: 'Outer skin: ordered; expected Sat 28 Nov.',
      },
    ])
    expect(waits(car)).toEqual([])
    car.add('partMoved', { partId, state: 'received', expected: null, reason: '' })
    expect(waits(car, 'Sill: fabricated')).toEqual([])
  })

  test('for a part that was to be here by now until the next day', () => {
    const car = agreed()
      .add('partNeeded', { partId, repairId: repairId('Sill'), gate: 'opened', name: 'Outer skin' })
      .add('partMoved', { partId, state: 'ordered', expected: '2026-11-19', reason: '' })
    expect(waits(car)[0]?.words).toBe('Outer skin: ordered; expected Tue 24 Nov.')
  })

  test('for the payer’s answer to a variation until it is expected, by default days after it was raised', () => {
    const car = agreed().at('2026-11-20T10:00')
    car.vary('More metal', [{ target: onGate('Sill', 'opened'), hours: 3 }])
    expect(waits(car)).toEqual([
      {
        tick: tickOf('2026-11-27T08:00'),
        reason: 'decision',
        words: "'More metal' waits for the owner's answer; expected Fri 27 Nov.",
      },
    ])
    car.add('decisionExpected', { variationId: variationId('More metal'), expected: '2026-12-02' })
    expect(waits(car)[0]?.tick).toBe(tickOf('2026-12-02T08:00'))
    car.decide('More metal', 'accepted')
    expect(waits(car)).toEqual([])
  })

  test('for somebody to agree to it where nobody has, as if the answer came within the usual days', () => {
    const car = buildCar().repair('Sill')
    expect(waits(car)).toEqual([
      {
        tick: tickOf('2026-11-30T08:00'),
        reason: 'decision',
        words: 'The payer has not agreed to it yet; expected Mon 30 Nov.',
      },
    ])
    car.estimate(onGate('Sill', 'opened'), 2, { accepted: false })
    expect(waits(car)[0]?.words).toContain('The owner has not agreed')
  })

  test('for the manager’s own hold on a car, a repair, a gate or a task', () => {
    const car = agreed()
      .task('wax')
      .add('holdSet', holdOn('hold-car', { kind: 'car' }))
    expect(waits(car)[0]).toEqual({
      tick: tickOf('2026-12-01T08:00'),
      reason: 'hold',
      words: 'The inspector comes first; expected Tue 1 Dec.',
    })
    expect(waits(car, 'wax').map(({ reason }) => reason)).toContain('hold')
    const gate = agreed().add(
      'holdSet',
      holdOn('hold-gate', { kind: 'gate', repairId: repairId('Sill'), gate: 'primed' }),
    )
    expect(waits(gate)).toEqual([])
    expect(waits(gate, 'Sill: primed')).toHaveLength(1)
    gate.add('holdCleared', { holdId: holdIdSchema.parse('hold-gate'), note: '' })
    expect(waits(gate, 'Sill: primed')).toEqual([])
  })

  test('for a gate that cures since before now, in its repair and in the one that covers it', () => {
    const car = buildCar()
      .repair('Skin')
      .repair('Box', { gates: { painted: { cureHours: 16 }, sealed: { cureHours: 12 } } })
      .agree('Skin')
      .agree('Box')
      .cover('Skin', 'Box')
    car.passTo('Skin', 'opened').at('2026-11-22T20:00').passTo('Box', 'painted')
    // The eighth gate is passed seven minutes after the first: 20:07, and cures for 16 hours.
    expect(waits(car, 'Skin: welded')).toContainEqual({
      tick: Math.ceil(tickOf('2026-11-23T12:07')),
      reason: 'curing',
      words: 'Box: painted cures until Mon 23 Nov 12:07.',
    })
    const open = agreedCuring().at('2026-11-22T22:00').pass('Sill', 'sealed')
    expect(waits(open, 'Sill: primed')[0]?.tick).toBe(tickOf('2026-11-23T10:00'))
  })

  test('for a task that cures since before now, and a task for a gate that does', () => {
    const car = agreedCuring()
      .task('paint', { cureHours: 48, holds: [onGate('Sill', 'primed')] })
      .task('wax', { waitsFor: [onTask('paint'), onGate('Sill', 'sealed')] })
      .at('2026-11-22T22:00')
      .add('taskSigned', { taskId: taskId('paint'), did: [], note: '' })
    const painted = {
      tick: tickOf('2026-11-24T22:00'),
      reason: 'curing',
      words: 'paint cures until Tue 24 Nov 22:00.',
    }
    expect(waits(car, 'Sill: primed')).toEqual([painted])
    expect(waits(car, 'wax')).toContainEqual(painted)
    car.pass('Sill', 'sealed')
    expect(waits(car, 'wax').filter(({ reason }) => reason === 'curing')).toHaveLength(2)
  })

  test('for the fire watch where only the signature is left', () => {
    const car = agreed()
      .at('2026-11-23T07:00')
      .clock('hot', 'Joss', '2026-11-23T07:00', [onGate('Sill', 'opened')])
    car
      .add('clockStopped', {
        entryId: entryId('hot'),
        end: '2026-11-23T07:30:00Z',
        countsTo: '2026-11-23T07:30:00Z',
        overtime: true,
        shares: null,
        watchMinutes: 60,
      })
      .add('leftSaid', { target: onGate('Sill', 'opened'), hours: 0 })
    expect(waits(car)).toEqual([
      { tick: 6, reason: 'fire watch', words: 'Fire watch after hot work until Mon 23 Nov 08:30.' },
    ])
  })

  test('for a car that is away, or that comes with its first booking', () => {
    const away = agreed().add('shellSentAway', {
      awayId: awayIdSchema.parse('away-blasting'),
      firmId: ownerId,
      what: 'blasting',
      from: '2026-11-20',
      expected: '2026-12-04',
    })
    expect(waits(away)).toEqual([
      { tick: tickOf('2026-12-04T08:00'), reason: 'away', words: 'The car is expected on Fri 4 Dec.' },
    ])
    const booked = agreed().add('bayBooked', booking('2026-12-07', '2026-12-11'))
    expect(waits(booked)[0]?.tick).toBe(tickOf('2026-12-07T08:00'))
    const { problem } = buildProblem(planInput([booked.car()]))
    expect(problem.cars[0]).toMatchObject({
      bay: null,
      arrives: tickOf('2026-12-07T08:00'),
      bookings: [{ bay: 0, from: tickOf('2026-12-07T00:00'), to: tickOf('2026-12-12T00:00') }],
    })
  })

  test('for its pinned day, and should start on it', () => {
    const car = agreed().add('workPinned', {
      target: onGate('Sill', 'opened'),
      people: [],
      day: '2026-11-26',
    })
    const { problem } = buildProblem(planInput([car.car()]))
    expect(problem.activities[0]).toMatchObject({
      earliest: tickOf('2026-11-26T00:00'),
      latestStart: tickOf('2026-11-27T00:00') - 1,
      first: 0,
    })
  })
})

const agreedCuring = (): CarBuilder =>
  buildCar()
    .repair('Sill', { gates: { sealed: { cureHours: 12 } } })
    .agree('Sill')
    .passTo('Sill', 'fabricated')

const holdOn = (id: string, scope: PayloadOf<'holdSet'>['scope']): PayloadOf<'holdSet'> => ({
  holdId: holdIdSchema.parse(id),
  scope,
  words: 'The inspector comes first.',
  clears: 'the inspector',
  expected: '2026-12-01',
})

const booking = (from: string, to: string) => ({
  bookingId: bookingIdSchema.parse('booking-one'),
  bayId: bayId('1 metalwork'),
  from,
  to,
})
