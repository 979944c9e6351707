import { describe, expect, it } from 'vitest'
import { hiddenMultiples } from '../../../domain/estimate/hidden-multiples.ts'
import { hiddenMultipliers, repairBand } from '../../../domain/estimate/repair-band.ts'
import { repairToEstimate } from '../../../domain/estimate/repair-to-estimate.ts'
import { buildCar, repairId } from '../../support/car-builder.ts'
import { judged } from '../../support/judged.ts'
import { buildWorkshop } from '../../support/workshop-builder.ts'
import { createEstimateHistory } from '../../support/estimate-history.ts'

const CONTEXT = { at: Date.parse('2027-03-01T08:00:00Z'), workshop: buildWorkshop() }
const history = createEstimateHistory(Array.from({ length: 6 }, (_, at) => judged(at + 1, 14)))

describe('what the planner draws hidden work by', () => {
  const car = buildCar().repair('Sill').agree('Sill', 2).repair('Arch').agree('Arch', 2)
  const state = car.passTo('Arch', 'assessed').car()

  it('is what the estimate says of a repair that is not assessed, and nothing once it is', () => {
    const hidden = hiddenMultiples([state], new Set(), history, CONTEXT)
    const sill = repairToEstimate(state, state.repairs.get(repairId('Sill'))!, '', CONTEXT)
    expect([...hidden.keys()]).toEqual([repairId('Sill')])
    expect(hidden.get(repairId('Sill'))).toEqual(hiddenMultipliers(repairBand(history, sill)!))
  })

  it('is told of assessed repairs too where another car is to be like theirs', () => {
    const hidden = hiddenMultiples([state], new Set([state.id]), history, CONTEXT)
    expect([...hidden.keys()]).toEqual([repairId('Sill'), repairId('Arch')])
    expect(hidden.get(repairId('Arch'))).toEqual(hidden.get(repairId('Sill')))
  })

  it('follows the history: where repairs took half as much again, hidden work is drawn longer', () => {
    const none = hiddenMultiples([state], new Set(), createEstimateHistory([]), CONTEXT)
    const learned = hiddenMultiples([state], new Set(), history, CONTEXT)
    const middle = (tables: typeof none): number => tables.get(repairId('Sill'))?.at(12) ?? 0
    expect(middle(learned)).toBeGreaterThan(middle(none))
  })
})
