/**
 * A car as its facts tell it. Over 300 lines because the whole shape of a car is read in one place; it holds types only.
 * Moments are epoch milliseconds; hours are person-hours; lengths are millimetres.
 */
import type { Gate } from './gates.ts'
import type { PayloadOf } from './facts.ts'
import type { BandsWhen, StatedBand } from './facts/agreement-facts.ts'
import type { Body, VisitStatus } from './facts/car-facts.ts'
import type { FewFixture } from './facts/plan-facts.ts'
import type { Cost, CostKind } from './facts/money-facts.ts'
import type {
  Decision,
  EdgeReading,
  EstimateLine,
  FitGroupPlan,
  Fixture,
  GateAsks,
  Grade,
  Payer,
  RepairPlan,
  ReworkCause,
  Side,
  TaskPlan,
  WorkTarget,
} from './facts/shapes.ts'
import type { LoggedOn, TimeSpan } from './facts/time-facts.ts'
import type { PhotoMarks } from './photo-marks/photo-marks.ts'
import type { ReportChoices } from './report/report-choices.ts'
import type { HoldCode, HoldScope, PartState, PhotoServes } from './facts/work-facts.ts'
import type {
  AttachmentId,
  AwayId,
  BayId,
  BookingId,
  CarId,
  CostId,
  DimensionId,
  EntryId,
  FindingId,
  FitGroupId,
  HoldId,
  LayerId,
  LiftId,
  LineId,
  PartId,
  PartyId,
  PersonId,
  ReadingId,
  RepairId,
  ReportId,
  SpendingId,
  TaskId,
  TypeId,
  VariationId,
  VisitId,
} from './ids.ts'

export type Moment = number

export interface CarDraft {
  readonly id: CarId
  /** The journal's number of the last fact taken in. */
  revision: number
  shellNumber: string
  name: string
  body: Body
  year: number | null
  visits: Map<VisitId, Visit>
  currentVisit: VisitId | null
  safety: Record<SafetyItem, boolean>
  dimensions: Map<DimensionId, Dimension>
  repairs: Map<RepairId, Repair>
  covers: Cover[]
  fitGroups: Map<FitGroupId, FitGroup>
  tasks: Map<TaskId, Task>
  attachments: Map<AttachmentId, Attachment>
  findings: Map<FindingId, Finding>
  conditions: ConditionReading[]
  parts: Map<PartId, Part>
  holds: Map<HoldId, HandHold>
  lifts: Map<LiftId, Lift>
  variations: Map<VariationId, Variation>
  spendings: Map<SpendingId, Spending>
  entries: Map<EntryId, TimeEntry>
  bookings: Map<BookingId, Booking>
  standing: Standing | null
  aways: Map<AwayId, Away>
  reports: Map<ReportId, IssuedReport>
  notes: Note[]
  /** What the manager pinned, by target key; only on work that is open. */
  pins: Map<string, Pin>
  /** What people said is still to do, by target key; only on work that is open. */
  left: Map<string, LeftSaid>
  fixturePlanned: FewFixture | null
  /** Set when the car came with its file from another workshop. */
  broughtIn: BroughtIn | null
}

/** What was recorded before this stamp was recorded in the other workshop. */
export interface BroughtIn {
  readonly from: string
  readonly lines: number
  readonly withheld: number
  readonly stamp: Stamp
}

export interface Pin {
  readonly target: WorkTarget
  /** Those who must do it; empty when anybody may. */
  readonly people: readonly PersonId[]
  /** Local date that it starts on; null when on any. */
  readonly day: string | null
  readonly stamp: Stamp
}

export interface LeftSaid {
  readonly target: WorkTarget
  /** Person-hours still to do as of the stamp; 0 when only the signature is left. */
  readonly hours: number
  readonly stamp: Stamp
}

export type SafetyItem = 'bracing' | 'battery' | 'fuel'

/** Who stated a fact, when it happened, and its journal number. */
export interface Stamp {
  readonly number: number
  readonly by: PersonId | null
  readonly happened: Moment
  readonly recorded: Moment
}

