import { fact, type Fact, type NewFact } from '../facts.ts'
import { LEFT_OUT } from './left-out.ts'

/** What of another workshop's facts of a car is recorded here, and what is not. */
export interface TakenOver {
  /** As they will be recorded, in order, with the numbers and people of the other workshop. */
  readonly facts: readonly Fact[]
  /** By reason, in the order of {@link LEFT_OUT}. */
  readonly leftOut: ReadonlyMap<string, number>
}

/**
 * Chooses what is taken over. Repairs keep their own copy of their type and lose its name, as types are each workshop's own;
 * agreements keep their hours and lose their money; a void whose fact stays behind stays behind with it.
 */
export function takeOver(facts: readonly Fact[]): TakenOver {
  const left = new Set(facts.filter(({ kind }) => LEFT_OUT[kind] !== undefined).map(({ number }) => number))
  const known = new Set(facts.map(({ number }) => number))
  const leftOut = new Map<string, number>()
  for (const { kind } of facts) {
    const reason = LEFT_OUT[kind]
    if (reason !== undefined) leftOut.set(reason, (leftOut.get(reason) ?? 0) + 1)
  }
  return {
    facts: facts
      .filter((each) => !left.has(each.number) && !isVoidOf(each, (of) => left.has(of) || !known.has(of)))
      .map((each) => ({ ...each, ...asRecordedHere(each) })),
    leftOut,
  }
}

const isVoidOf = (each: Fact, isMissing: (number: number) => boolean): boolean =>
  each.kind === 'factVoided' && isMissing(each.payload.number)

function asRecordedHere({ kind, payload }: Fact): NewFact {
  switch (kind) {
    case 'repairAdded':
      return fact(kind, { ...payload, type: null })
    case 'repairChanged':
      return fact(kind, { ...payload, typeVersion: null })
    case 'estimateAccepted':
      return fact(kind, { ...payload, costIds: [] })
    case 'variationRaised':
      return fact(kind, { ...payload, costs: [] })
    case 'variationDecided': {
      const { changed } = payload
      return fact(kind, { ...payload, changed: changed === null ? null : { ...changed, costs: [] } })
    }
    default:
      return { kind, payload } as NewFact
  }
}
