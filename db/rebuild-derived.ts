import { carFromFacts } from '../domain/state/car-state.ts'
import { workshopFromFacts } from '../domain/state/workshop-state.ts'
import type { Database } from './database.ts'
import { addRows, dropDerived } from './derived.ts'
import { carToRows, workshopToRows, type DerivedRows } from './derived-rows.ts'
import { inTransaction, type Handle } from './handle.ts'
import { factsAfter } from './chains.ts'
import { journal, WORKSHOP_CHAIN } from './schema.ts'

/** Makes every derived table anew from the journal, in one transaction. */
export function rebuildDerived({ writer, cache }: Database): void {
  inTransaction(writer, () => {
    dropDerived(writer)
    for (const rows of foldAll(writer)) addRows(writer, rows)
  })
  cache.cars.clear()
  cache.workshop = null
}

/** The derived rows of every chain as its facts give them, one chain after the other. */
export function* foldAll(handle: Handle): Generator<DerivedRows> {
  for (const { chain } of handle.orm.selectDistinct({ chain: journal.chain }).from(journal).all()) {
    const facts = factsAfter(handle, chain, 0)
    if (chain === WORKSHOP_CHAIN) yield workshopToRows(workshopFromFacts(facts))
    else {
      const car = carFromFacts(facts)
      if (!car) throw new Error(`The chain of the car ${chain} does not begin with that car.`)
      yield carToRows(car, facts.at(-1)?.number ?? 0)
    }
  }
}
