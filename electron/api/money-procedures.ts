import { z } from 'zod'
import { carIdSchema } from '../../domain/ids.ts'
import { refuse } from '../../domain/refusal.ts'
import { moneyView, ratesView } from '../../domain/views/money-view.ts'
import type { ApiServices } from './api-services.ts'
import { knownCar, viewInput } from './known-car.ts'
import { requireManagerHere } from './manager-here.ts'
import type { Asker } from './pairing.ts'
import { procedure } from './trpc.ts'

const ofCar = z.strictObject({ carId: carIdSchema })

/** Figures of money are answered to a manager who is signed in on the device, and to nobody else. */
export function createMoneyProcedures(services: ApiServices) {
  const { deps } = services
  const forManagers = (asker: Asker) => {
    requireManagerHere(services, asker, managersOnly)
    return viewInput(deps)
  }
  return {
    carMoney: procedure.input(ofCar).query(({ input, ctx }) => {
      const shown = forManagers(ctx.asker)
      return moneyView({ ...shown, car: knownCar(deps, input.carId) })
    }),
    rates: procedure.query(({ ctx }) => ratesView(forManagers(ctx.asker))),
  }
}

const { refusal: managersOnly } = refuse(
  'not-allowed',
  'Figures of money are shown to managers only.',
  'Sign in with a manager’s code on this device.',
)
