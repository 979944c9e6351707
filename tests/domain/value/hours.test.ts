import { describe, expect, it } from 'vitest'
import { entryPieces } from '../../../domain/value/entry-hours.ts'
import { carHours, noHours, repairHours, targetHours, visitFigures } from '../../../domain/value/hours.ts'
import {
  buildCar,
  type CarBuilder,
  onGate,
  onTask,
  personId,
  repairId,
  taskId,
  variationId,
  visitId,
} from '../../support/car-builder.ts'
import { repairPlan } from '../../support/plans.ts'
import { buildWorkshop } from '../../support/workshop-builder.ts'

const workshop = buildWorkshop()
const at = Date.parse('2026-11-25T10:40:00Z')
const context = { at, workshop }
const first = visitId('first')

/** Monday to Friday of week 48; 25 Nov 2026 is a Wednesday. */
const day = (date: string, hours: number) => ({ kind: 'day' as const, date, hours })
const span = (start: string, end: string) => ({
  kind: 'span' as const,
  start: `${start}:00Z`,
  end: `${end}:00Z`,
})

const gateHours = (builder: CarBuilder, gate: Parameters<typeof onGate>[1], repair = 'Boot floor') =>
  targetHours(builder.car(), first, onGate(repair, gate), context)

describe('authorised hours', () => {
  it('are the accepted lines; what is not accepted waits', () => {
    const car = buildCar()
      .repair('Boot floor')
      .estimate(onGate('Boot floor', 'opened'), 3)
      .estimate(onGate('Boot floor', 'fabricated'), 8, { accepted: false })
    expect(repairHours(car.car(), first, repairId('Boot floor'), context)).toEqual({
      ...noHours,
      authorised: 3,
      waiting: 8,
    })
  })

  it('take in a variation when its payer accepts it', () => {
    const car = buildCar()
      .repair('Boot floor')
      .estimate(onGate('Boot floor', 'fabricated'), 8)
      .vary('Wheel well', [{ target: onGate('Boot floor', 'fabricated'), hours: 5 }])
    expect(gateHours(car, 'fabricated')).toEqual({ ...noHours, authorised: 8, waiting: 5 })
    car.decide('Wheel well', 'accepted')
    expect(gateHours(car, 'fabricated')).toEqual({ ...noHours, authorised: 13 })
  })

  it('leave out a declined variation unless the workshop pays it', () => {
    const car = buildCar()
      .repair('Boot floor')
      .vary('Wheel well', [{ target: onGate('Boot floor', 'fabricated'), hours: 5 }])
      .decide('Wheel well', 'declined')
    expect(gateHours(car, 'fabricated')).toEqual(noHours)
    car.add('declinedSettled', {
      variationId: variationId('Wheel well'),
      choice: 'workshop pays',
      reason: 'our own mistake',
    })
    expect(gateHours(car, 'fabricated').authorised).toBe(5)
  })

  it('shrink with a variation for less work', () => {
    const car = buildCar()
      .repair('Boot floor')
      .estimate(onGate('Boot floor', 'fabricated'), 8)
      .vary('Patch instead', [{ target: onGate('Boot floor', 'fabricated'), hours: -3 }])
      .decide('Patch instead', 'accepted')
    expect(gateHours(car, 'fabricated').authorised).toBe(5)
  })

  it('move with a split, and the baseline stays where it was', () => {
    const car = buildCar()
      .repair('Boot floor')
      .estimate(onGate('Boot floor', 'fabricated'), 8)
      .add('repairSplit', {
        repairId: repairId('Boot floor'),
        newRepairId: repairId('Boot floor edge'),
        plan: repairPlan('Boot floor edge'),
        share: 0.5,
        moves: [{ gate: 'fabricated', hours: 3 }],
        reason: 'the edge is another job',
      })
    expect(gateHours(car, 'fabricated').authorised).toBe(5)
    expect(gateHours(car, 'fabricated', 'Boot floor edge').authorised).toBe(3)
    const baselines = [...visitFigures(car.car(), first, context)].map(([key, { baseline }]) => [
      key,
      baseline,
    ])
    expect(baselines).toEqual([
      ['repair-boot-floor/fabricated', 8],
      ['repair-boot-floor-edge/fabricated', 0],
    ])
  })

  it('leave the baseline as it was first estimated', () => {
    const car = buildCar().repair('Boot floor').estimate(onGate('Boot floor', 'opened'), 3)
    const line = [...car.car().visits.get(first)!.lines.values()][0]!
    const points = { shortest: 5, likely: 5, longest: 5 }
    const { lineId, target, payer } = line
    car.add('estimateSet', { visitId: first, lines: [{ lineId, target, payer, hours: points, agreed: 5 }] })
    const [opened] = visitFigures(car.car(), first, context).values()
    expect(opened).toMatchObject({ baseline: 3, hours: { waiting: 5 } })
  })
})

