/**
 * What each screen receives: one interface a screen; the functions that fill them stand beside this file.
 * Over 300 lines because the screens and the server agree here and nowhere else; it holds types only.
 */
import type { EntryState, Moment, RepairState, TaskState, VariationStatus, VisitState } from '../car.ts'
import type { Body, VisitStatus } from '../facts/car-facts.ts'
import type { FewFixture } from '../facts/plan-facts.ts'
import type { Fixture, Payer, ReworkCause, ThreePoint, WorkTarget, Zone } from '../facts/shapes.ts'
import type { PartState } from '../facts/work-facts.ts'
import type { Gate } from '../gates.ts'
import type {
  AwayId,
  BayId,
  CarId,
  DimensionId,
  FindingId,
  LineId,
  PartId,
  PartyId,
  PersonId,
  RepairId,
  TaskId,
  VariationId,
  VisitId,
} from '../ids.ts'
import type { AttentionGroup } from './attention-shapes.ts'
import type {
  ClockView,
  CoverView,
  FitGroupView,
  GateMark,
  HoldView,
  HoursPair,
  LeftView,
  PhotoView,
  RepairCard,
  SectionView,
  WatchView,
} from './shared-views.ts'
import type { HoursBand, VariationCostView } from './variation-shapes.ts'

export interface CarHeader {
  readonly carId: CarId
  readonly revision: number
  readonly shellNumber: string
  readonly name: string
  readonly body: Body
  readonly year: number | null
  readonly owner: string
  readonly visitId: VisitId | null
  readonly status: VisitStatus
  readonly warranty: boolean
  /** The workshop that it came from with its file, until a visit is opened here. */
  readonly cameFrom: string | null
  readonly promised: string | null
  readonly priority: number
  readonly place: string
  readonly since: Moment | null
  readonly daysThere: number | null
  readonly fixture: Fixture | null
  readonly hours: HoursPair
  readonly photo: string | null
}

/** One line of words about a car: what is next, what holds it. */
export interface CarLine extends CarHeader {
  readonly next: string
  readonly held: string | null
  readonly onIt: readonly string[]
  readonly openRepairs: number
  readonly finishedRepairs: number
  readonly repairs: number
  readonly decisionsOpen: number
  readonly faults: readonly string[]
  readonly latePromise: boolean
}

export interface ShopFloorView {
  readonly now: Moment
  readonly workshop: string
  readonly peopleIn: number
  readonly clockedOn: readonly ClockView[]
  /** In now, with no clock running. */
  readonly notClocked: readonly PersonHere[]
  readonly awayToday: readonly PersonAway[]
  readonly photosToday: {
    readonly count: number
    /** The newest first, as many as a screen has room for. */
    readonly newest: readonly PhotoOfCar[]
  }
  readonly bays: readonly {
    readonly id: BayId
    readonly name: string
    readonly kinds: readonly string[]
    readonly storage: boolean
    readonly floor: {
      readonly x: number
      readonly y: number
      readonly width: number
      readonly height: number
    }
    readonly cars: readonly CarLine[]
    readonly bookings: readonly BookingView[]
  }[]
  readonly away: readonly (CarLine & {
    readonly awayId: AwayId
    readonly firm: string
    readonly what: string
    readonly expected: string
    readonly overdue: boolean
  })[]
  readonly nowhere: readonly CarLine[]
  readonly watches: readonly WatchView[]
  readonly forYou: {
    readonly releases: readonly {
      readonly carId: CarId
      readonly carName: string
      readonly repairId: RepairId
      readonly words: string
      readonly asked: Moment
    }[]
    readonly decisions: readonly {
      readonly carId: CarId
      readonly carName: string
      readonly title: string
      readonly since: Moment
    }[]
    readonly faults: readonly { readonly carId: CarId; readonly carName: string; readonly words: string }[]
    readonly reviews: readonly {
      readonly carId: CarId
      readonly carName: string
      readonly repairId: RepairId
      readonly repairName: string
    }[]
  }
  /** What goes astray; empty for a technician. */
  readonly attention: readonly AttentionGroup[]
  /** What may be done now, in sentences. */
  readonly today: readonly string[]
  /** Not exceeded with 80 %, of the cars that are planned; null where the planner cannot say. */
  readonly finishes: readonly { readonly carId: CarId; readonly finish80: Moment | null }[]
}

