import { z } from 'zod'
import { chainHead, readFacts, readWorkshopFacts } from '../../db/journal.ts'
import { readCarsOfAnswers, readCarsOfToday, readRestingCars, readWorkshop } from '../../db/reads.ts'
import { carIdSchema, personIdSchema, repairIdSchema, typeIdSchema } from '../../domain/ids.ts'
import { refuse } from '../../domain/refusal.ts'
import { carView } from '../../domain/views/car-view.ts'
import { carsView } from '../../domain/views/cars-view.ts'
import { daySheetView } from '../../domain/views/day-sheet-view.ts'
import { MOST_ANSWERED, ownerDecisionsView } from '../../domain/views/owner-decisions-view.ts'
import { recordView } from '../../domain/views/record-view.ts'
import { repairView } from '../../domain/views/repair-view.ts'
import { shopFloorView } from '../../domain/views/shop-floor-view.ts'
import { typeUseView } from '../../domain/views/type-use-view.ts'
import type { VariationView } from '../../domain/views/view-shapes.ts'
import type { ApiServices } from './api-services.ts'
import { isManagerHere } from './manager-here.ts'
import type { Asker } from './pairing.ts'
import { knownCar, requireCar, unknownRepair, viewInput } from './known-car.ts'
import { RefusedError } from './refused-error.ts'
import { procedure } from './trpc.ts'
import { catalogueView, sessionView, workshopView } from './workshop-views.ts'

const ofCar = z.strictObject({ carId: carIdSchema })
const ofRepair = z.strictObject({ carId: carIdSchema, repairId: repairIdSchema })
const ofType = z.strictObject({ typeId: typeIdSchema })
const ofPerson = z.strictObject({ personId: personIdSchema })
/** Null for the workshop's own record, which leaves out what links the heads of the cars' chains. */
const ofChain = z.strictObject({ carId: carIdSchema.nullable() })

/** What each screen shows, by the functions of domain/views. */
export function createViewProcedures(services: ApiServices) {
  const { deps, sessions } = services
  const { db } = deps
  const withMoneyFor = <View extends { readonly variations: readonly VariationView[] }>(
    asker: Asker,
    view: View,
  ): View => (isManagerHere(services, asker) ? view : { ...view, variations: withoutMoney(view.variations) })
  return {
    session: procedure.query(({ ctx }) => sessionView(services, ctx.asker)),
    workshop: procedure.query(({ ctx }) => workshopView(services, ctx.asker)),
    catalogue: procedure.query(() => catalogueView(services)),
    typeUse: procedure.input(ofType).query(({ input }) => {
      const type = readWorkshop(db).types.get(input.typeId)
      if (type === undefined) throw new RefusedError(unknownType)
      return typeUseView({ cars: readCarsOfToday(db, null), type })
    }),
    shopFloor: procedure.query(({ ctx }) => {
      const plan = deps.planner.status().newest?.plan ?? deps.planner.inForce()?.plan ?? null
      const by = sessions.person(ctx.asker.device.id)
      const cars = readCarsOfToday(db, deps.now() - SINCE_YESTERDAY_MS)
      return shopFloorView({ ...viewInput(deps), cars, by, plan })
    }),
    cars: procedure.query(() =>
      carsView({ ...viewInput(deps), cars: readCarsOfToday(db, null), resting: readRestingCars(db) }),
    ),
    car: procedure
      .input(ofCar)
      .query(({ input, ctx }) =>
        withMoneyFor(ctx.asker, carView({ ...viewInput(deps), car: knownCar(deps, input.carId) })),
      ),
    repair: procedure.input(ofRepair).query(({ input, ctx }) => {
      const car = knownCar(deps, input.carId)
      const view = repairView({ ...viewInput(deps), car, repairId: input.repairId })
      if (view === null) throw new RefusedError(unknownRepair)
      return withMoneyFor(ctx.asker, view)
    }),
    daySheet: procedure.input(ofPerson).query(({ input }) => {
      if (!readWorkshop(db).people.has(input.personId)) throw new RefusedError(unknownPerson)
      const plan = deps.planner.inForce()?.plan ?? null
      const cars = readCarsOfToday(db, deps.now() - SINCE_LAST_WEEK_MS)
      return daySheetView({ ...viewInput(deps), cars, personId: input.personId, plan })
    }),
    ownerDecisions: procedure.query(({ ctx }) => {
      const view = ownerDecisionsView({ ...viewInput(deps), cars: readCarsOfAnswers(db, MOST_ANSWERED) })
      if (isManagerHere(services, ctx.asker)) return view
      const { open, declined, answered } = view
      return {
        ...view,
        open: withoutMoney(open),
        declined: withoutMoney(declined),
        answered: withoutMoney(answered),
      }
    }),
    record: procedure.input(ofChain).query(({ input, ctx }) => {
      if (input.carId !== null) requireCar(deps, input.carId)
      const facts = input.carId === null ? readWorkshopFacts(db) : readFacts(db, input.carId)
      const showsMoney = isManagerHere(services, ctx.asker)
      return recordView({ ...viewInput(deps), facts, head: chainHead(db, input.carId), showsMoney })
    }),
  }
}

const MS_PER_DAY = 86_400_000
/** A day more than the views look back in any zone: to the start of today, and of this week. */
const SINCE_YESTERDAY_MS = 2 * MS_PER_DAY
const SINCE_LAST_WEEK_MS = 8 * MS_PER_DAY

/** Amounts of money are for managers. */
const withoutMoney = (variations: readonly VariationView[]): readonly VariationView[] =>
  variations.map((variation) => ({ ...variation, costs: null }))

const { refusal: unknownType } = refuse(
  'unknown',
  'This repair type is not known here.',
  'Choose it from the list of repair types.',
)
const { refusal: unknownPerson } = refuse(
  'unknown',
  'This person is not known here.',
  'Choose a person from the list.',
)
