import { z } from 'zod'
import {
  readPlannedAmounts,
  readVarianceParts,
  readVarianceSums,
  readVisitLabels,
} from '../../db/variance-reads.ts'
import type { CarState, VisitState } from '../../domain/car.ts'
import { carIdSchema, visitIdSchema, type CarId, type PersonId, type VisitId } from '../../domain/ids.ts'
import { refuse } from '../../domain/refusal.ts'
import { DRILL_GROUPINGS } from '../../domain/value/variance-groups.ts'
import { mayShowPerson } from '../../domain/views/person-figures.ts'
import { visitCurves } from '../../domain/views/variance-curves.ts'
import { type DrillKey, varianceDrill, varianceWork } from '../../domain/views/variance-drill.ts'
import { varianceEntries } from '../../domain/views/variance-entries.ts'
import type { VarianceEntries, VarianceView } from '../../domain/views/variance-shapes.ts'
import { varianceView } from '../../domain/views/variance-view.ts'
import { createViewContext, type ViewInput } from '../../domain/views/view-context.ts'
import type { ApiServices } from './api-services.ts'
import type { ApiDeps } from './deps.ts'
import { knownCar, viewInput } from './known-car.ts'
import type { Asker } from './pairing.ts'
import { RefusedError } from './refused-error.ts'
import { procedure } from './trpc.ts'

/** Keys are ids, months, zones or gates; one that is not known has no hours. */
const ofFigure = z.strictObject({ grouping: z.enum(DRILL_GROUPINGS), key: z.string().min(1).max(80) })
const ofVisit = z.strictObject({ carId: carIdSchema, visitId: visitIdSchema })
const ofFigureAndVisit = ofFigure.extend(ofVisit.shape)
export const ofFigureAndCar = ofFigure.extend({ carId: carIdSchema })

/** What the Variance screen asks for, from the whole workshop down to the single time entry. */
export function createVarianceProcedures(services: ApiServices) {
  const { deps, sessions } = services
  const { db } = deps
  const personAt = (asker: Asker) => sessions.person(asker.device.id)
  return {
    variance: procedure.query(({ ctx }) => readVariance(services, ctx.asker)),
    /** The visits that make up a figure. */
    varianceDrill: procedure.input(ofFigure).query(({ input, ctx }) => {
      const { now, workshop, nameOf } = viewInput(deps)
      requireShown(input, personAt(ctx.asker), workshop)
      const names = { workshop, nameOf, visits: readVisitLabels(db, now) }
      return varianceDrill(input, readVarianceParts(db, input, now), names)
    }),
    /** The repairs, tasks and gates of one visit that make up its part of a figure. */
    varianceWork: procedure.input(ofFigureAndVisit).query(({ input, ctx }) => {
      const context = createViewContext(viewInput(deps))
      requireShown(input, personAt(ctx.asker), context.workshop)
      const { car, visit } = knownVisit(deps, input)
      return varianceWork(input, car, visit, readPlannedAmounts(db, car.id), context)
    }),
    /** The single time entries of one car behind its part of a figure. */
    varianceEntries: procedure
      .input(ofFigureAndCar)
      .query(({ input, ctx }) => readEntries(services, ctx.asker, input)),
    /** The weeks of one visit: planned, earned and spent, with its earned schedule. */
    varianceCurves: procedure.input(ofVisit).query(({ input }) => {
      const { car, visit } = knownVisit(deps, input)
      return visitCurves(car, visit, readPlannedAmounts(db, car.id), createViewContext(viewInput(deps)))
    }),
  }
}

/** The whole screen as the person signed in on the device may see it. */
export function readVariance({ deps, sessions }: ApiServices, asker: Asker): VarianceView {
  const { now, ...input } = viewInput(deps)
  const by = sessions.person(asker.device.id)
  return varianceView({ ...input, sums: readVarianceSums(deps.db, now), by })
}

/** @throws RefusedError for a car that is not known, and for a person's figures that are not shown to who asks */
export function readEntries(
  { deps, sessions }: ApiServices,
  asker: Asker,
  input: z.infer<typeof ofFigureAndCar>,
): VarianceEntries {
  const context = createViewContext(viewInput(deps))
  const by = sessions.person(asker.device.id)
  requireShown(input, by, context.workshop)
  return varianceEntries(input, knownCar(deps, input.carId), by, context)
}

function requireShown(
  { grouping, key }: DrillKey,
  by: PersonId | null,
  workshop: ViewInput['workshop'],
): void {
  if (grouping === 'person' && !mayShowPerson(workshop, by, key)) throw new RefusedError(notShown)
}

function knownVisit(
  deps: ApiDeps,
  { carId, visitId }: { readonly carId: CarId; readonly visitId: VisitId },
): { readonly car: CarState; readonly visit: VisitState } {
  const car = knownCar(deps, carId)
  const visit = car.visits.get(visitId)
  if (visit === undefined) throw new RefusedError(unknownVisit)
  return { car, visit }
}

const { refusal: notShown } = refuse(
  'not-allowed',
  'Figures of this person are not shown to you.',
  'A manager can turn on figures by person in Workshop; everybody then sees their own.',
)
const { refusal: unknownVisit } = refuse(
  'unknown',
  'This visit of the car is not known here.',
  'Choose it from the list of cars.',
)
