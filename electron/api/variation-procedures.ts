import { z } from 'zod'
import { contactBook } from '../../db/contacts.ts'
import { readFinishedRepairs } from '../../db/finished-repairs.ts'
import { readCar, readWorkshop } from '../../db/reads.ts'
import { gradeMultiples } from '../../domain/estimate/grade-multiples.ts'
import { carIdSchema, repairIdSchema, type CarId } from '../../domain/ids.ts'
import { refuse } from '../../domain/refusal.ts'
import {
  allBeyondAgreed,
  type DraftContext,
  type VariationDraft,
  variationDraft,
} from '../../domain/views/variation-draft.ts'
import { createViewContext } from '../../domain/views/view-context.ts'
import type { ApiServices } from './api-services.ts'
import { isManagerHere } from './is-manager-here.ts'
import { RefusedError } from './refused-error.ts'
import { procedure } from './trpc.ts'

const ofCar = z.strictObject({ carId: carIdSchema })
const ofRepair = ofCar.extend({ repairId: repairIdSchema })

/** What goes beyond what is agreed, and what may be put to the payer about it. */
export function createVariationProcedures(services: ApiServices) {
  const { db, now } = services.deps
  const contextOf = (): DraftContext => ({
    ...createViewContext({ now: now(), workshop: readWorkshop(db), nameOf: contactBook(db).nameOf }),
    multiples: gradeMultiples(readFinishedRepairs(db)),
  })
  const knownCar = (carId: CarId) => {
    const car = readCar(db, carId)
    if (car === null) throw new RefusedError(unknownCar)
    return car
  }
  return {
    beyondAgreed: procedure
      .input(ofCar)
      .query(({ input }) => allBeyondAgreed(knownCar(input.carId), contextOf())),
    variationDraft: procedure.input(ofRepair).query(({ input, ctx }): VariationDraft => {
      const draft = variationDraft(knownCar(input.carId), input.repairId, contextOf())
      if (draft === null) throw new RefusedError(unknownRepair)
      return isManagerHere(services, ctx.asker) ? draft : { ...draft, perHour: null }
    }),
  }
}

const { refusal: unknownCar } = refuse(
  'unknown',
  'This car is not known here.',
  'Choose it from the list of cars.',
)
const { refusal: unknownRepair } = refuse(
  'unknown',
  'This repair is not known on this car.',
  'Choose it from the car’s closing map.',
)
