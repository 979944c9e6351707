import type { Stamp } from '../car.ts'
import type { Fact } from '../facts.ts'

/** Who stated a fact and when: instants in epoch ms. */
export const stampOf = (fact: Fact): Stamp => ({
  number: fact.number,
  by: fact.by,
  happened: Date.parse(fact.happened),
  recorded: Date.parse(fact.recorded),
})

/** Journal numbers of the facts that later ones of the same chain void. */
export const voidedNumbers = (facts: readonly Fact[]): ReadonlySet<number> =>
  new Set(facts.flatMap((fact) => (fact.kind === 'factVoided' ? [fact.payload.number] : [])))
