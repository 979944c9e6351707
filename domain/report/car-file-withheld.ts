import type { FactKind, NewFact, PayloadOf } from '../facts.ts'
import type { FileChoices } from './file-choices.ts'

export type FileChoice = keyof FileChoices

/** Why a line does not leave whole, and what of it leaves: nothing but its digests for null. */
export interface WithheldPart {
  readonly withheld: readonly FileChoice[]
  readonly redacted: Readonly<Record<string, unknown>> | null
}

/** Null when the fact may leave whole. The redacted part still follows its kind's shape, but for money that has no amount. */
export function withheldPart(fact: NewFact, choices: FileChoices): WithheldPart | null {
  const rule: Rule<never> | null = RULES[fact.kind]
  const payload = fact.payload as never
  if (rule === null || !rule.holds(payload)) return null
  const withheld = rule.needs.filter((choice) => !choices[choice])
  return withheld.length === 0 ? null : { withheld, redacted: rule.leaves(payload) }
}

interface Rule<K extends FactKind> {
  /** All of these must be ticked. */
  readonly needs: readonly FileChoice[]
  /** False for a payload with nothing of the kind in it. */
  readonly holds: (payload: PayloadOf<K>) => boolean
  readonly leaves: (payload: PayloadOf<K>) => WithheldPart['redacted']
}

const ALL: readonly FileChoice[] = ['contacts', 'prices', 'hours']

/** The time, the person and the work are withheld alike, as hours could be reckoned from when clocks were started. */
const workedHours = { needs: ['hours'], holds: () => true, leaves: () => null } as const

/**
 * What each kind of fact holds of contacts, prices and hours. Owners and payers stand in facts by their ids alone, so that
 * contacts are in no payload but in words to the owner. Agreed and estimated hours are of the work, not of the people.
 */
const RULES: { readonly [K in FactKind]: Rule<K> | null } = {
  clockStarted: workedHours,
  clockStopped: workedHours,
  clockConfirmed: workedHours,
  timeLogged: workedHours,
  timeCorrected: workedHours,
  leftSaid: workedHours,

  variationRaised: {
    needs: ['prices'],
    holds: ({ costs }) => costs.length > 0,
    leaves: (raised) => ({ ...raised, costs: [] }),
  },
  variationDecided: {
    needs: ['prices'],
    holds: ({ changed }) => changed !== null && changed.costs.length > 0,
    leaves: (decided) => ({ ...decided, changed: decided.changed && { ...decided.changed, costs: [] } }),
  },
  costsSet: {
    needs: ['prices'],
    holds: () => true,
    leaves: ({ visitId, costs }) => ({ visitId, costs: costs.map(({ amount: _, ...cost }) => cost) }),
  },
  costTakenOff: null,
  costSpent: { needs: ['prices'], holds: () => true, leaves: ({ amount: _, ...spent }) => spent },
  ratesSet: { needs: ['prices'], holds: () => true, leaves: () => null },

  // What was written to the owner, by name, may speak of money and hours.
  reportIssued: {
    needs: ALL,
    holds: ({ words }) => words !== '',
    leaves: (issued) => ({ ...issued, words: '' }),
  },

  workshopSetUp: null,
  personAdded: null,
  personChanged: null,
  partyAdded: null,
  contactErased: null,
  bayAdded: null,
  bayChanged: null,
  calendarSet: null,
  settingsSet: null,
  typeSaved: null,
  typeRetired: null,
  headsLinked: null,
  reportsSet: null,

  carAdded: null,
  carChanged: null,
  visitOpened: null,
  visitChanged: null,
  visitStatusSet: null,
  safetySet: null,
  dimensionAdded: null,
  dimensionTargetSet: null,
  dimensionRead: null,
  noted: null,
  repairAdded: null,
  repairChanged: null,
  repairRetired: null,
  repairSplit: null,
  repairsMerged: null,
  coverLinked: null,
  coverUnlinked: null,
  fitGroupSet: null,
  fitGroupDissolved: null,
  taskAdded: null,
  taskChanged: null,
  carBroughtIn: null,

  gatePassed: null,
  gateNotNeeded: null,
  gateReopened: null,
  holdReleased: null,
  releaseAsked: null,
  holdSet: null,
  holdCleared: null,
  supportLifted: null,
  photoAttached: null,
  captionSet: null,
  photoShowsSet: null,
  photoMarked: null,
  outsideGraded: null,
  hoursTaken: null,
  layerGraded: null,
  layersMarked: null,
  findingAdded: null,
  conditionsRead: null,
  drainsChecked: null,
  weldsCounted: null,
  fitUpRecorded: null,
  surfacePrepared: null,
  partNeeded: null,
  partMoved: null,
  taskSigned: null,
  taskNotNeeded: null,
  taskReopened: null,
  factVoided: null,
  watchCompleted: null,

  estimateSet: null,
  estimateAccepted: null,
  estimateReviewed: null,
  bandsStated: null,
  declinedSettled: null,
  closedAsFound: null,

  bayBooked: null,
  bookingChanged: null,
  bookingCancelled: null,
  shellMoved: null,
  shellSentAway: null,
  shellReturned: null,

  workPinned: null,
  workUnpinned: null,
  decisionExpected: null,
  fixturePlanned: null,
  planningSet: null,
  fixturesSet: null,
  overtimeSet: null,
  overtimeCancelled: null,
  planTaken: null,
}
