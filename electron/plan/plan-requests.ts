import { contactBook } from '../../db/contacts.ts'
import type { ReadDatabase } from '../../db/database.ts'
import { readEstimateHistory } from '../../db/finished-repairs.ts'
import { readCarsWith, readWorkshop } from '../../db/reads.ts'
import type { Moment } from '../../domain/car.ts'
import { hiddenMultiples } from '../../domain/estimate/hidden-multiples.ts'
import type { PlanBudget } from '../../domain/plan/plan-budget.ts'
import type { Plan, WhatIf } from '../../domain/plan/plan.ts'
import { currentVisit } from '../../domain/views/car-header.ts'
import type { PlanRequest } from './plan-job.ts'
import { isOver } from '../../domain/visit-over.ts'

/**
 * Everything that a plan is made from, as it stands now. Delivered cars are left out, unless a new car is to be like one:
 * what goes to the worker is copied on the host's own thread.
 */
export function readPlanRequest(
  db: ReadDatabase,
  {
    now,
    inForce,
    whatIfs,
    budget,
  }: {
    readonly now: Moment
    readonly inForce: Plan | null
    readonly whatIfs: readonly WhatIf[]
    readonly budget: PlanBudget
  },
): PlanRequest {
  const workshop = readWorkshop(db)
  const { nameOf } = contactBook(db)
  const names = new Map([...workshop.people.keys(), ...workshop.parties.keys()].map((id) => [id, nameOf(id)]))
  const likes = new Set(whatIfs.flatMap((whatIf) => (whatIf.kind === 'new car' ? [whatIf.like] : [])))
  const cars = readCarsWith(db, ({ header }) => likes.has(header.id)).filter(
    (car) => !isOver(currentVisit(car)) || likes.has(car.id),
  )
  const hidden = hiddenMultiples(cars, likes, readEstimateHistory(db), { at: now, workshop })
  return { input: { workshop, cars, names, now, inForce, hidden }, whatIfs, budget }
}
