import { eq, sql } from 'drizzle-orm'
import type { CarState } from '../domain/car.ts'
import type { JudgedRepair } from '../domain/estimate/judged-repair.ts'
import type { Fact } from '../domain/facts.ts'
import type { CarId } from '../domain/ids.ts'
import { advanceCar, carFromFacts } from '../domain/state/car-state.ts'
import { workshopFromFacts } from '../domain/state/workshop-state.ts'
import type { WorkshopState } from '../domain/workshop.ts'
import { isReachingBack } from './derived.ts'
import { perHandle, type Handle } from './handle.ts'
import { factsAfter } from './chains.ts'
import { carTable, WORKSHOP_CHAIN } from './schema.ts'

/**
 * Folded states in memory. Each is kept with the number of the last fact that it has taken in and is used only while
 * the database says the same number, so that it is never older than what was asked for.
 */
export interface StateCache {
  readonly cars: Map<CarId, { readonly revision: number; readonly state: CarState }>
  workshop: { readonly facts: readonly Fact[]; readonly state: WorkshopState } | null
  finished: KnownFinished | null
}

/** The table of finished repairs up to its row `last`. */
interface KnownFinished {
  readonly last: number
  /** By sequence. */
  readonly rows: ReadonlyMap<number, JudgedRepair>
  /** In finish order. */
  readonly repairs: readonly JudgedRepair[]
}

export function createStateCache(): StateCache {
  return { cars: new Map(), workshop: null, finished: null }
}

/** A car as the connection sees it: inside a transaction the writer also sees what that has added so far. */
export function currentCar(handle: Handle, cache: StateCache, carId: CarId): CarState | null {
  const row = queries(handle).revision.get({ carId })
  return row ? carAt(handle, cache, carId, row.revision) : null
}

/** The same for a car whose revision is known already. */
export function carAt(handle: Handle, cache: StateCache, carId: CarId, revision: number): CarState {
  const known = cache.cars.get(carId)
  if (known?.revision === revision) return known.state
  return takeIn(handle, cache, carId, known ? factsAfter(handle, carId, known.revision) : [])
}

/** Takes further facts of a car's chain into its state; folds the whole chain where that cannot be done. */
export function takeIn(handle: Handle, cache: StateCache, carId: CarId, further: readonly Fact[]): CarState {
  const known = cache.cars.get(carId)
  // A state that is half advanced when something throws must not stay.
  cache.cars.delete(carId)
  const last = further.at(-1)
  if (known && last && !isReachingBack(further)) {
    advanceCar(known.state, further)
    cache.cars.set(carId, { revision: last.number, state: known.state })
    return known.state
  }
  const facts = factsAfter(handle, carId, 0)
  const state = carFromFacts(facts)
  if (!state) throw new Error(`The chain of the car ${carId} does not begin with that car.`)
  cache.cars.set(carId, { revision: facts.at(-1)?.number ?? 0, state })
  return state
}

export function currentWorkshop(handle: Handle, cache: StateCache): WorkshopState {
  const known = cache.workshop
  const further = factsAfter(handle, WORKSHOP_CHAIN, known?.facts.at(-1)?.number ?? 0)
  if (known && further.length === 0) return known.state
  const facts = [...(known?.facts ?? []), ...further]
  const state = workshopFromFacts(facts)
  cache.workshop = { facts, state }
  return state
}

/** The facts of the workshop's own chain, in journal order. */
export function workshopFacts(handle: Handle, cache: StateCache): readonly Fact[] {
  currentWorkshop(handle, cache)
  return cache.workshop?.facts ?? []
}

/** After a rollback: what was folded inside the transaction never happened. Null stands for the workshop itself. */
export function forget(cache: StateCache, carIds: Iterable<CarId | null>): void {
  cache.finished = null
  for (const carId of carIds) {
    if (carId === null) cache.workshop = null
    else cache.cars.delete(carId)
  }
}

const queries = perHandle(({ orm }) => ({
  revision: orm
    .select({ revision: carTable.revision })
    .from(carTable)
    .where(eq(carTable.id, sql.placeholder('carId')))
    .prepare(),
}))
