import { expect, test } from 'vitest'
import { QUICK_BUDGET } from '../../../domain/plan/plan-budget.ts'
import { readPlanRequest } from '../../../electron/plan/plan-requests.ts'
import { readEstimateHistory } from '../../../db/finished-repairs.ts'
import { readWorkshop } from '../../../db/reads.ts'
import { hiddenMultipliers, repairBand } from '../../../domain/estimate/repair-band.ts'
import { repairToEstimate } from '../../../domain/estimate/repair-to-estimate.ts'
import { repairId } from '../../support/car-builder.ts'
import { finishRepair } from '../../support/finish-repair.ts'
import { addRepair, bringInLarkspur } from '../../support/larkspur.ts'
import { createWorkshop } from '../../support/workshop.ts'

test('the planner draws what repairs hide by what their estimates say, also once it is copied to its worker', () => {
  const workshop = createWorkshop()
  const carId = bringInLarkspur(workshop)
  for (const name of ['One', 'Two', 'Three', 'Four', 'Sill', 'Arch']) addRepair(workshop, carId, name)
  for (const name of ['One', 'Two', 'Three', 'Four']) finishRepair(workshop, carId, repairId(name), 40)
  const { db, now } = workshop
  const request = readPlanRequest(db, { now, inForce: null, whatIfs: [], budget: QUICK_BUDGET })
  const { hidden } = structuredClone(request).input
  expect([...hidden.keys()]).toEqual([repairId('Sill'), repairId('Arch')])
  const car = workshop.car(carId)
  const sill = car.repairs.get(repairId('Sill'))!
  const context = { at: now, workshop: readWorkshop(db) }
  const band = repairBand(readEstimateHistory(db), repairToEstimate(car, sill, '', context))!
  expect(band.rests.others).toBe(4)
  expect(hidden.get(sill.id)).toEqual(hiddenMultipliers(band))
})