describe('earned hours', () => {
  const agreed = () => buildCar().repair('Boot floor').agree('Boot floor', 2)

  it('come with the gate that is passed, whole', () => {
    const car = agreed().pass('Boot floor', 'opened')
    expect(gateHours(car, 'opened').earned).toBe(2)
    expect(gateHours(car, 'assessed').earned).toBe(0)
  })

  it('go again when the gate is reopened', () => {
    const car = agreed().passTo('Boot floor', 'primed').reopen('Boot floor', 'sealed')
    expect(repairHours(car.car(), first, repairId('Boot floor'), context).earned).toBe(6)
  })

  it('take in a variation on a passed gate at once', () => {
    const car = agreed()
      .pass('Boot floor', 'opened')
      .vary('Second look', [{ target: onGate('Boot floor', 'opened'), hours: 1 }])
      .decide('Second look', 'accepted')
    expect(gateHours(car, 'opened')).toMatchObject({ authorised: 3, earned: 3 })
  })

  it('come with a task that is signed', () => {
    const car = buildCar()
      .task('Cavity wax')
      .estimate(onTask('Cavity wax'), 4)
      .add('taskSigned', { taskId: taskId('Cavity wax'), did: [personId('Ines')], note: '' })
    expect(carHours(car.car(), first, context)).toEqual({ ...noHours, authorised: 4, earned: 4 })
  })

  it('of a gate that is not needed are given back and leave the authorised hours', () => {
    const car = agreed().notNeeded('Boot floor', 'sealed')
    expect(gateHours(car, 'sealed')).toEqual({ ...noHours, givenBack: 2 })
  })

  it('of gates left open at closed as found are given back', () => {
    const car = agreed()
      .passTo('Boot floor', 'assessed')
      .add('closedAsFound', {
        repairId: repairId('Boot floor'),
        variationId: null,
        attachments: [],
        protection: 'wax as far as it reaches',
        answer: 'leave it',
        cautionShown: false,
      })
    expect(carHours(car.car(), first, context)).toEqual({
      ...noHours,
      authorised: 4,
      earned: 4,
      givenBack: 12,
    })
  })

  it('of a retired repair keep what was spent and give back the rest', () => {
    const car = agreed()
      .log('a', 'Joss', day('2026-11-23', 1.5), [onGate('Boot floor', 'opened')])
      .add('repairRetired', { repairId: repairId('Boot floor'), reason: 'entered twice' })
    expect(carHours(car.car(), first, context)).toEqual({
      ...noHours,
      authorised: 1.5,
      earned: 1.5,
      spent: 1.5,
      givenBack: 14.5,
    })
  })

  it('follow the unspent hours of a merged repair into the other', () => {
    const car = agreed()
      .repair('Scuttle')
      .agree('Scuttle', 1)
      .log('a', 'Joss', day('2026-11-23', 0.5), [onGate('Boot floor', 'opened')])
      .add('repairsMerged', {
        repairId: repairId('Boot floor'),
        into: repairId('Scuttle'),
        moves: [{ gate: 'opened', hours: 1.5 }],
        reason: 'one cavity after all',
      })
    expect(gateHours(car, 'opened')).toMatchObject({ authorised: 0.5, earned: 0.5, givenBack: 0 })
    expect(gateHours(car, 'opened', 'Scuttle')).toMatchObject({ authorised: 2.5, earned: 0 })
  })
})

