import { describe, expect, it } from 'vitest'
import { typeIdSchema } from '../../../domain/ids.ts'
import { hoursProposalView } from '../../../domain/views/hours-proposal-view.ts'
import { judged } from '../../support/judged.ts'
import { repairPlan } from '../../support/plans.ts'

const type = { id: typeIdSchema.parse('type-sill'), plan: repairPlan('Spring hanger') }

/** Finished repairs of the type that took an hour on each gate, and none on sealed. */
const finished = (count: number) =>
  Array.from({ length: count }, (_, at) => {
    const repair = judged(at + 1, 8)
    return { ...repair, gates: { ...repair.gates, sealed: { ...repair.gates.sealed, actual: 0 } } }
  })

describe('the hours proposed for a new repair', () => {
  const view = hoursProposalView(type, [...finished(5), judged(9, 80, { type: 'arch' })])

  it('say how many repairs of the type they rest on, and what they would change', () => {
    expect(view?.title).toBe('Take the hours of 5 finished spring hangers')
    expect(view?.words).toMatch(
      /^From the hours that 5 finished repairs .* By them it is \d+\.\d h \(.*\), by the type 16\.0 h \(8 to 24 h\)\. 1 gate keeps the type’s hours\.$/,
    )
  })

  it('take the place of the type’s, and leave the rest of its plan', () => {
    expect(view?.plan.gates.primed).toEqual({
      ...type.plan.gates.primed,
      hours: expect.objectContaining({ likely: 1 }),
    })
    expect(view?.plan.gates.sealed).toEqual(type.plan.gates.sealed)
    expect({ ...view?.plan, gates: type.plan.gates }).toEqual(type.plan)
  })

  it('are none where fewer than four of the type are finished: its own hours say more', () => {
    expect(hoursProposalView(type, finished(3))).toBeNull()
  })
})
