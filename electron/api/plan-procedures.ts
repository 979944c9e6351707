import { z } from 'zod'
import { contactBook } from '../../db/contacts.ts'
import { planHistory } from '../../db/plans.ts'
import { readCarNames, readCarsWith, readWorkshop } from '../../db/reads.ts'
import type { CarState } from '../../domain/car.ts'
import { carIdSchema, type CarId } from '../../domain/ids.ts'
import { comparePlans } from '../../domain/plan/compare-plans.ts'
import { whatIfSchema, type Plan, type WhatIf } from '../../domain/plan/plan.ts'
import { isSamePlan } from '../../domain/plan/plan-changes.ts'
import { refuse, refusalWords } from '../../domain/refusal.ts'
import { planView } from '../../domain/views/plan-view.ts'
import type { PlanHistoryRow, PlanView, WhatIfAnswer } from '../../domain/views/plan-view-shapes.ts'
import { nameIdsInWords } from '../../domain/views/record-names.ts'
import type { ApiServices } from './api-services.ts'
import type { ApiDeps } from './deps.ts'
import type { Asker } from './pairing.ts'
import { requireCar } from './known-car.ts'
import { RefusedError } from './refused-error.ts'
import { procedure } from './trpc.ts'

const ofCar = z.strictObject({ carId: carIdSchema })
const whatIfsSchema = z.strictObject({
  whatIfs: z
    .array(whatIfSchema)
    .min(1, 'Say what should be tried.')
    .max(10, 'At most ten things can be tried at once.'),
})

/** What the Plan screen asks for; the plan is taken by a command like any other. */
export function createPlanProcedures({ deps }: ApiServices) {
  const { db, planner } = deps
  return {
    plan: procedure.query((): PlanView => {
      planner.look()
      return currentPlanView(deps)
    }),

    /** How a car's finish has moved from kept plan to kept plan, and why. */
    planHistory: procedure.input(ofCar).query(({ input }): readonly PlanHistoryRow[] => {
      requireCar(deps, input.carId)
      const { nameOf } = contactBook(db)
      return planHistory(db, input.carId).map((row) => ({ ...row, cause: nameIdsInWords(row.cause, nameOf) }))
    }),

    /** A mutation only because it may take long: it changes nothing. */
    tryWhatIf: procedure
      .input(whatIfsSchema)
      .mutation(({ input, ctx }): Promise<WhatIfAnswer> => tryWhatIf(deps, ctx.asker, input.whatIfs)),
  }
}

function currentPlanView({ db, planner, now }: ApiDeps): PlanView {
  const workshop = readWorkshop(db)
  const { nameOf } = contactBook(db)
  const { state, newest } = planner.status()
  const inForce = planner.inForce()
  const planned = new Set(
    [inForce?.plan, newest?.plan]
      .flatMap((plan) => [...(plan?.cars ?? []), ...(plan?.stays ?? [])])
      .map(({ carId }) => carId),
  )
  const places = new Map(readCarNames(db).map(({ id }, place) => [id, place]))
  const isNew = newest !== null && (inForce === null || !isSamePlan(inForce.plan, newest.plan, workshop.zone))
  return planView({
    now: now(),
    workshop,
    nameOf,
    cars: readCarsWith(db, ({ header }) => planned.has(header.id)).toSorted(
      (a, b) => addedAt(a) - addedAt(b),
    ),
    placeOf: (carId) => places.get(carId) ?? 0,
    state,
    inForce: inForce && {
      ...inForce,
      takenBy: inForce.takenBy === null ? 'the planner' : nameOf(inForce.takenBy),
    },
    proposal: isNew ? newest : null,
  })
}

/** Journal number. */
const addedAt = ({ visits }: CarState): number => [...visits.values()][0]?.opened.number ?? 0

async function tryWhatIf(
  { db, planner }: ApiDeps,
  { device }: Asker,
  whatIfs: readonly WhatIf[],
): Promise<WhatIfAnswer> {
  const base = planner.status().newest?.plan ?? planner.inForce()?.plan ?? null
  if (base === null) throw new RefusedError(noPlanYet)
  const tried = await planner.tryWhatIf(device.id, whatIfs)
  if (tried.ok) return compareTried(db, base, tried.value, whatIfs)
  if (tried.refusal.code === 'changed-meanwhile') throw new RefusedError(tried.refusal)
  const words = refusalWords(tried.refusal)
  return { ...compareTried(db, base, base, whatIfs), words }
}

function compareTried(db: ApiDeps['db'], base: Plan, plan: Plan, whatIfs: readonly WhatIf[]): WhatIfAnswer {
  const names = new Map(readCarNames(db).map(({ id, name }) => [id, name]))
  const newNames = whatIfs.flatMap((whatIf) => (whatIf.kind === 'new car' ? [whatIf.name] : []))
  const newCars = plan.cars.map(({ carId }) => carId).filter((carId) => !names.has(carId))
  newCars.forEach((carId, index) => names.set(carId, newNames[index] ?? 'a new car'))
  const by = { zone: readWorkshop(db).zone, nameOf: (id: CarId) => names.get(id) ?? 'a car' }
  return { ...comparePlans(base, plan, by), whatIfs, plan, words: '' }
}

const { refusal: noPlanYet } = refuse(
  'not-now',
  'The first plan is still being made.',
  'Try again in a moment.',
)
