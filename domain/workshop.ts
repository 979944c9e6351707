import type { PayloadOf } from './facts.ts'
import type { FixtureCounts, Planning } from './facts/plan-facts.ts'
import type { ReportSettings } from './facts/reports-facts.ts'
import type { RateTable } from './facts/money-facts.ts'
import type { RepairPlan, WorkingWeek } from './facts/shapes.ts'
import type { Role, WorkshopSettings } from './facts/workshop-facts.ts'
import type { Moment, TimeEntry } from './car.ts'
import type { BayId, EntryId, OvertimeId, PartyId, PersonId, PlanId, TypeId } from './ids.ts'

/** The workshop as its facts tell it. Names of people and parties stand in the contact book, never here. */
export interface WorkshopState {
  readonly revision: number
  readonly setUp: boolean
  readonly name: string
  /** IANA zone: camera times without a zone and all dates are read in it. */
  readonly zone: string
  readonly currency: string
  readonly week: WorkingWeek
  readonly holidays: readonly { readonly date: string; readonly name: string }[]
  readonly settings: WorkshopSettings
  /** By the date from which they hold, earliest first; empty until rates are set. */
  readonly rates: readonly RateTable[]
  readonly people: ReadonlyMap<PersonId, Person>
  readonly parties: ReadonlyMap<PartyId, Party>
  /** People and parties whose contacts were erased for good, and when. */
  readonly erased: ReadonlyMap<PersonId | PartyId, Moment>
  readonly bays: ReadonlyMap<BayId, Bay>
  readonly types: ReadonlyMap<TypeId, RepairType>
  /** Hours on the workshop itself: sweeping, repairs of tools, a visit of the inspector. */
  readonly entries: ReadonlyMap<EntryId, Readonly<TimeEntry>>
  readonly planning: Planning
  readonly fixtures: FixtureCounts
  /** What stands; cancelled overtime is gone. */
  readonly overtime: ReadonlyMap<OvertimeId, Overtime>
  readonly reports: ReportSettings
  /** When these were set; null before. */
  readonly reportsSince: Moment | null
  /** The plan in force; null before a first one was taken. */
  readonly planTaken: PlanTaken | null
}

export interface Overtime {
  readonly id: OvertimeId
  readonly people: readonly PersonId[]
  /** Local dates, both inclusive. */
  readonly from: string
  readonly to: string
  /** 1 Monday to 7 Sunday. */
  readonly weekdays: readonly number[]
  /** HH:MM on the workshop's clock. */
  readonly span: { readonly from: string; readonly to: string }
}

export interface PlanTaken {
  readonly planId: PlanId
  /** Of the canonical JSON of its content. */
  readonly sha256: string
  readonly at: Moment
  /** Null when it was taken by itself. */
  readonly by: PersonId | null
}

export interface Person {
  readonly id: PersonId
  readonly roles: readonly Role[]
  readonly skills: readonly string[]
  readonly week: WorkingWeek | null
  readonly absences: readonly { readonly from: string; readonly to: string }[]
  readonly active: boolean
}

export interface Party {
  readonly id: PartyId
  readonly kind: 'owner' | 'insurer' | 'firm'
}

export interface Bay {
  readonly id: BayId
  readonly name: string
  readonly kinds: readonly string[]
  readonly floor: PayloadOf<'bayAdded'>['floor']
  readonly active: boolean
}

export interface RepairType {
  readonly id: TypeId
  readonly version: number
  readonly plan: RepairPlan
  readonly retired: boolean
}

/** Storage holds many cars, every other bay one. */
export const isStorage = (bay: Pick<Bay, 'kinds'>): boolean => bay.kinds.includes('storage')
