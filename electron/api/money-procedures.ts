import { z } from 'zod'
import { contactBook } from '../../db/contacts.ts'
import { readCar, readWorkshop } from '../../db/reads.ts'
import { carIdSchema } from '../../domain/ids.ts'
import { refuse } from '../../domain/refusal.ts'
import { moneyView, ratesView } from '../../domain/views/money-view.ts'
import type { ApiServices } from './api-services.ts'
import { isManagerHere } from './is-manager-here.ts'
import type { Asker } from './pairing.ts'
import { RefusedError } from './refused-error.ts'
import { procedure } from './trpc.ts'

const ofCar = z.strictObject({ carId: carIdSchema })

/** Figures of money are answered to a manager who is signed in on the device, and to nobody else. */
export function createMoneyProcedures(services: ApiServices) {
  const { db, now } = services.deps
  const forManagers = (asker: Asker) => {
    if (!isManagerHere(services, asker)) throw new RefusedError(managersOnly)
    return { now: now(), workshop: readWorkshop(db), nameOf: contactBook(db).nameOf }
  }
  return {
    carMoney: procedure.input(ofCar).query(({ input, ctx }) => {
      const shown = forManagers(ctx.asker)
      const car = readCar(db, input.carId)
      if (car === null) throw new RefusedError(unknownCar)
      return moneyView({ ...shown, car })
    }),
    rates: procedure.query(({ ctx }) => ratesView(forManagers(ctx.asker))),
  }
}

const { refusal: managersOnly } = refuse(
  'not-allowed',
  'Figures of money are shown to managers only.',
  'Sign in with a manager’s code on this device.',
)
const { refusal: unknownCar } = refuse(
  'unknown',
  'This car is not known here.',
  'Choose it from the list of cars.',
)
