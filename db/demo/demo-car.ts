import type { Body } from '../../domain/facts/car-facts.ts'
import type { CostKind } from '../../domain/facts/money-facts.ts'
import type {
  Decision,
  FindingKind,
  Fixture,
  Grade,
  Payer,
  ReworkCause,
  Side,
  Zone,
} from '../../domain/facts/shapes.ts'
import type { Gate } from '../../domain/gates.ts'
import { bayIdSchema, type BayId } from '../../domain/ids.ts'
import type { DemoPartyKey } from './demo-people.ts'
import type { DemoBodyColour } from './photos/create-demo-photo.ts'

/**
 * What is to become of one car of the demo. Days are working days counted from the day the demo is filled up to (0);
 * earlier ones are negative. The rules decide what can be done when; this only says what is aimed at.
 */
export interface DemoCar {
  readonly key: string
  readonly shellNumber: string
  readonly name: string
  readonly body: Body
  readonly year: number
  readonly colour: DemoBodyColour
  readonly primer: 'red oxide primer' | 'grey primer' | 'green primer'
  readonly owner: DemoPartyKey
  readonly insurer?: DemoPartyKey
  readonly priority: 1 | 2 | 3
  readonly charge: 'hour' | 'fixed' | { readonly capHours: number }
  readonly promised: number
  readonly arrives: number
  /** How far the work shall have come on which days, as shares of all that is aimed at; even in between. */
  readonly pace: readonly (readonly [day: number, share: number])[]
  /** What the owner accepts of the first estimate. */
  readonly accepts: 'all' | 'opened and assessed'
  readonly stays: readonly DemoStay[]
  readonly away?: DemoAway
  /** Read as found on the day of the given stay, without doors. */
  readonly dimensions: readonly (readonly [
    name: string,
    kind: 'aperture' | 'datum',
    side: Side,
    mm: number,
  ])[]
  readonly measuredFrom: number
  readonly tasks: readonly DemoTask[]
  /** What is covered stands before what covers it. */
  readonly repairs: readonly DemoRepair[]
  readonly groups: readonly DemoGroup[]
  readonly lift?: { readonly repairs: readonly string[]; readonly how: string }
  readonly paused?: { readonly from: number; readonly to: number; readonly reason: string }
  readonly hold?: {
    readonly repair: string
    readonly gate: Gate
    readonly words: string
    readonly clears: string
    readonly set: number
    readonly expected: number
  }
  readonly notes: readonly (readonly [day: number, text: string])[]
  readonly finished?: number
  readonly delivered?: number
}

export type DemoBay = 'bay 1' | 'bay 2' | 'bay 3' | 'bay 4' | 'bay 5' | 'booth' | 'yard'

export const demoBayId: Readonly<Record<DemoBay, BayId>> = {
  'bay 1': bayIdSchema.parse('bay-1-metalwork'),
  'bay 2': bayIdSchema.parse('bay-2-metalwork'),
  'bay 3': bayIdSchema.parse('bay-3-jig'),
  'bay 4': bayIdSchema.parse('bay-4-lift'),
  'bay 5': bayIdSchema.parse('bay-5-preparation'),
  booth: bayIdSchema.parse('bay-6-booth'),
  yard: bayIdSchema.parse('bay-7-yard'),
}

export interface DemoStay {
  readonly from: number
  /** Of the last stay only: the last day of its booking. */
  readonly to?: number
  readonly bay: DemoBay
  readonly on: Fixture
}

export interface DemoAway {
  readonly firm: DemoPartyKey
  readonly what: string
  readonly from: number
  readonly expected: number
  readonly back: number
  readonly bay: DemoBay
  readonly on: Fixture
  readonly tookBack: readonly (readonly [repair: string, gate: Gate])[]
  readonly uncovered: string
  readonly reason: string
}

export interface DemoTask {
  readonly key: string
  readonly name: string
  /** Person-hours: shortest, likely, longest. */
  readonly hours: readonly [number, number, number]
  readonly skill: string
  readonly people?: number
  readonly bay: string
  readonly photos: number
  readonly cureHours?: number
  /** Comes before any repair is opened. */
  readonly first?: boolean
  readonly waitsFor?: readonly string[]
  /** Waits until every repair of the car is finished. */
  readonly afterRepairs?: boolean
  /** Worked between these days whenever there is nothing more pressing, evenly if it can be. */
  readonly spare?: readonly [from: number, to: number]
  /** Share of its hours that is worked: 1 signs it, less leaves it begun; 0 when left out. */
  readonly share?: number
}

