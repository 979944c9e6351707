import type { CarState } from '../domain/car.ts'
import type { Fact } from '../domain/facts.ts'
import type { CarId } from '../domain/ids.ts'
import { authorisedAmounts } from '../domain/value/authorised-amounts.ts'
import { carVariance } from '../domain/value/car-variance.ts'
import type { PlannedAmounts } from '../domain/value/planned-days.ts'
import { targetKey } from '../domain/value/target.ts'
import { isValuedBy } from '../domain/value/valued-by.ts'
import type { WorkshopState } from '../domain/workshop.ts'
import { perHandle, type Handle } from './handle.ts'
import { currentCar, currentWorkshop, type StateCache, workshopFacts } from './state-cache.ts'
import { findPlans, takenPlans, type SoughtAmount } from './taken-plans.ts'
import { type AmountRow, daysToText, textToDays, type VarianceRows, varianceToRows } from './variance-rows.ts'
import { varianceStatements } from './variance-statements.ts'

/**
 * Brings what the Variance screen sums up to date with the facts that a car has just taken in: finds the plan of what was
 * authorised, and makes the car's rows anew. Must run inside the transaction that adds the facts.
 * Cost: a few milliseconds; an acceptance reads the plan in force, and a void may read those after it too.
 */
export function deriveCarVariance(
  writer: Handle,
  cache: StateCache,
  car: CarState,
  facts: readonly Fact[],
): void {
  if (!facts.some(({ kind }) => isValuedBy(kind))) return
  const planned = planAmounts(writer, cache, car)
  writeCar(writer, car, planned, currentWorkshop(writer, cache))
}

/** After a plan was taken: what was authorised before and is planned only now gets its planned value from it. */
export function derivePlanTaken(writer: Handle, cache: StateCache): void {
  const facts = workshopFacts(writer, cache)
  const newest = takenPlans(facts).slice(-1)
  const waiting = statements(writer).amountsWithoutPlan.all() as readonly AmountRow[]
  const found = findPlans(writer, waiting, newest, facts)
  for (const { amount, planId, days } of found)
    writeAmount(writer, { ...amount, planId, days: daysToText(days) })
  for (const carId of new Set(found.map(({ amount }) => amount.carId))) {
    const car = currentCar(writer, cache, carId)
    if (car) writeCar(writer, car, plannedAmounts(writer, carId), currentWorkshop(writer, cache))
  }
}

/** The days that each authorised amount of a car is planned on. */
export function plannedAmounts(handle: Handle, carId: CarId): PlannedAmounts {
  return toPlanned(amountRows(handle, carId))
}

/** Amounts of a car as rows that no plan was found for yet. */
export const amountsToRows = (car: CarState): readonly AmountRow[] =>
  authorisedAmounts(car).map(({ id, visitId, target, accepted }) => ({
    carId: car.id,
    amountId: id,
    visitId,
    target: targetKey(target),
    accepted,
    planId: null,
    days: NO_DAYS,
  }))

/** Puts an amount in the place of the one with its id. */
export function writeAmount(writer: Handle, row: AmountRow): void {
  statements(writer).putAmount.run(row)
}

/** The days of amounts by their ids; none for an amount that no plan has work of. */
export function toPlanned(rows: readonly AmountRow[]): PlannedAmounts {
  return new Map(
    rows.map(({ amountId, days }) => [amountId, days === NO_DAYS ? [] : textToDays(days)] as const),
  )
}

/** Adds rows of a car that has none. @throws SqliteError for a visit that is another car's */
export function addVarianceRows(writer: Handle, { sums, visits, days }: VarianceRows): void {
  const { addSum, addVisit, addDay } = statements(writer)
  for (const row of sums) addSum.run(row)
  for (const row of visits) addVisit.run(row)
  for (const row of days) addDay.run(row)
}

const NO_DAYS = '[]'

function writeCar(writer: Handle, car: CarState, planned: PlannedAmounts, workshop: WorkshopState): void {
  const { dropSums, dropVisits, dropDays } = statements(writer)
  for (const drop of [dropSums, dropVisits, dropDays]) drop.run({ carId: car.id })
  addVarianceRows(writer, varianceToRows(car, carVariance(car, planned, workshop)))
}

/** Drops the amounts that are authorised no more, and finds the plans of those that are now. */
function planAmounts(writer: Handle, cache: StateCache, car: CarState): PlannedAmounts {
  const kept = new Map(amountRows(writer, car.id).map((row) => [row.amountId, row]))
  const due = amountsToRows(car)
  const ids = new Set(due.map(({ amountId }) => amountId))
  const gone = [...kept.keys()].filter((id) => !ids.has(id))
  const fresh = due.filter((row) => !isSame(kept.get(row.amountId), row))
  if (gone.length === 0 && fresh.length === 0) return toPlanned([...kept.values()])
  for (const amountId of gone) statements(writer).dropAmount.run({ carId: car.id, amountId })
  const facts = workshopFacts(writer, cache)
  const found = new Map(findPlans(writer, fresh, takenPlans(facts), facts).map((each) => [each.amount, each]))
  for (const row of fresh) {
    const plan = found.get(row)
    writeAmount(writer, plan ? { ...row, planId: plan.planId, days: daysToText(plan.days) } : row)
  }
  return plannedAmounts(writer, car.id)
}

const isSame = (kept: AmountRow | undefined, { visitId, target, accepted }: SoughtAmount): boolean =>
  kept?.accepted === accepted && kept.target === target && kept.visitId === visitId

const amountRows = (handle: Handle, carId: CarId): readonly AmountRow[] =>
  statements(handle).amountsOfCar.all({ carId }) as readonly AmountRow[]

const statements = perHandle(varianceStatements)