export interface PersonHere {
  readonly personId: PersonId
  readonly person: string
}

export interface PersonAway extends PersonHere {
  /** Last day of the absence; null for a day that is none of their working days. */
  readonly until: string | null
}

export interface PhotoOfCar extends PhotoView {
  readonly carId: CarId
  readonly carName: string
}

export interface BookingView {
  readonly bookingId: string
  readonly carId: CarId
  readonly carName: string
  readonly bayId: BayId
  readonly bayName: string
  readonly from: string
  readonly to: string
}

export interface CarsView {
  readonly cars: readonly CarLine[]
}

export interface CarView {
  readonly header: CarLine
  readonly repairs: readonly RepairCard[]
  readonly covers: readonly CoverView[]
  readonly fitGroups: readonly FitGroupView[]
  readonly sections: Readonly<Record<RepairId, SectionView>>
  readonly tasks: readonly TaskView[]
  readonly holds: readonly {
    readonly holdId: string
    readonly words: string
    readonly clears: string
    readonly expected: string | null
    readonly on: string
  }[]
  readonly faults: readonly string[]
  readonly fixturePlanned: FewFixture | null
  readonly safety: readonly { readonly item: 'bracing' | 'battery' | 'fuel'; readonly stands: boolean }[]
  readonly dimensions: readonly DimensionView[]
  readonly photos: readonly PhotoView[]
  readonly entries: readonly EntryView[]
  readonly variations: readonly VariationView[]
  readonly bookings: readonly BookingView[]
  readonly lifts: readonly {
    readonly repairs: readonly string[]
    readonly how: string
    readonly since: Moment
  }[]
  readonly visits: readonly {
    readonly visitId: VisitId
    readonly kind: 'agreed' | 'warranty'
    readonly status: VisitStatus
    readonly opened: Moment
    readonly current: boolean
    readonly ownerId: PartyId
    readonly insurerId: PartyId | null
    readonly charge: VisitState['charge']
  }[]
  readonly estimate: readonly EstimateLineView[]
}

export interface EstimateLineView {
  readonly lineId: LineId
  readonly repairId: RepairId | null
  readonly taskId: TaskId | null
  readonly gate: Gate | null
  readonly what: string
  readonly hours: ThreePoint
  readonly agreed: number
  readonly baseline: number
  readonly payer: Payer
  readonly accepted: boolean
}

export interface TaskView {
  readonly id: TaskId
  readonly name: string
  readonly plan: TaskState['plan']
  readonly status: 'open' | 'passed' | 'not needed'
  readonly skill: string
  readonly hours: HoursPair
  readonly left: LeftView | null
  readonly holds: readonly HoldView[]
  readonly done: Moment | null
  readonly by: string | null
  readonly waitsFor: readonly string[]
}

export interface DimensionView {
  readonly id: DimensionId
  readonly name: string
  readonly kind: 'aperture' | 'datum'
  readonly side: string
  readonly limitMm: number
  readonly targetMm: number
  readonly targetReason: string | null
  readonly asFoundMm: number
  readonly asFoundStood: Fixture
  readonly asFoundDoorsHung: boolean
  readonly readings: readonly {
    readonly at: Moment
    readonly by: string
    readonly mm: number
    readonly stood: Fixture
    readonly doorsHung: boolean
    /** Reading less target; null when it was not taken like the target. */
    readonly driftMm: number | null
    readonly inside: boolean | null
    readonly words: string
  }[]
}

