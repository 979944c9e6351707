import {
  jointIdSchema,
  layerIdSchema,
  partIdSchema,
  typeIdSchema,
  type RepairId,
  type TypeId,
} from '../ids.ts'
import type { GateAsks, GatePlan, RepairPlan, ThreePoint, Zone } from '../facts/shapes.ts'
import { eachGate, GATES, type Gate } from '../gates.ts'
import { usualSettings } from '../usual-workshop.ts'

export interface CatalogueType {
  readonly typeId: TypeId
  readonly plan: RepairPlan
}

/** What is particular to one repair type; all the rest follows from the usual practice per gate. */
export interface TypeOutline {
  readonly zone: Zone
  readonly on?: RepairPlan['on']
  readonly loadBearing?: boolean
  readonly outer?: boolean
  readonly primedFirst?: boolean
  /** Where the metal work is done when that is not a metalwork bay. */
  readonly bay?: 'jig' | 'lift'
  /** Person-hours that each gate most likely takes, in the order of GATES. */
  readonly hours: readonly [number, number, number, number, number, number, number, number]
  /** How many work together, where it is not one. */
  readonly people?: Partial<Record<Gate, number>>
  /** Innermost first: name, thickness in mm. */
  readonly layers: readonly (readonly [string, number])[]
  /** Spots and plugs by count, seams by length in mm. */
  readonly welds: readonly (readonly [string, 'spot' | 'plug' | 'seam', number])[]
  readonly parts?: readonly (readonly [string, Gate])[]
}

/** A whole repair type from its outline. `slug` makes its ids, so that they are the same in every workshop. */
export const createType = (slug: string, name: string, outline: TypeOutline): CatalogueType => {
  const { zone, on = 'shell', loadBearing = false, outer = false, primedFirst = false } = outline
  return {
    typeId: typeIdSchema.parse(`type-${slug}`),
    plan: {
      name,
      zone,
      on,
      loadBearing,
      primedFirst,
      outer,
      layers: outline.layers.map(([layer, thicknessMm], n) => ({
        layerId: layerIdSchema.parse(`type-${slug}-y${n}`),
        name: layer,
        thicknessMm,
        loadBearing,
      })),
      gates: eachGate((gate) => gatePlan(gate, outline.hours[GATES.indexOf(gate)] ?? 0, outline)),
      welds: outline.welds.map(([joint, kind, planned], n) => ({
        jointId: jointIdSchema.parse(`type-${slug}-j${n}`),
        name: joint,
        kind,
        planned,
      })),
      parts: (outline.parts ?? []).map(([part, gate], n) => ({
        partId: partIdSchema.parse(`type-${slug}-p${n}`),
        name: part,
        gate,
      })),
    },
  }
}

/** A repair's own copy of its type's plan: layers, joints and parts get ids that derive from the repair's (at most 57 characters). */
export const planFromType = (
  plan: RepairPlan,
  own: { readonly repairId: RepairId; readonly name: string; readonly zone: Zone },
): RepairPlan => ({
  ...plan,
  name: own.name,
  zone: own.zone,
  layers: plan.layers.map((layer, n) => ({
    ...layer,
    layerId: layerIdSchema.parse(`${own.repairId}-y${n}`),
  })),
  welds: plan.welds.map((joint, n) => ({
    ...joint,
    jointId: jointIdSchema.parse(`${own.repairId}-j${n}`),
  })),
  parts: plan.parts.map((part, n) => ({ ...part, partId: partIdSchema.parse(`${own.repairId}-p${n}`) })),
})

const gatePlan = (gate: Gate, likely: number, outline: TypeOutline): GatePlan => ({
  hours: around(likely, SPREAD[gate]),
  skill: SKILLS[gate],
  people: outline.people?.[gate] ?? 1,
  bayKind: bayKind(gate, outline),
  hotWork: gate === 'opened' || gate === 'fabricated' || gate === 'welded',
  cureHours: CURE_HOURS[gate] ?? 0,
  window: gateWindow(gate, outline.primedFirst ?? false),
  asks: gateAsks(gate, outline.loadBearing ?? false),
})

/** Common practice, no source: who does which gate in a workshop where trades are told apart. */
const SKILLS: Readonly<Record<Gate, string>> = {
  opened: 'sheet metal',
  assessed: 'sheet metal',
  fabricated: 'sheet metal',
  sealed: 'preparation',
  primed: 'preparation',
  'trial-fitted': 'fitting',
  welded: 'welding',
  painted: 'painting',
}

/** Common practice, no source: shortest and longest as shares of the likeliest; what is hidden strays furthest. */
const SPREAD: Readonly<Record<Gate, readonly [number, number]>> = {
  opened: [0.7, 1.7],
  assessed: [0.7, 1.5],
  fabricated: [0.6, 2.2],
  sealed: [0.75, 1.5],
  primed: [0.75, 1.5],
  'trial-fitted': [0.6, 2],
  welded: [0.75, 1.6],
  painted: [0.75, 1.5],
}

/** Common practice, no source; the product's data sheet goes first. */
const CURE_HOURS: Partial<Readonly<Record<Gate, number>>> = { sealed: 12, primed: 12, painted: 16 }

const QUARTER_HOUR = 0.25

const around = (likely: number, [low, high]: readonly [number, number]): ThreePoint => ({
  shortest: quarterHours(likely * low),
  likely: quarterHours(likely),
  longest: quarterHours(likely * high),
})

const quarterHours = (hours: number): number =>
  Math.max(QUARTER_HOUR, Math.round(hours / QUARTER_HOUR) * QUARTER_HOUR)

/** Covered repairs are coated where they stand; outer ones get their finish, or a temporary coat, in preparation. */
const bayKind = (gate: Gate, { on, outer, bay }: TypeOutline): string => {
  if (on === 'part') return 'bench'
  return gate === 'painted' && outer === true ? 'preparation' : (bay ?? 'metalwork')
}

/** Common practice, no source: bare steel is primed within days, over curing sealer a little later; welds are coated within a week. */
const gateWindow = (gate: Gate, primedFirst: boolean): GatePlan['window'] => {
  if (gate === 'primed') return { after: 'fabricated', hours: primedFirst ? 72 : 120 }
  return gate === 'painted' ? { after: 'welded', hours: 168 } : null
}

export const ASKS_NOTHING: GateAsks = {
  photosBefore: 0,
  photos: 0,
  layerPhotos: 'none',
  safety: false,
  review: false,
  drains: false,
  conditions: null,
  fitUp: false,
  dimensions: false,
  welds: false,
  secondSignature: false,
}

/** What each gate asks for by default; reference dimensions matter where the metal carries load. */
const gateAsks = (gate: Gate, loadBearing: boolean): GateAsks => {
  switch (gate) {
    case 'opened':
      return { ...ASKS_NOTHING, photosBefore: 1, photos: 1, safety: true }
    case 'assessed':
      return { ...ASKS_NOTHING, layerPhotos: 'graded' }
    case 'fabricated':
      return { ...ASKS_NOTHING, layerPhotos: 'repaired', review: true }
    case 'sealed':
      return { ...ASKS_NOTHING, photos: 1, drains: true }
    case 'primed':
      return { ...ASKS_NOTHING, photos: 1, conditions: usualSettings.conditions }
    case 'trial-fitted':
      return { ...ASKS_NOTHING, photos: 1, fitUp: true, dimensions: loadBearing }
    case 'welded':
      return { ...ASKS_NOTHING, photos: 1, welds: true, fitUp: true, dimensions: loadBearing }
    case 'painted':
      return { ...ASKS_NOTHING, photos: 1 }
  }
}