export interface DemoRepair {
  readonly key: string
  /** The catalogue's type, without 'type-'. */
  readonly type: string
  readonly name: string
  readonly zone: Zone
  readonly covers: readonly string[]
  /** The last gate that is passed; null leaves the repair untouched. */
  readonly goal: Gate | null
  /** Found at assessed, innermost first; the usual run of things when left out. */
  readonly grades?: readonly (Grade | 'not seen')[]
  /** Nothing is done on it before this day. */
  readonly from?: number
  /** Clock hours, in place of the type's. */
  readonly cures?: Partial<Readonly<Record<Gate, number>>>
  readonly payer?: Payer
  readonly notNeeded?: readonly (readonly [gate: Gate, reason: string])[]
  readonly variation?: DemoVariation
  /** Parts ordered here do not come, or come wrong the first time. */
  readonly parts?: 'late' | 'rejected once'
  /** Hours really taken, as a share of those agreed, before chance has its say. */
  readonly takes?: number
  /** Added on this day, after the first estimate. */
  readonly added?: number
}

export interface DemoVariation {
  readonly title: string
  readonly why: string
  readonly ifNot: string
  readonly finding: { readonly kind: FindingKind; readonly extent: string; readonly needs: string }
  readonly hours: Partial<Readonly<Record<Gate, number>>>
  /** In minor units of the currency. */
  readonly costs?: readonly { readonly kind: CostKind; readonly name: string; readonly amount: number }[]
  /** Not put to the payer before this day. */
  readonly from?: number
  /** Working days until the answer; the question is still open when left out. */
  readonly answer?: {
    readonly after: number
    readonly decision: 'accepted' | 'declined'
    /** Hours accepted in place of those asked for; the costs as they were asked. */
    readonly changed?: Partial<Readonly<Record<Gate, number>>>
    readonly how: 'letter' | 'call' | 'visit' | 'message'
    readonly note: string
    readonly settles?:
      | { readonly choice: 'workshop pays' | 'less work'; readonly reason: string }
      | { readonly choice: 'closed as found'; readonly protection: string }
  }
}

export interface DemoGroup {
  readonly key: string
  readonly name: string
  readonly members: readonly string[]
  readonly hungParts: readonly string[]
  /** Name, nominal and tolerance in mm. */
  readonly edges: readonly (readonly [name: string, nominalMm: number, toleranceMm: number])[]
  /** The first fit-up is not good: what is reopened then. */
  readonly firstFails?: {
    readonly repair: string
    readonly gate: Gate
    readonly cause: ReworkCause
    readonly note: string
    readonly reason: string
  }
}

export const zone = (side: Zone['side'], place: Zone['place']): Zone => ({ side, place })

export const isSameZone = (a: Zone, b: Zone): boolean => a.side === b.side && a.place === b.place

/** What a workshop usually does about a layer. */
export const usualDecision: Readonly<Record<Grade | 'not seen', Decision>> = {
  sound: 'keep',
  surface: 'treat',
  pitted: 'treat',
  holed: 'patch',
  gone: 'replace',
  'not seen': 'treat',
}

/** The tasks around the repairs that nearly every shell needs. */
export const stripTask = (likely: number, share = 1): DemoTask => ({
  key: 'strip',
  name: 'Strip the shell',
  hours: [likely * 0.7, likely, likely * 1.6],
  skill: 'fitting',
  people: 2,
  bay: 'metalwork',
  photos: 1,
  first: true,
  share,
})

/** What hands without a gate to work on turn to. */
export const partsTask = (
  likely: number,
  spare: readonly [from: number, to: number],
  share = 0.8,
): DemoTask => ({
  key: 'parts',
  name: 'Clean, sort and label parts',
  hours: [likely * 0.6, likely, likely * 1.4],
  skill: 'any',
  people: 2,
  bay: 'bench',
  photos: 0,
  spare,
  share,
})

export const leadTask = (likely: number, share = 0): DemoTask => ({
  key: 'lead',
  name: 'Lead and fill',
  hours: [likely * 0.7, likely, likely * 1.5],
  skill: 'preparation',
  people: 2,
  bay: 'preparation',
  photos: 0,
  afterRepairs: true,
  share,
})

export const paintTask = (likely: number, share = 0): DemoTask => ({
  key: 'paint',
  name: 'Paint the shell',
  hours: [likely * 0.8, likely, likely * 1.4],
  skill: 'painting',
  people: 2,
  bay: 'booth',
  photos: 1,
  cureHours: 48,
  waitsFor: ['lead'],
  share,
})

export const waxTask = (likely: number, share = 0): DemoTask => ({
  key: 'wax',
  name: 'Wax the cavities',
  hours: [likely * 0.8, likely, likely * 1.3],
  skill: 'preparation',
  bay: 'preparation',
  photos: 0,
  waitsFor: ['paint'],
  share,
})

export const refitTask = (likely: number, share = 0): DemoTask => ({
  key: 'refit',
  name: 'Refit doors, glass and trim',
  hours: [likely * 0.7, likely, likely * 1.6],
  skill: 'fitting',
  people: 2,
  bay: 'lift',
  photos: 1,
  waitsFor: ['wax'],
  share,
})