export interface EntryView {
  readonly entryId: string
  readonly carId: CarId | null
  readonly personId: PersonId
  readonly person: string
  readonly what: string
  /** What it is logged on and in which shares, so that a correction can keep them. */
  readonly on: EntryState['on']
  readonly shares: EntryState['shares']
  readonly start: Moment | null
  readonly end: Moment | null
  readonly date: string
  readonly hours: number
  readonly running: boolean
  readonly confirmed: boolean
  readonly rework: boolean
  readonly cause: ReworkCause | null
  readonly by: 'clock' | 'hand'
  readonly number: number
}

export interface VariationView {
  readonly id: VariationId
  readonly carId: CarId
  readonly carName: string
  readonly owner: string
  readonly title: string
  readonly why: string
  readonly ifNot: string
  readonly payer: Payer
  readonly status: VariationStatus
  readonly raised: Moment
  readonly raisedBy: string
  /** Local date that the answer is expected on. */
  readonly expected: string | null
  readonly decided: Moment | null
  /** Who gave the code for the answer. */
  readonly decidedBy: string
  readonly decidedHow: string
  readonly decidedNote: string
  /** The payer accepted other hours or money than were asked for. */
  readonly changed: boolean
  readonly settledReason: string
  /** Person-hours that count: as asked, or as accepted. Negative for less work. */
  readonly hours: number
  readonly asked: HoursBand
  readonly lines: readonly {
    readonly what: string
    readonly target: WorkTarget
    readonly hours: number
    readonly asked: HoursBand
    readonly repairId: RepairId | null
  }[]
  /** Parts, materials and outside work; null where money is not shown to who asks. */
  readonly costs: readonly VariationCostView[] | null
  readonly findings: readonly FindingView[]
  readonly photos: readonly PhotoView[]
  readonly closedAsFound: boolean
}

export interface FindingView {
  readonly id: FindingId
  readonly repairId: RepairId
  readonly layer: string | null
  readonly kind: string
  readonly grade: string
  readonly extent: string
  readonly needs: string
  readonly at: Moment
  readonly by: string
  readonly photos: readonly PhotoView[]
}

/** One thing that the next gate asks for. */
export interface AskView {
  readonly key: string
  readonly kind:
    | 'photo before'
    | 'photo'
    | 'layer photo'
    | 'layer grade'
    | 'layer repaired'
    | 'safety'
    | 'review'
    | 'drains'
    | 'conditions'
    | 'fit-up'
    | 'dimension'
    | 'welds'
  readonly words: string
  readonly met: boolean
  /** What is there already: '2 of 2', '4.1 to 4.4 mm', 'not read yet'. */
  readonly have: string
  /** Photos that are still to be taken; 0 where none is asked for or all are there. */
  readonly photosMissing: number
  readonly layerId: string | null
  readonly subject: string | null
}

/** The hold's subject is the person. */
export interface SkillHoldView extends HoldView {
  /** A release was asked for. */
  readonly asked: boolean
}

