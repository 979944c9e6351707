import { z } from 'zod'
import { readEstimateHistory, readFinishedRepairs } from '../../db/finished-repairs.ts'
import { readCar } from '../../db/reads.ts'
import { carIdSchema, type CarId } from '../../domain/ids.ts'
import { ok, type Result } from '../../domain/refusal.ts'
import type { EstimateView } from '../../domain/views/estimate-shapes.ts'
import { estimateView, type EstimateInput } from '../../domain/views/estimate-view.ts'
import type { ApiServices } from './api-services.ts'
import type { ApiDeps } from './deps.ts'
import { unknownCar, viewInput } from './known-car.ts'
import { RefusedError } from './refused-error.ts'
import { procedure } from './trpc.ts'

const ofCar = z.strictObject({ carId: carIdSchema })

/** What the estimate sheet of a car asks for. */
export function createEstimateProcedures({ deps }: ApiServices) {
  return {
    estimate: procedure.input(ofCar).query(({ input }): EstimateView => {
      const found = estimateInput(deps, input.carId)
      if (!found.ok) throw new RefusedError(found.refusal)
      return estimateView(found.value)
    }),
  }
}

/** All that a car's estimate is told from. */
export function estimateInput(deps: ApiDeps, carId: CarId): Result<EstimateInput> {
  const { db } = deps
  const car = readCar(db, carId)
  if (car === null) return unknownCar
  return ok({
    ...viewInput(deps),
    car,
    finished: readFinishedRepairs(db),
    history: readEstimateHistory(db),
  })
}
