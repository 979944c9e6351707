import type { CarState } from '../domain/car.ts'
import type { Fact } from '../domain/facts.ts'
import { carFromFacts } from '../domain/state/car-state.ts'
import { workshopFromFacts } from '../domain/state/workshop-state.ts'
import { carVariance } from '../domain/value/car-variance.ts'
import type { Database } from './database.ts'
import { addVarianceRows, amountsToRows, toPlanned, writeAmount } from './derive-variance.ts'
import { addRows, dropDerived } from './derived.ts'
import { carToRows, workshopToRows, type DerivedRows } from './derived-rows.ts'
import { inTransaction, type Handle } from './handle.ts'
import { factsAfter } from './chains.ts'
import { isRebuildDue, setRebuildDue } from './migrate.ts'
import { journal, type Chain, WORKSHOP_CHAIN } from './schema.ts'
import { findPlans, takenPlans } from './taken-plans.ts'
import { type AmountRow, daysToText, type VarianceRows, varianceToRows } from './variance-rows.ts'

/** Makes every derived table anew from the journal, in one transaction. */
export function rebuildDerived({ writer, cache }: Database): void {
  inTransaction(writer, () => {
    dropDerived(writer)
    for (const rows of foldAll(writer)) addRows(writer, rows)
    const amounts = foldAmounts(writer)
    for (const row of amounts.values()) row.forEach((each) => writeAmount(writer, each))
    for (const rows of foldVariance(writer, amounts)) addVarianceRows(writer, rows)
    if (isRebuildDue(writer)) setRebuildDue(writer, false)
  })
  cache.cars.clear()
  cache.resting.clear()
  cache.workshop = null
  cache.finished = null
}

/** The derived rows of every chain as its facts give them, one chain after the other. */
export function* foldAll(handle: Handle): Generator<DerivedRows> {
  for (const chain of chains(handle)) {
    const facts = factsAfter(handle, chain, 0)
    if (chain === WORKSHOP_CHAIN) yield workshopToRows(workshopFromFacts(facts))
    else yield carToRows(foldCar(chain, facts), facts.at(-1)?.number ?? 0)
  }
}

export type AmountRows = ReadonlyMap<Chain, readonly AmountRow[]>

/** What was authorised on every car, with the plans that it was planned by: each plan is read once. */
export function foldAmounts(handle: Handle): AmountRows {
  const facts = factsAfter(handle, WORKSHOP_CHAIN, 0)
  const rows = carChains(handle).flatMap((chain) => amountsToRows(readCar(handle, chain)))
  const found = findPlans(handle, rows, takenPlans(facts), facts)
  const planned = new Map(
    found.map(({ amount, planId, days }) => [amount, { planId, days: daysToText(days) }]),
  )
  return Map.groupBy(
    rows.map((row) => ({ ...row, ...planned.get(row) })),
    ({ carId }) => carId,
  )
}

/** The rows of the Variance screen, one car after the other. */
export function* foldVariance(
  handle: Handle,
  amounts: AmountRows,
): Generator<VarianceRows & { readonly carId: Chain }> {
  const workshop = workshopFromFacts(factsAfter(handle, WORKSHOP_CHAIN, 0))
  for (const chain of carChains(handle)) {
    const car = readCar(handle, chain)
    const planned = toPlanned(amounts.get(chain) ?? [])
    yield { carId: chain, ...varianceToRows(car, carVariance(car, planned, workshop)) }
  }
}

const chains = ({ orm }: Handle): readonly Chain[] =>
  orm
    .selectDistinct({ chain: journal.chain })
    .from(journal)
    .all()
    .map(({ chain }) => chain)

const carChains = (handle: Handle): readonly Chain[] =>
  chains(handle).filter((chain) => chain !== WORKSHOP_CHAIN)

const readCar = (handle: Handle, chain: Chain): CarState => foldCar(chain, factsAfter(handle, chain, 0))

function foldCar(chain: Chain, facts: readonly Fact[]): CarState {
  const car = carFromFacts(facts)
  if (!car) throw new Error(`The chain of the car ${chain} does not begin with that car.`)
  return car
}
