import { z } from 'zod'
import { readEstimateHistory } from '../../db/finished-repairs.ts'
import { carIdSchema, repairIdSchema } from '../../domain/ids.ts'
import {
  allBeyondAgreed,
  type DraftContext,
  type VariationDraft,
  variationDraft,
} from '../../domain/views/variation-draft.ts'
import { createViewContext } from '../../domain/views/view-context.ts'
import type { ApiServices } from './api-services.ts'
import { knownCar, unknownRepair, viewInput } from './known-car.ts'
import { isManagerHere } from './manager-here.ts'
import { RefusedError } from './refused-error.ts'
import { procedure } from './trpc.ts'

const ofCar = z.strictObject({ carId: carIdSchema })
const ofRepair = ofCar.extend({ repairId: repairIdSchema })

/** What goes beyond what is agreed, and what may be put to the payer about it. */
export function createVariationProcedures(services: ApiServices) {
  const { db } = services.deps
  const contextOf = (): DraftContext => ({
    ...createViewContext(viewInput(services.deps)),
    multiples: readEstimateHistory(db).multiples,
  })
  return {
    beyondAgreed: procedure
      .input(ofCar)
      .query(({ input }) => allBeyondAgreed(knownCar(services.deps, input.carId), contextOf())),
    variationDraft: procedure.input(ofRepair).query(({ input, ctx }): VariationDraft => {
      const draft = variationDraft(knownCar(services.deps, input.carId), input.repairId, contextOf())
      if (draft === null) throw new RefusedError(unknownRepair)
      return isManagerHere(services, ctx.asker) ? draft : { ...draft, perHour: null }
    }),
  }
}