export interface Visit {
  readonly id: VisitId
  readonly kind: 'agreed' | 'warranty'
  readonly ownerId: PartyId
  insurerId: PartyId | null
  readonly opened: Stamp
  /** The workshop whose visit it was; null for one of this workshop. Its hours and money are in no figure of this one. */
  from: string | null
  status: VisitStatus
  statusSince: Moment
  promised: string | null
  priority: number
  charge: PayloadOf<'visitChanged'>['charge']
  lines: Map<LineId, Line>
  costs: Map<CostId, CostLine>
  /** How every gate and task stood, by target key, when the next visit was opened: its work changes no figure of this one. */
  left: Map<string, TargetStanding> | null
}

/**
 * How a gate or task stands for the reckoning of hours. 'as found': left open when its repair was closed as found.
 * 'retired': left open when its repair was retired or merged into another.
 */
export type TargetStanding = 'open' | 'passed' | 'not needed' | 'as found' | 'retired'

/** One estimate line: the figures now, the first figures for ever, and whether its payer has accepted it. */
export interface Line extends EstimateLine {
  readonly baseline: EstimateLine
  /** Who set the first figures. */
  readonly by: PersonId | null
  accepted: Stamp | null
  /** Hours that moved away with a split or merge, or came with one. */
  moved: number
}

/** A money line of the estimate: the figure now, the first one for ever, and whether its payer has accepted it. */
export interface CostLine extends Cost {
  readonly payer: Payer
  readonly baseline: number
  accepted: Stamp | null
  /** Its payer has accepted it once, at whatever amount. */
  wasAccepted: boolean
}

export interface Spending {
  readonly id: SpendingId
  readonly visitId: VisitId
  readonly repairId: RepairId | null
  readonly costId: CostId | null
  readonly kind: CostKind
  readonly name: string
  /** Local date. */
  readonly date: string
  /** Minor units of the currency. */
  readonly amount: number
  readonly payer: Payer
  readonly stamp: Stamp
}

export interface Dimension {
  readonly id: DimensionId
  readonly name: string
  readonly kind: 'aperture' | 'datum'
  readonly side: Side
  readonly limitMm: number
  readonly asFound: DimensionReading
  targetMm: number
  targetReason: string | null
  readings: DimensionReading[]
}

export interface DimensionReading {
  readonly id: ReadingId | null
  readonly mm: number
  readonly stood: Fixture
  readonly doorsHung: boolean
  readonly stamp: Stamp
}

export interface Repair {
  readonly id: RepairId
  /** The visit that it was added in; of one that came unfinished from another workshop, the first visit here. */
  visitId: VisitId
  /** The workshop that began it; null for this one. It tells nothing of this workshop's hours. */
  from: string | null
  readonly added: Stamp
  readonly typeId: TypeId | null
  typeVersion: number | null
  plan: RepairPlan
  payer: Payer
  /** The grade seen on the outermost layer before opening; null while nobody has said. */
  outside: { readonly grade: Grade; readonly note: string; readonly stamp: Stamp } | null
  layers: Map<LayerId, Layer>
  gates: Record<Gate, GateRecord>
  reviewed: Stamp | null
  /** Its hours were taken from finished repairs: a multiple of what people estimate, and how far those lay apart in size. */
  taken: { readonly repairs: number; readonly over: number; readonly deviation: number } | null
  /** What was said of its hours, in order: with acceptances before it was opened, and when it was reviewed. */
  stated: { readonly when: BandsWhen; readonly number: number; readonly band: StatedBand }[]
  drainsChecked: (Stamp & { readonly id: ReadingId })[]
  welds: WeldCount[]
  prepared: { readonly gate: Gate; readonly stamp: Stamp }[]
  /** Of gates that are not passed or were passed last; a reopening drops them. */
  releases: Release[]
  /** Times during which a gate was worked on under a released hold and that are over; for ever. */
  releasedSpells: ReleasedSpell[]
  closedAsFound: ClosedAsFound | null
  /** Set when the repair was retired, or merged into another. */
  retired: { readonly stamp: Stamp; readonly reason: string; readonly into: RepairId | null } | null
}

export interface Layer {
  readonly id: LayerId
  grade: Grade | 'not seen' | null
  judgedBy: string | null
  remainingMm: number | null
  decision: Decision | null
  graded: Stamp | null
  repaired: Stamp | null
  coated: Stamp | null
  /** Closed over by the next layer, or by the closing panel when welded was passed. */
  closedOver: (Stamp & { readonly byWelded: boolean }) | null
}

export type GateStatus = 'open' | 'passed' | 'not needed'