describe('spent hours', () => {
  const reopened = () =>
    buildCar()
      .repair('Boot floor')
      .agree('Boot floor')
      .at('2026-11-20T08:00')
      .passTo('Boot floor', 'welded')
      .log('a', 'Joss', span('2026-11-20T13:00', '2026-11-20T14:00'), [onGate('Boot floor', 'painted')])
      .at('2026-11-23T08:00')
      .reopen('Boot floor', 'trial-fitted')
      .at('2026-11-24T08:00')

  it('after a reopening are rework until the gate is passed again, by their cause', () => {
    const car = reopened()
      .log('b', 'Joss', span('2026-11-24T08:00', '2026-11-24T10:00'), [onGate('Boot floor', 'trial-fitted')])
      .log('c', 'Wren', span('2026-11-24T08:00', '2026-11-24T09:00'), [onGate('Boot floor', 'welded')], {
        cause: 'measurement',
      })
    expect(carHours(car.car(), first, context)).toMatchObject({ spent: 4, rework: 3 })
    const pieces = [...car.car().entries.values()].flatMap((entry) => entryPieces(car.car(), entry, context))
    expect(pieces.map(({ hours, rework }) => [hours, rework])).toEqual([
      [1, null],
      [2, 'fit'],
      [1, 'measurement'],
    ])
  })

  it('on a passed gate are rework, and those on the gate beside it are not', () => {
    const targets = [onGate('Boot floor', 'trial-fitted'), onGate('Boot floor', 'painted')]
    const car = reopened()
      .passTo('Boot floor', 'welded')
      .log('b', 'Joss', span('2026-11-25T08:00', '2026-11-25T10:00'), targets)
    expect(gateHours(car, 'trial-fitted')).toMatchObject({ spent: 1, rework: 1 })
    expect(gateHours(car, 'painted')).toMatchObject({ spent: 2, rework: 0 })
  })

  it('of a running clock follow the moment they are asked for', () => {
    const car = buildCar()
      .repair('Boot floor')
      .clock('a', 'Joss', '2026-11-25T08:40', [onGate('Boot floor', 'opened')])
      .car()
    const spentAt = (moment: string) =>
      carHours(car, first, { at: Date.parse(`${moment}:00Z`), workshop }).spent
    expect(spentAt('2026-11-25T09:40')).toBe(1)
    expect(spentAt('2026-11-25T10:40')).toBe(2)
    expect(spentAt('2026-11-25T09:40')).toBe(1)
  })
})

describe('a warranty visit', () => {
  const delivered = () =>
    buildCar()
      .repair('Boot floor')
      .agree('Boot floor', 2)
      .passTo('Boot floor', 'fabricated')
      .notNeeded('Boot floor', 'sealed')
      .passTo('Boot floor', 'painted')
      .log('a', 'Joss', day('2026-11-20', 15), [onGate('Boot floor', 'fabricated')])

  it('changes no figure of the old one', () => {
    const before = [...visitFigures(delivered().car(), first, context)]
    const car = delivered()
      .visit('warranty', { kind: 'warranty' })
      .reopen('Boot floor', 'primed')
      .estimate(onGate('Boot floor', 'primed'), 3, { payer: 'workshop' })
      .log('b', 'Wren', day('2026-11-24', 4), [onGate('Boot floor', 'primed')])
    expect([...visitFigures(car.car(), first, context)]).toEqual(before)
    expect(carHours(car.car(), visitId('warranty'), context)).toEqual({
      ...noHours,
      authorised: 3,
      spent: 4,
      rework: 4,
    })
    car.passTo('Boot floor', 'painted')
    expect(carHours(car.car(), visitId('warranty'), context).earned).toBe(3)
    expect([...visitFigures(car.car(), first, context)]).toEqual(before)
  })
})
