import { z } from 'zod'
import { contactBook } from '../../db/contacts.ts'
import { readEstimateHistory } from '../../db/finished-repairs.ts'
import { readCar, readWorkshop } from '../../db/reads.ts'
import { carIdSchema } from '../../domain/ids.ts'
import { refuse } from '../../domain/refusal.ts'
import type { HoursSheetView } from '../../domain/views/hours-sheet-shapes.ts'
import { hoursSheetView } from '../../domain/views/hours-sheet-view.ts'
import type { ApiServices } from './api-services.ts'
import { RefusedError } from './refused-error.ts'
import { procedure } from './trpc.ts'

const ofCar = z.strictObject({ carId: carIdSchema })

/** What the hours sheet of a car asks for. */
export function createHoursProcedures({ deps: { db, now } }: ApiServices) {
  return {
    hoursSheet: procedure.input(ofCar).query(({ input }): HoursSheetView => {
      const car = readCar(db, input.carId)
      if (car === null) throw new RefusedError(unknownCar)
      const workshop = readWorkshop(db)
      const { nameOf } = contactBook(db)
      return hoursSheetView({ now: now(), workshop, nameOf, car, history: readEstimateHistory(db) })
    }),
  }
}

const { refusal: unknownCar } = refuse(
  'unknown',
  'This car is not known here.',
  'Choose it from the list of cars.',
)