export interface GateRecord {
  status: GateStatus
  /** Set while the gate is passed or not needed. `happened` is the time done. */
  done: GateDone | null
  /** The last pass that was taken back. */
  reopened: { readonly stamp: Stamp; readonly cause: ReworkCause; readonly reason: string } | null
  /** Journal number of the last reopening that reached this gate; evidence up to it no longer counts. */
  evidenceFloor: number
  /** When it was passed first: hours from then on are rework, for ever. */
  firstPassed: Moment | null
}

export type GateDone =
  | {
      readonly kind: 'passed'
      readonly stamp: Stamp
      readonly did: readonly PersonId[]
      readonly second: PersonId | null
      readonly asked: GateAsks
      readonly coat: 'protective' | 'outer' | 'temporary' | null
      readonly attachments: readonly AttachmentId[]
      readonly released: readonly HoldCode[]
      readonly note: string
    }
  | { readonly kind: 'not needed'; readonly stamp: Stamp; readonly reason: string }

export interface WeldCount {
  readonly id: ReadingId
  readonly welds: PayloadOf<'weldsCounted'>['welds']
  readonly stamp: Stamp
}

export interface Release {
  readonly gate: Gate
  readonly code: HoldCode
  readonly subject: string
  readonly reason: string
  readonly stamp: Stamp
  readonly asked: boolean
}

/** From the first release of a hold on a gate until the gate was done or taken back. */
export interface ReleasedSpell {
  readonly gate: Gate
  readonly from: Moment
  readonly to: Moment
}

export interface ClosedAsFound {
  readonly stamp: Stamp
  readonly variationId: VariationId | null
  readonly attachments: readonly AttachmentId[]
  readonly protection: string
  readonly answer: string
}

/** `over`'s metal must come off to reach `under` and cannot go back until `under` is finished. */
export interface Cover {
  readonly over: RepairId
  readonly under: RepairId
  readonly stamp: Stamp
}

export interface FitGroup {
  readonly id: FitGroupId
  plan: FitGroupPlan
  fitUps: FitUp[]
  /** Journal number of what made earlier full fit-ups stale. */
  staleFrom: number
}

export interface FitUp {
  readonly id: ReadingId
  readonly kind: 'dry' | 'full' | 'check'
  readonly readings: readonly EdgeReading[]
  readonly good: boolean
  readonly note: string
  readonly stamp: Stamp
}

export interface Task {
  readonly id: TaskId
  /** As of a repair. */
  visitId: VisitId
  readonly added: Stamp
  plan: TaskPlan
  status: GateStatus
  done: { readonly stamp: Stamp; readonly did: readonly PersonId[]; readonly note: string } | null
  reopened: { readonly stamp: Stamp; readonly cause: ReworkCause } | null
  /** When it was signed first: hours from then on are rework, for ever. */
  firstPassed: Moment | null
}

export interface Attachment {
  readonly id: AttachmentId
  readonly sha256: string
  /** Camera date, or null; `countsAt` is the camera date or else when it was added. */
  readonly taken: Moment | null
  readonly countsAt: Moment
  caption: string
  serves: readonly PhotoServes[]
  marks: PhotoMarks
  readonly visitId: VisitId | null
  readonly stamp: Stamp
}

export interface Finding {
  readonly id: FindingId
  readonly repairId: RepairId
  readonly layerId: LayerId | null
  readonly kind: PayloadOf<'findingAdded'>['kind']
  readonly grade: Grade
  readonly extent: string
  readonly needs: string
  readonly attachments: readonly AttachmentId[]
  readonly visitId: VisitId | null
  readonly stamp: Stamp
}

export interface ConditionReading {
  readonly id: ReadingId
  readonly repairIds: readonly RepairId[]
  readonly gate: Gate
  readonly airC: number
  readonly humidityPercent: number
  readonly steelC: number
  readonly stamp: Stamp
}

export interface Part {
  readonly id: PartId
  readonly repairId: RepairId
  readonly gate: Gate
  readonly name: string
  state: PartState
  since: Moment
  expected: string | null
  reason: string
}

export interface HandHold {
  readonly id: HoldId
  readonly scope: HoldScope
  readonly words: string
  readonly clears: string
  readonly expected: string | null
  readonly stamp: Stamp
  cleared: Stamp | null
}

