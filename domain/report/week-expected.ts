import type { Moment } from '../car.ts'
import type { Fact, PayloadOf } from '../facts.ts'
import type { PersonId } from '../ids.ts'
import type { PlanFault } from '../plan/plan.ts'
import type { HoursBand } from '../views/hours-sheet-shapes.ts'

/** What was expected of a visit at the end of a report's week, or is now while the week runs. */
export interface WeekExpected {
  /** Null for a visit that is not charged by its hours, and where no work is left to guess. */
  readonly hours: ExpectedHours | null
  /** As the plan had it that was kept last; null where no plan of the car was kept. */
  readonly finish: PlannedFinish | null
  /** The same when the week began. */
  readonly before: PlannedFinish | null
  /** What changed between those two plans for the workshop as a whole. */
  readonly elsewhere: readonly ElsewhereChange[]
}

/** Person-hours of the whole visit, with what is spent. */
export interface ExpectedHours {
  readonly all: HoursBand
  /** What owner and insurer pay for; null where nothing of theirs is left to guess. */
  readonly charged: HoursBand | null
}

export interface PlannedFinish {
  /** Number of the last line of the journal that the plan was made from. */
  readonly revision: number
  /** Not exceeded with 50 and with 80 %; null where part of the work could not be planned. */
  readonly range: { readonly early: Moment; readonly late: Moment } | null
  /** Why there is no range. */
  readonly faults: readonly PlanFault['code'][]
}

export const ELSEWHERE_CHANGES = ['people', 'days', 'longer days', 'bays'] as const
export type ElsewhereChange = (typeof ELSEWHERE_CHANGES)[number]

/**
 * What the facts of the workshop between two plans change for every car, each once and in a fixed order. An absence that was
 * known before, or is taken off, is no change; nor is somebody new, with absences or without.
 *
 * @param facts the workshop's whole chain in journal order
 */
export function elsewhereChanges(
  facts: readonly Fact[],
  { after, upTo }: { readonly after: number; readonly upTo: number },
): readonly ElsewhereChange[] {
  const known = new Map<PersonId, Absences>()
  const found = new Set<ElsewhereChange>()
  for (const fact of facts) {
    const change = changeOf(fact, known)
    if (change !== null && fact.number > after && fact.number <= upTo) found.add(change)
  }
  return ELSEWHERE_CHANGES.filter((change) => found.has(change))
}

type Absences = PayloadOf<'personChanged'>['absences']

/** Remembers the absences of each person, so that a further one is seen. */
function changeOf(fact: Fact, known: Map<PersonId, Absences>): ElsewhereChange | null {
  switch (fact.kind) {
    case 'personAdded':
      known.set(fact.payload.personId, fact.payload.absences)
      return null
    case 'personChanged': {
      const { personId, absences, active } = fact.payload
      const before = known.get(personId) ?? []
      known.set(personId, absences)
      return !active || absences.some((each) => !isKnown(before, each)) ? 'people' : null
    }
    case 'calendarSet':
      return 'days'
    case 'overtimeSet':
      return 'longer days'
    case 'bayChanged':
      return fact.payload.active ? null : 'bays'
    default:
      return null
  }
}

const isKnown = (absences: Absences, { from, to }: Absences[number]): boolean =>
  absences.some((each) => each.from === from && each.to === to)
