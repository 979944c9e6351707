import type { TimeEntry } from '../car.ts'
import { usualFixtures, usualPlanning, usualReports, usualSettings, usualWeek } from '../usual-workshop.ts'
import type { Fact } from '../facts.ts'
import type { Bay, Overtime, Party, Person, RepairType, WorkshopState } from '../workshop.ts'
import { applyTimeToEntries } from './apply-time.ts'
import { stampOf, voidedNumbers } from './fact-stamp.ts'

type Draft = {
  -readonly [K in keyof WorkshopState]: WorkshopState[K] extends ReadonlyMap<infer I, infer V>
    ? Map<I, V>
    : WorkshopState[K]
}

/** The workshop from the facts of its own chain, in journal order; without facts it is not set up. */
export const workshopFromFacts = (facts: readonly Fact[]): WorkshopState => {
  const draft: Draft = {
    revision: 0,
    setUp: false,
    name: '',
    zone: 'UTC',
    currency: 'EUR',
    week: usualWeek,
    holidays: [],
    settings: usualSettings,
    rates: [],
    people: new Map(),
    parties: new Map(),
    erased: new Map(),
    bays: new Map(),
    types: new Map(),
    entries: new Map(),
    planning: usualPlanning,
    fixtures: usualFixtures,
    overtime: new Map(),
    reports: usualReports,
    reportsSince: null,
    planTaken: null,
  }
  const voided = voidedNumbers(facts)
  for (const fact of facts) if (!voided.has(fact.number)) applyWorkshopFact(draft, fact)
  return draft
}

const applyWorkshopFact = (draft: Draft, fact: Fact): void => {
  // Links of the cars' chains say nothing of the workshop.
  if (fact.kind === 'headsLinked') return
  draft.revision = fact.number
  switch (fact.kind) {
    case 'workshopSetUp':
      Object.assign(draft, fact.payload, { setUp: true })
      return
    case 'personAdded': {
      const person: Person = { ...withoutPersonId(fact.payload), id: fact.payload.personId, active: true }
      draft.people.set(person.id, person)
      return
    }
    case 'personChanged': {
      const person: Person = { ...withoutPersonId(fact.payload), id: fact.payload.personId }
      draft.people.set(person.id, person)
      return
    }
    case 'partyAdded': {
      const party: Party = { id: fact.payload.partyId, kind: fact.payload.kind }
      draft.parties.set(party.id, party)
      return
    }
    case 'contactErased':
      draft.erased.set(fact.payload.id, Date.parse(fact.happened))
      return
    case 'bayAdded':
    case 'bayChanged': {
      const { bayId, name, kinds, floor } = fact.payload
      const bay: Bay = {
        id: bayId,
        name,
        kinds,
        floor,
        active: fact.kind === 'bayAdded' ? true : fact.payload.active,
      }
      draft.bays.set(bay.id, bay)
      return
    }
    case 'calendarSet':
      draft.week = fact.payload.week
      draft.holidays = fact.payload.holidays
      return
    case 'settingsSet':
      draft.settings = fact.payload
      return
    case 'reportsSet':
      draft.reports = fact.payload
      draft.reportsSince = Date.parse(fact.recorded)
      return
    case 'ratesSet': {
      const { payload } = fact
      draft.rates = [...draft.rates.filter(({ from }) => from !== payload.from), payload].toSorted((a, b) =>
        a.from.localeCompare(b.from),
      )
      return
    }
    case 'typeSaved': {
      const { typeId, version, plan } = fact.payload
      const type: RepairType = { id: typeId, version, plan, retired: false }
      draft.types.set(typeId, type)
      return
    }
    case 'typeRetired': {
      const type = draft.types.get(fact.payload.typeId)
      if (type) draft.types.set(type.id, { ...type, retired: true })
      return
    }
    default:
      applyWorkshopPlan(draft, fact)
      applyWorkshopTime(draft, fact)
  }
}

const applyWorkshopPlan = (draft: Draft, fact: Fact): void => {
  switch (fact.kind) {
    case 'planningSet':
      draft.planning = fact.payload
      return
    case 'fixturesSet':
      draft.fixtures = fact.payload.counts
      return
    case 'overtimeSet': {
      const { overtimeId, ...rest } = fact.payload
      const overtime: Overtime = { id: overtimeId, ...rest }
      draft.overtime.set(overtimeId, overtime)
      return
    }
    case 'overtimeCancelled':
      draft.overtime.delete(fact.payload.overtimeId)
      return
    case 'planTaken': {
      const { planId, sha256 } = fact.payload
      draft.planTaken = { planId, sha256, at: Date.parse(fact.happened), by: fact.by }
      return
    }
    default:
      return
  }
}

const applyWorkshopTime = (draft: Draft, fact: Fact): void => {
  applyTimeToEntries(draft.entries as Map<TimeEntry['id'], TimeEntry>, fact, stampOf(fact), () => [])
}

const withoutPersonId = <P extends { readonly personId: unknown }>({
  personId: _,
  ...rest
}: P): Omit<P, 'personId'> => rest