export interface Lift {
  readonly id: LiftId
  readonly repairIds: readonly RepairId[]
  readonly how: string
  readonly stamp: Stamp
  /** A lift ends when the shell is moved. */
  ended: Stamp | null
}

export type VariationStatus = 'raised' | 'accepted' | 'declined' | 'workshop pays' | 'less work' | 'stopped'

export interface Variation {
  readonly id: VariationId
  readonly visitId: VisitId
  readonly payer: Payer
  readonly title: string
  readonly why: string
  readonly ifNot: string
  readonly findings: readonly FindingId[]
  readonly attachments: readonly AttachmentId[]
  /** What was asked for, for ever. */
  readonly asked: PayloadOf<'variationRaised'>['lines']
  /** What counts: as asked, or as its payer changed it. */
  lines: readonly { readonly target: WorkTarget; readonly hours: number }[]
  /** The money that was asked for, for ever, and what counts of it. */
  readonly askedCosts: readonly Cost[]
  costs: readonly Cost[]
  readonly raised: Stamp
  status: VariationStatus
  /** `changed`: the payer accepted other hours or money than were asked for. */
  decided: (Stamp & { readonly how: string; readonly note: string; readonly changed: boolean }) | null
  /** Local date that the answer is expected on. */
  expected: string | null
  settled: (Stamp & { readonly reason: string }) | null
}

export interface TimeEntry {
  readonly id: EntryId
  readonly personId: PersonId
  readonly visitId: VisitId | null
  readonly on: LoggedOn
  readonly by: 'clock' | 'hand'
  readonly hotWork: boolean
  readonly cause: ReworkCause | null
  /** Targets that had been passed once when the work was done: its hours on them are rework. */
  rework: readonly boolean[]
  readonly stamp: Stamp
  /** What counts: a stopped clock ends here at the end of the person's day unless more was confirmed. */
  time: TimeSpan | { readonly kind: 'running'; readonly start: string }
  /** When the clock was stopped; null for entries by hand and running clocks. */
  stoppedAt: Moment | null
  /** False when a clock ran past the end of the person's day and nobody has confirmed it. */
  confirmed: boolean
  shares: readonly number[] | null
  note: string
  watch: { readonly minutes: number; readonly from: Moment; completed: Stamp | null } | null
  /** Set when voided or corrected; such an entry counts nowhere. */
  gone: { readonly stamp: Stamp; readonly reason: string } | null
}

export interface Booking {
  readonly id: BookingId
  bayId: BayId
  from: string
  to: string
  cancelled: Stamp | null
  readonly stamp: Stamp
}

export interface Standing {
  readonly bayId: BayId
  readonly fixture: Fixture
  readonly since: Moment
}

export interface Away {
  readonly id: AwayId
  readonly firmId: PartyId
  readonly what: string
  readonly from: string
  readonly expected: string
  readonly sent: Stamp
  returned: (Stamp & { readonly uncovered: string }) | null
}

export interface IssuedReport {
  readonly id: ReportId
  readonly visitId: VisitId
  readonly week: string
  /** Of the PDF. */
  readonly sha256: string
  /** Of the page beside it; null for reports from before there were pages. */
  readonly page: string | null
  /** With the photos that it shows, whoever chose them. */
  readonly choices: ReportChoices
  readonly head: string
  readonly title: string
  readonly stamp: Stamp
}

export interface Note {
  readonly text: string
  readonly stamp: Stamp
}

type DeepReadonly<T> =
  T extends Map<infer K, infer V>
    ? ReadonlyMap<K, DeepReadonly<V>>
    : T extends (infer U)[]
      ? readonly DeepReadonly<U>[]
      : T extends string | number | boolean | null | undefined
        ? T
        : T extends object
          ? { readonly [P in keyof T]: DeepReadonly<T[P]> }
          : T

export type CarState = DeepReadonly<CarDraft>
export type RepairState = DeepReadonly<Repair>
export type TaskState = DeepReadonly<Task>
export type VisitState = DeepReadonly<Visit>
export type EntryState = DeepReadonly<TimeEntry>
export type AttachmentState = DeepReadonly<Attachment>
export type FitGroupState = DeepReadonly<FitGroup>
export type LayerState = DeepReadonly<Layer>
export type VariationState = DeepReadonly<Variation>
export type GateRecordState = DeepReadonly<GateRecord>