export interface RepairView {
  readonly car: CarHeader
  readonly repair: RepairCard
  readonly section: SectionView
  readonly visitId: VisitId
  readonly next: {
    readonly gate: Gate
    readonly skill: string
    readonly bayKind: string
    readonly people: number
    readonly hotWork: boolean
    readonly hours: ThreePoint
    readonly asks: readonly AskView[]
    readonly holds: readonly HoldView[]
    /** One for each person who lacks the skill: it stands only if they are said to have done the work. */
    readonly skillHolds: readonly SkillHoldView[]
    readonly mayPass: boolean
    readonly cautions: readonly string[]
    readonly secondSignature: boolean
  } | null
  /** All gates with their own state, for the manager's actions. */
  readonly gates: readonly {
    readonly gate: Gate
    readonly mark: GateMark
    readonly plan: {
      readonly hours: ThreePoint
      readonly skill: string
      readonly bayKind: string
      readonly hotWork: boolean
      readonly cureHours: number
    }
    readonly hours: HoursPair
    readonly left: LeftView | null
    readonly note: string
    readonly photos: readonly PhotoView[]
    readonly number: number | null
    readonly reopenedWhy: string | null
  }[]
  readonly covers: readonly {
    readonly id: RepairId
    readonly name: string
    readonly direction: 'covers' | 'covered by'
  }[]
  readonly fitGroups: readonly FitGroupView[]
  readonly dimensions: readonly DimensionView[]
  readonly conditions: readonly {
    readonly at: Moment
    readonly by: string
    readonly gate: Gate
    readonly airC: number
    readonly humidityPercent: number
    readonly steelC: number
    readonly dewPointC: number
    readonly marginC: number
    readonly inside: boolean
    readonly words: string
  }[]
  readonly welds: readonly {
    readonly jointId: string
    readonly name: string
    readonly kind: string
    readonly planned: number
    readonly done: number
  }[]
  readonly parts: readonly {
    readonly id: PartId
    readonly name: string
    readonly gate: Gate
    readonly state: PartState
    readonly expected: string | null
    readonly reason: string
  }[]
  readonly findings: readonly FindingView[]
  readonly photos: readonly PhotoView[]
  readonly clocks: readonly ClockView[]
  readonly watches: readonly WatchView[]
  readonly entries: readonly EntryView[]
  readonly variations: readonly VariationView[]
  readonly zoneWords: string
  readonly plan: RepairState['plan']
}

export interface DaySheetView {
  readonly now: Moment
  readonly personId: PersonId
  readonly person: string
  readonly skills: readonly string[]
  readonly clock: ClockView | null
  readonly hoursToday: number
  readonly hoursThisWeek: number
  readonly dayEnds: Moment | null
  readonly entries: readonly EntryView[]
  readonly watches: readonly WatchView[]
  /** The person's own clocks that ran past the end of their day and wait to be confirmed. */
  readonly toConfirm: readonly ClockView[]
  readonly canDo: readonly DaySheetLine[]
  readonly waits: readonly DaySheetLine[]
}

export interface DaySheetLine {
  readonly carId: CarId
  readonly carName: string
  readonly body: Body
  readonly shellNumber: string
  readonly place: string
  readonly repairId: RepairId | null
  readonly taskId: TaskId | null
  readonly name: string
  readonly zone: Zone | null
  readonly gate: Gate | null
  readonly hotWork: boolean
  readonly marks: readonly GateMark[]
  readonly hours: HoursPair
  readonly likelyHours: number
  /** What is still asked for, in words; empty when only the signature is missing. */
  readonly missing: readonly string[]
  /** Photos that are still asked for, so that one can be taken from the line. */
  readonly photoAsks: readonly AskView[]
  readonly holds: readonly HoldView[]
  readonly section: SectionView | null
  readonly promised: string | null
  /** When the plan in force has this person start on it; null when it is not given to them. */
  readonly planned: Moment | null
}

export interface OwnerDecisionsView {
  readonly open: readonly VariationView[]
  readonly declined: readonly VariationView[]
  readonly answered: readonly VariationView[]
  readonly unaccepted: readonly {
    readonly carId: CarId
    readonly carName: string
    readonly owner: string
    readonly payer: Payer
    readonly hours: number
    readonly lines: number
    readonly visitId: VisitId
  }[]
}

/** How the repairs that came from a type stand to its version now: those not finished, on cars not delivered. */
export interface TypeUseView {
  readonly version: number
  /** How many carry that version. */
  readonly current: number
  /** Cars with repairs that carry an older one. */
  readonly cars: readonly {
    readonly carId: CarId
    readonly carName: string
    readonly older: readonly {
      readonly repairId: RepairId
      readonly name: string
      readonly version: number | null
      /** Gates not done whose plan the version now would change. */
      readonly changes: readonly Gate[]
    }[]
  }[]
}

export interface RecordView {
  readonly lines: readonly {
    readonly number: number
    readonly kind: string
    readonly happened: Moment
    readonly recorded: Moment
    readonly by: string
    readonly words: string
    readonly voided: boolean
    readonly mayVoid: boolean
    readonly repairId: RepairId | null
  }[]
  readonly head: string
}
