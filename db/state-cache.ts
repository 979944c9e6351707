import { eq, sql } from 'drizzle-orm'
import type { CarState } from '../domain/car.ts'
import type { EstimateHistory } from '../domain/estimate/estimate-history.ts'
import type { JudgedRepair } from '../domain/estimate/judged-repair.ts'
import type { Fact } from '../domain/facts.ts'
import type { CarId } from '../domain/ids.ts'
import { advanceCar, carFromFacts } from '../domain/state/car-state.ts'
import { workshopFromFacts } from '../domain/state/workshop-state.ts'
import type { RestingCar } from '../domain/views/resting-car.ts'
import type { WorkshopState } from '../domain/workshop.ts'
import { factsAfter, workshopFactsAfter } from './chains.ts'
import { isReachingBack } from './derived.ts'
import { perHandle, type Handle } from './handle.ts'
import { carTable } from './schema.ts'
import { isOver } from '../domain/visit-over.ts'

/**
 * Folded states in memory. Each is kept with the number of the last fact that it has taken in and is used only while
 * the database says the same number, so that it is never older than what was asked for.
 */
export interface StateCache {
  /** The least recently used first. */
  readonly cars: Map<CarId, { readonly revision: number; readonly state: CarState; readonly rests: boolean }>
  /** In short, by car. */
  readonly resting: Map<CarId, { readonly revision: number; readonly car: RestingCar }>
  workshop: KnownWorkshop | null
  finished: KnownFinished | null
  /** What finished repairs told when that was asked last: of those that stand now, or of mostly the same. */
  learned: EstimateHistory | null
}

interface KnownWorkshop {
  readonly facts: readonly Fact[]
  /** In its chain, of the last line that was looked at. */
  readonly place: number
  readonly state: WorkshopState
}

/** The table of finished repairs up to its row `last`. */
export interface KnownFinished {
  readonly last: number
  /** By sequence. */
  readonly rows: ReadonlyMap<number, JudgedRepair>
  /** In finish order. */
  readonly repairs: readonly JudgedRepair[]
}

/** A car with its photos and hours of half a year takes about a megabyte; others are folded again when they are asked for. */
const RESTING_KEPT = 48

/** Empty; one for each opened database. */
export function createStateCache(): StateCache {
  return { cars: new Map(), resting: new Map(), workshop: null, finished: null, learned: null }
}

/** A car as the connection sees it: inside a transaction the writer also sees what that has added so far. */
export function currentCar(handle: Handle, cache: StateCache, carId: CarId): CarState | null {
  const row = queries(handle).revision.get({ carId })
  return row ? carAt(handle, cache, carId, row.revision) : null
}

/** The same for a car whose revision is known already. */
export function carAt(handle: Handle, cache: StateCache, carId: CarId, revision: number): CarState {
  const known = cache.cars.get(carId)
  if (known?.revision !== revision)
    return takeIn(handle, cache, carId, known ? factsAfter(handle, carId, known.revision) : [])
  if (known.rests) keep(cache, known.state, revision)
  return known.state
}

/** The same for those who look at each car once: it is folded where it is not in memory as of then, and kept nowhere. */
export function carOnce(handle: Handle, cache: StateCache, carId: CarId, revision: number): CarState {
  const known = cache.cars.get(carId)
  return known?.revision === revision ? known.state : fold(carId, factsAfter(handle, carId, 0, revision))
}

/** Takes further facts of a car's chain into its state; folds the whole chain where that cannot be done. */
export function takeIn(handle: Handle, cache: StateCache, carId: CarId, further: readonly Fact[]): CarState {
  const known = cache.cars.get(carId)
  // A state that is half advanced when something throws must not stay.
  cache.cars.delete(carId)
  const last = further.at(-1)
  if (known && last && !isReachingBack(further)) {
    advanceCar(known.state, further)
    keep(cache, known.state, last.number)
    return known.state
  }
  const facts = factsAfter(handle, carId, 0)
  const state = fold(carId, facts)
  keep(cache, state, facts.at(-1)?.number ?? 0)
  return state
}

function fold(carId: CarId, facts: readonly Fact[]): CarState {
  const state = carFromFacts(facts)
  if (!state) throw new Error(`The chain of the car ${carId} does not begin with that car.`)
  return state
}

/** As the last one used. Delivered cars are kept as far as there is room; the others are asked for all day. */
function keep({ cars }: StateCache, state: CarState, revision: number): void {
  const rests = state.currentVisit !== null && isOver(state.visits.get(state.currentVisit))
  cars.delete(state.id)
  cars.set(state.id, { revision, state, rests })
  if (!rests || cars.size <= RESTING_KEPT) return
  const resting = [...cars].filter(([, known]) => known.rests)
  for (const [carId] of resting.slice(0, -RESTING_KEPT)) cars.delete(carId)
}

/** The cars that rest, in short. Only what was written since is read anew. */
export function restingAt(handle: Handle, { resting }: StateCache): readonly RestingCar[] {
  const { rests, brief } = queries(handle)
  const rows = rests.all() as readonly { readonly id: CarId; readonly revision: number }[]
  return rows.map(({ id, revision }) => {
    const known = resting.get(id)
    if (known?.revision === revision) return known.car
    const car = JSON.parse(brief.get(id) as string) as RestingCar
    resting.set(id, { revision, car })
    return car
  })
}

/** The workshop as the connection sees it; without facts it is not set up. */
export function currentWorkshop(handle: Handle, cache: StateCache): WorkshopState {
  const known = cache.workshop
  const further = workshopFactsAfter(handle, known?.place ?? 0)
  if (known && further.place === known.place) return known.state
  const facts = [...(known?.facts ?? []), ...further.facts]
  const state = known && further.facts.length === 0 ? known.state : workshopFromFacts(facts)
  cache.workshop = { facts, state, place: further.place }
  return state
}

/** The facts of the workshop's own chain, in journal order, without those that link the heads of the cars' chains. */
export function workshopFacts(handle: Handle, cache: StateCache): readonly Fact[] {
  currentWorkshop(handle, cache)
  return cache.workshop?.facts ?? []
}

/**
 * After a rollback: what was folded inside the transaction never happened.
 *
 * @param carIds null stands for the workshop itself
 * @param finished what was known of finished repairs before the transaction
 */
export function forget(
  cache: StateCache,
  carIds: Iterable<CarId | null>,
  finished: KnownFinished | null,
): void {
  cache.finished = finished
  for (const carId of carIds) {
    if (carId === null) cache.workshop = null
    else cache.cars.delete(carId)
  }
}

const queries = perHandle(({ orm, sqlite }) => ({
  revision: orm
    .select({ revision: carTable.revision })
    .from(carTable)
    .where(eq(carTable.id, sql.placeholder('carId')))
    .prepare(),
  rests: sqlite.prepare(`SELECT id, revision FROM car WHERE rests_until IS NOT NULL ORDER BY shell_number`),
  brief: sqlite.prepare(`SELECT brief FROM car WHERE id = ?`).pluck(),
}))
