import { describe, expect, it } from 'vitest'
import type { PayloadOf } from '../../../domain/facts.ts'
import { MULTIPLE_PRIOR } from '../../../domain/estimate/grade-multiples.ts'
import { costIdSchema, findingIdSchema, partIdSchema } from '../../../domain/ids.ts'
import { allBeyondAgreed, variationDraft } from '../../../domain/views/variation-draft.ts'
import { createViewContext } from '../../../domain/views/view-context.ts'
import {
  buildCar,
  type CarBuilder,
  onGate,
  repairId,
  variationId,
  visitId,
} from '../../support/car-builder.ts'
import { layerId, type RepairPlanOver } from '../../support/plans.ts'
import { graded } from '../../support/report-cases.ts'
import { buildWorkshop, nameOf } from '../../support/workshop-builder.ts'
import { createEstimateHistory } from '../../support/estimate-history.ts'

const now = Date.parse('2026-11-25T10:40:00Z')
const { multiples } = createEstimateHistory([])
const context = { ...createViewContext({ now, workshop: buildWorkshop(), nameOf }), multiples }
const draftOf = (builder: CarBuilder, name = 'Boot floor') =>
  variationDraft(builder.car(), repairId(name), context)!

/** Agreed at 2 h a gate and assessed; its plan is what `plan` says. */
const assessed = (plan: RepairPlanOver = {}) =>
  buildCar().repair('Boot floor', plan).agree('Boot floor').passTo('Boot floor', 'assessed')

const grown: RepairPlanOver = {
  gates: {
    fabricated: { hours: { shortest: 6, likely: 8, longest: 13 } },
    welded: { hours: { shortest: 1, likely: 3, longest: 4.25 } },
  },
}

const finding = (id: string, over: Partial<PayloadOf<'findingAdded'>> = {}) => ({
  findingId: findingIdSchema.parse(`finding-${id}`),
  repairId: repairId('Boot floor'),
  layerId: layerId('Boot floor', 'inner'),
  kind: 'corrosion' as const,
  grade: 'holed' as const,
  extent: '240 mm along the flange.',
  needs: 'A section 240 mm longer',
  attachments: [],
  ...over,
})

describe('the work of an assessed repair', () => {
  it('goes beyond what is agreed where its estimate lies above it, gate by gate', () => {
    const { lines, beyond } = draftOf(assessed(grown))
    // (6 + 4 x 8 + 13) / 6 = 8.5 and (1 + 4 x 3 + 4.25) / 6 = 2.875, less 2 h agreed, in quarters.
    expect(lines).toEqual([
      { gate: 'fabricated', low: 4, likely: 6.5, high: 11 },
      { gate: 'welded', low: 0, likely: 1, high: 2.25 },
    ])
    expect(beyond).toMatchObject({
      hours: 7.5,
      words: 'The work goes beyond what is agreed, most likely by 7.5 h.',
    })
    expect(allBeyondAgreed(assessed(grown).car(), context).map(({ name }) => name)).toEqual(['Boot floor'])
  })

  it('goes beyond it by the worst grade that was hidden, until its figures are set again', () => {
    const opened = buildCar().repair('Boot floor').agree('Boot floor').passTo('Boot floor', 'opened')
    const holed = graded(graded(opened, 'Boot floor', 'inner', 'holed'), 'Boot floor', 'closing', 'sound')
    holed.passTo('Boot floor', 'assessed')
    // Six gates of 1, 2 and 3 h, agreed at 2 h each: 1.3 times as much, in quarters of an hour.
    expect(MULTIPLE_PRIOR.holed).toBe(1.3)
    expect(draftOf(holed).lines).toHaveLength(6)
    expect(draftOf(holed).lines[0]).toEqual({ gate: 'fabricated', low: 0, likely: 0.5, high: 2 })
    expect(draftOf(holed).beyond?.hours).toBe(3)
    holed.vary('Patch', [{ target: onGate('Boot floor', 'fabricated'), hours: 0.5 }])
    holed.decide('Patch', 'accepted')
    expect(draftOf(holed)).toMatchObject({ beyond: null, lines: [] })
  })

  it('is drafted once it is assessed, not before', () => {
    const opened = buildCar().repair('Boot floor', grown).agree('Boot floor').passTo('Boot floor', 'opened')
    expect(draftOf(opened)).toMatchObject({ beyond: null, lines: [] })
  })

  it('within what is agreed asks for nothing', () => {
    const nothing = { beyond: null, lines: [], findings: [], title: '', why: '', ifNot: '' }
    expect(draftOf(assessed())).toMatchObject(nothing)
  })

  it('on gates that are done is not asked for any more', () => {
    const car = assessed(grown).passTo('Boot floor', 'fabricated')
    expect(draftOf(car).lines.map(({ gate }) => gate)).toEqual(['welded'])
  })

  it('that waits for an answer, or was declined, is not put twice', () => {
    const car = assessed(grown).vary('More', [{ target: onGate('Boot floor', 'fabricated'), hours: 2 }])
    expect(draftOf(car)).toMatchObject({ beyond: null })
    expect(draftOf(car).lines[0]).toEqual({ gate: 'fabricated', low: 2, likely: 4.5, high: 9 })
    car.decide('More', 'declined')
    expect(draftOf(car).beyond).toBeNull()
  })

  it('is asked for again as far as an accepted variation leaves it uncovered', () => {
    const car = assessed(grown)
      .vary('More', [{ target: onGate('Boot floor', 'fabricated'), hours: 5 }])
      .decide('More', 'accepted')
    expect(draftOf(car).beyond?.hours).toBe(2.5)
  })

  it('is not drafted on a car that is finished', () => {
    const car = assessed(grown).add('visitStatusSet', {
      visitId: visitId('first'),
      status: 'finished',
      reason: '',
    })
    expect(draftOf(car).beyond).toBeNull()
  })
})

