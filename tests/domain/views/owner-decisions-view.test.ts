import { describe, expect, it } from 'vitest'
import { costIdSchema } from '../../../domain/ids.ts'
import { ownerDecisionsView } from '../../../domain/views/owner-decisions-view.ts'
import {
  buildCar,
  type CarBuilder,
  onGate,
  repairId,
  variationId,
  visitId,
} from '../../support/car-builder.ts'
import { buildWorkshop, nameOf } from '../../support/workshop-builder.ts'

const now = Date.parse('2026-11-25T10:40:00Z')
const workshop = buildWorkshop()
const viewOf = (builder: CarBuilder) => ownerDecisionsView({ cars: [builder.car()], now, workshop, nameOf })
const titles = (variations: readonly { readonly title: string }[]) => variations.map(({ title }) => title)

const lines = [{ target: onGate('Boot floor', 'fabricated'), hours: 3 }]
const withRepair = () => buildCar().repair('Boot floor')

describe('owner decisions', () => {
  it('stay open until they are answered, the longest waiting first', () => {
    const car = withRepair().vary('Corner', lines).vary('Edge', lines)
    expect(titles(viewOf(car).open)).toEqual(['Corner', 'Edge'])
    car.decide('Corner', 'accepted')
    expect(titles(viewOf(car).open)).toEqual(['Edge'])
    expect(titles(viewOf(car).answered)).toEqual(['Corner'])
  })

  it('show the day on which the answer is expected, once it is named', () => {
    const car = withRepair().vary('Corner', lines)
    expect(viewOf(car).open[0]!.expected).toBeNull()
    car.add('decisionExpected', { variationId: variationId('Corner'), expected: '2026-12-04' })
    expect(viewOf(car).open[0]!.expected).toBe('2026-12-04')
  })

  it('show what was asked beside what was accepted, in hours and money', () => {
    const costId = costIdSchema.parse('cost-plate')
    const target = onGate('Boot floor', 'fabricated')
    const car = withRepair()
      .add('variationRaised', {
        variationId: variationId('Corner'),
        visitId: visitId('first'),
        payer: 'owner',
        title: 'Corner',
        why: 'holed',
        ifNot: '',
        findings: [],
        attachments: [],
        lines: [
          { target, hours: 6, low: 4, high: 11 },
          { target: onGate('Boot floor', 'welded'), hours: 2, low: 1, high: 3 },
        ],
        costs: [{ costId, repairId: null, kind: 'part', name: 'Plate', amount: 9_000 }],
      })
      .add('variationDecided', {
        variationId: variationId('Corner'),
        decision: 'accepted',
        changed: { lines: [{ target, hours: 4 }], costs: [{ costId, amount: 8_000 }] },
        how: 'call',
        note: '',
      })
    expect(viewOf(car).answered[0]).toMatchObject({
      changed: true,
      decidedBy: 'Mara',
      hours: 4,
      asked: { low: 5, likely: 8, high: 14 },
      lines: [
        { hours: 4, asked: { low: 4, likely: 6, high: 11 } },
        { hours: 0, asked: { likely: 2 } },
      ],
      costs: [{ name: 'Plate', asked: 9_000, amount: 8_000 }],
    })
  })

  it('once declined wait for the manager to choose', () => {
    const car = withRepair().vary('Corner', lines).decide('Corner', 'declined')
    expect(titles(viewOf(car).declined)).toEqual(['Corner'])
    car.add('declinedSettled', {
      variationId: variationId('Corner'),
      choice: 'less work',
      reason: 'a patch will do',
    })
    expect(titles(viewOf(car).declined)).toEqual([])
    expect(viewOf(car).answered).toMatchObject([{ status: 'less work', settledReason: 'a patch will do' }])
  })

  it('declined and closed as found are answered', () => {
    const car = withRepair()
      .vary('Corner', lines)
      .decide('Corner', 'declined')
      .add('closedAsFound', {
        repairId: repairId('Boot floor'),
        variationId: variationId('Corner'),
        attachments: [],
        protection: 'wax',
        answer: 'leave it',
        cautionShown: false,
      })
    expect(titles(viewOf(car).declined)).toEqual([])
    expect(titles(viewOf(car).answered)).toEqual(['Corner'])
  })

  it('stopped stay with the manager', () => {
    const car = withRepair()
      .vary('Corner', lines)
      .decide('Corner', 'declined')
      .add('declinedSettled', {
        variationId: variationId('Corner'),
        choice: 'stopped',
        reason: 'load-bearing',
      })
    expect(titles(viewOf(car).declined)).toEqual(['Corner'])
  })
})

describe('estimates that are not accepted', () => {
  const estimated = () =>
    withRepair()
      .estimate(onGate('Boot floor', 'opened'), 2, { accepted: false })
      .estimate(onGate('Boot floor', 'assessed'), 1, { accepted: false })
      .estimate(onGate('Boot floor', 'fabricated'), 6, { accepted: false, payer: 'insurer' })
      .estimate(onGate('Boot floor', 'sealed'), 1)

  it('are shown by payer with their hours', () => {
    expect(viewOf(estimated()).unaccepted.map(({ payer, hours, lines: of }) => [payer, hours, of])).toEqual([
      ['owner', 3, 2],
      ['insurer', 6, 1],
    ])
  })

  it('leave out gates that are done and cars that are delivered', () => {
    const car = estimated().notNeeded('Boot floor', 'fabricated').pass('Boot floor', 'opened')
    expect(viewOf(car).unaccepted.map(({ payer, hours }) => [payer, hours])).toEqual([['owner', 1]])
    car.add('visitStatusSet', { visitId: visitId('first'), status: 'delivered', reason: '' })
    expect(viewOf(car).unaccepted).toEqual([])
  })
})
