import type { CarState } from '../../domain/car.ts'
import { buildProblem } from '../../domain/plan/build-problem.ts'
import type { PlanFault } from '../../domain/plan/plan.ts'
import type { WorkshopState } from '../../domain/workshop.ts'
import { buildCar, type CarBuilder } from './car-builder.ts'
import { planInput, planOf } from './plan-input.ts'
import { buildWorkshop } from './workshop-builder.ts'

/** What is said of it, the names of what is planned all the same, and the plan, which has passed the check. */
export const planAsSaid = (cars: readonly CarState[], workshop: WorkshopState = buildWorkshop()) => {
  const input = planInput(cars, { workshop })
  return {
    faults: planOf(input).faults,
    names: buildProblem(input).work.map(({ name }) => name),
    made: planOf(input),
  }
}
export const said = (faults: readonly PlanFault[]): readonly string[] =>
  faults.map(({ code, words, next }) => `${code} | ${words} | ${next}`)

/** A repair beside the bad one, which is to be planned whatever is wrong with that. */
export const beside = (): CarBuilder => buildCar().repair('Wing').agree('Wing')
export const wing = [
  'opened',
  'assessed',
  'fabricated',
  'sealed',
  'primed',
  'trial-fitted',
  'welded',
  'painted',
].map((gate) => `Wing: ${gate}`)
