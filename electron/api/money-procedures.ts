import { z } from 'zod'
import { carIdSchema } from '../../domain/ids.ts'
import { moneyView, ratesView } from '../../domain/views/money-view.ts'
import type { ApiServices } from './api-services.ts'
import { knownCar, viewInput } from './known-car.ts'
import { procedure } from './trpc.ts'

const ofCar = z.strictObject({ carId: carIdSchema })

/** Figures of money are answered to a manager who is signed in on the device, and to nobody else. */
export function createMoneyProcedures({ deps }: ApiServices) {
  return {
    carMoney: procedure
      .input(ofCar)
      .query(({ input }) => moneyView({ ...viewInput(deps), car: knownCar(deps, input.carId) })),
    rates: procedure.query(() => ratesView(viewInput(deps))),
  }
}