describe('a draft tells', () => {
  it('the findings that no variation names', () => {
    const car = assessed().add('findingAdded', finding('old')).add('findingAdded', finding('new'))
    car.add('variationRaised', {
      variationId: variationId('Old'),
      visitId: visitId('first'),
      payer: 'owner',
      title: 'Old',
      why: 'found',
      ifNot: '',
      findings: [findingIdSchema.parse('finding-old')],
      attachments: [],
      lines: [{ target: onGate('Boot floor', 'fabricated'), hours: 1, low: 1, high: 1 }],
      costs: [],
    })
    car.decide('Old', 'accepted')
    expect(draftOf(car)).toMatchObject({
      findings: ['finding-new'],
      beyond: { hours: 0, words: 'A finding has not been put to its payer.' },
    })
    car.add('findingAdded', finding('third'))
    expect(draftOf(car).beyond?.words).toBe('2 findings have not been put to their payer.')
  })

  it('nothing of what was found before new metal was let in, and all that was found after', () => {
    const car = assessed().add('findingAdded', finding('before')).passTo('Boot floor', 'fabricated')
    expect(draftOf(car)).toMatchObject({ beyond: null, findings: [] })
    expect(draftOf(car.add('findingAdded', finding('after'))).findings).toEqual(['finding-after'])
  })

  it('what was found and what it needs, and heads the letter with it', () => {
    expect(draftOf(assessed().add('findingAdded', finding('one')))).toMatchObject({
      title: 'Boot floor: a section 240 mm longer',
      why: 'On the inner panel we found rust: 240 mm along the flange. The metal there is holed: rusted through in places. What it needs: a section 240 mm longer.',
    })
    const two = assessed().add('findingAdded', finding('one'))
    two.add(
      'findingAdded',
      finding('two', { layerId: null, kind: 'crack', grade: 'sound', extent: '40 mm', needs: 'a plug weld' }),
    )
    expect(draftOf(two).title).toBe('Boot floor: more work than was agreed')
    expect(draftOf(two).why.split('\n')[1]).toBe(
      'In the boot floor we found a crack: 40 mm. What it needs: a plug weld.',
    )
  })

  it('the layers that need new metal, where there is no finding', () => {
    const car = buildCar().repair('Boot floor', grown).agree('Boot floor').passTo('Boot floor', 'opened')
    graded(graded(car, 'Boot floor', 'inner', 'holed'), 'Boot floor', 'closing', 'surface')
    car.passTo('Boot floor', 'assessed')
    expect(draftOf(car).why).toBe(
      'The inner panel is holed: rusted through in places. We will make a new one.',
    )
  })

  it('what happens if it is not done: by the worst grade, what it carries and what waits for it', () => {
    const car = buildCar()
      .repair('Boot floor', { loadBearing: true })
      .repair('Rear panel')
      .repair('Chassis leg')
      .cover('Rear panel', 'Boot floor')
      .cover('Boot floor', 'Chassis leg')
      .add('findingAdded', finding('one', { grade: 'gone' }))
    expect(draftOf(car).ifNot).toBe(
      'There is nothing sound left to weld new metal to, and the rust goes on where nobody can see it. It is load-bearing metal: it would not carry what it was made to carry, and we may have to refuse to close it as it is. Until it is decided, the rear panel stays open, because it lies over it. It covers the chassis leg: water that comes in here reaches that metal again.',
    )
    const plain = buildCar()
      .repair('Boot floor')
      .add('findingAdded', finding('one', { grade: 'pitted' }))
    expect(draftOf(plain).ifNot).toBe(
      'The metal goes on rusting behind the closed metal, and what is thin now will be holed later.',
    )
  })

  it('the parts that are needed and that no cost names, each once', () => {
    const part = (name: string) => ({
      partId: partIdSchema.parse(`part-${name.toLowerCase()}`),
      repairId: repairId('Boot floor'),
      gate: 'fabricated' as const,
      name,
    })
    const car = assessed().add('partNeeded', part('Flange')).add('partNeeded', part('Bracket'))
    car.add('costsSet', {
      visitId: visitId('first'),
      costs: [
        {
          costId: costIdSchema.parse('cost-bracket'),
          repairId: repairId('Boot floor'),
          kind: 'part',
          name: 'bracket',
          amount: 2_000,
          payer: 'owner',
        },
      ],
    })
    expect(draftOf(car).parts).toEqual(['Flange'])
  })

  it('what an hour costs today, by the skill of the gate', () => {
    const rates = { from: '2026-01-01', usual: 6_000, bySkill: [{ skill: 'welding', perHour: 7_500 }] }
    const workshop = buildWorkshop((add) => add('ratesSet', rates))
    const car = assessed({ gates: { welded: { skill: 'welding' } } }).car()
    const { perHour } = variationDraft(car, repairId('Boot floor'), {
      ...createViewContext({ now, workshop, nameOf }),
      multiples,
    })!
    expect([perHour?.fabricated, perHour?.welded]).toEqual([6_000, 7_500])
    expect(draftOf(assessed()).perHour?.fabricated).toBeNull()
  })
})
