import { describe, expect, it } from 'vitest'
import type { FinishedRepair } from '../../../domain/estimate/finished-repair.ts'
import { learnedHours, withLearnedHours } from '../../../domain/estimate/learned-hours.ts'
import type { Gate } from '../../../domain/gates.ts'
import { hoursProposalView } from '../../../domain/views/hours-proposal-view.ts'
import { expectedHours } from '../../../domain/value/estimated-hours.ts'
import { typeIdSchema } from '../../../domain/ids.ts'
import { judged } from '../../support/judged.ts'
import { repairPlan } from '../../support/plans.ts'

/** Finished repairs that took so many hours on one gate and an hour on each other. */
const took = (gate: Gate, hours: readonly number[]) =>
  hours.map((actual, at) => {
    const repair = judged(at + 1, 8)
    return { ...repair, gates: { ...repair.gates, [gate]: { ...repair.gates[gate], actual } } }
  })

const pointsOf = (own: readonly FinishedRepair[], gate: Gate) => learnedHours(own)?.gates.get(gate)

describe('hours learned from finished repairs', () => {
  it('expect the mean of what a gate took', () => {
    const points = pointsOf(took('fabricated', [4, 5, 6, 7, 8, 9, 10, 15]), 'fabricated')!
    expect(expectedHours(points)).toBeCloseTo(8, 0)
    expect(points.shortest).toBeLessThan(points.likely)
    expect(points.likely).toBeLessThan(points.longest)
  })

  it('leave more open than the few that are known', () => {
    const { shortest, likely, longest } = pointsOf(took('fabricated', [8, 8, 8, 8]), 'fabricated')!
    expect(shortest).toBeLessThan(7)
    expect(likely).toBeCloseTo(8, 0)
    expect(longest).toBeGreaterThan(9)
  })

  it('go by the order of many, between what nearly all stayed over and under', () => {
    const hours = Array.from({ length: 40 }, (_, at) => 5 + at / 4)
    const { shortest, longest } = pointsOf(took('fabricated', hours), 'fabricated')!
    // A twentieth of 40 from either end: between the second and third of them.
    expect(shortest).toBeGreaterThanOrEqual(5.25)
    expect(shortest).toBeLessThanOrEqual(5.75)
    expect(longest).toBeGreaterThanOrEqual(14)
    expect(longest).toBeLessThanOrEqual(14.5)
  })

  it('are told in quarters of an hour, and never none', () => {
    const points = pointsOf(took('welded', [0.1, 0.1, 0.1, 3.3]), 'welded')!
    for (const hours of Object.values(points)) expect(hours * 4).toBe(Math.round(hours * 4))
    expect(points.shortest).toBeGreaterThan(0)
  })

  it('keep their order where a few took very long', () => {
    const { shortest, likely, longest } = pointsOf(took('opened', [1, 1, 1, 1, 1, 40]), 'opened')!
    expect(shortest).toBeLessThanOrEqual(likely)
    expect(likely).toBeLessThanOrEqual(longest)
  })

  it('leave out what fewer than four needed, and say nothing of fewer than four repairs', () => {
    const own = took('sealed', [0, 0, 2, 2, 2])
    expect(pointsOf(own, 'sealed')).toBeUndefined()
    expect(pointsOf(own, 'primed')).toMatchObject({ likely: 1 })
    expect(learnedHours(own.slice(0, 3))).toBeNull()
  })

  it('take the place of the type’s hours and leave the rest of its plan', () => {
    const plan = repairPlan('Sill')
    const own = took('sealed', [0, 0, 6, 6, 6])
    const learned = withLearnedHours(plan, learnedHours(own)!)
    expect(learned.gates.sealed).toEqual(plan.gates.sealed)
    expect(learned.gates.primed).toEqual({
      ...plan.gates.primed,
      hours: pointsOf(own, 'primed'),
    })
    expect({ ...learned, gates: plan.gates }).toEqual(plan)
  })
})

describe('the proposal for a new repair', () => {
  const type = { id: typeIdSchema.parse('type-sill'), plan: repairPlan('Spring hanger') }

  it('says how many repairs it rests on and what it would change', () => {
    const view = hoursProposalView(type, [
      ...took('sealed', [0, 0, 6, 6, 6]),
      judged(9, 80, { type: 'arch' }),
    ])
    expect(view?.title).toBe('Take the hours of 5 finished spring hangers')
    expect(view?.words).toBe(
      'By them it is 9.0 h (6 to 12 h), rework among it; by the type 16.0 h (8 to 24 h). 1 gate keeps the type’s hours.',
    )
  })

  it('is none where too few of the type are finished', () => {
    expect(hoursProposalView(type, took('sealed', [1, 2, 3]))).toBeNull()
  })
})
