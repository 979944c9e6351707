import { z } from 'zod'
import { readEstimateHistory } from '../../db/finished-repairs.ts'
import { carIdSchema } from '../../domain/ids.ts'
import type { HoursSheetView } from '../../domain/views/hours-sheet-shapes.ts'
import { hoursSheetView } from '../../domain/views/hours-sheet-view.ts'
import type { ApiServices } from './api-services.ts'
import { knownCar, viewInput } from './known-car.ts'
import { procedure } from './trpc.ts'

const ofCar = z.strictObject({ carId: carIdSchema })

/** What the hours sheet of a car asks for. */
export function createHoursProcedures({ deps }: ApiServices) {
  return {
    hoursSheet: procedure.input(ofCar).query(({ input }): HoursSheetView => {
      const car = knownCar(deps, input.carId)
      return hoursSheetView({ ...viewInput(deps), car, history: readEstimateHistory(deps.db) })
    }),
  }
}
