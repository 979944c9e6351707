import { ASKS_NOTHING } from '../../domain/catalogue/type-plan.ts'
import type { GatePlan, RepairPlan, TaskPlan } from '../../domain/facts/shapes.ts'
import { type Gate, GATES } from '../../domain/gates.ts'
import { layerIdSchema } from '../../domain/ids.ts'

/** Two hours' work for one person with metalwork skill; asks for nothing unless overridden. */
export const gatePlan = (over: Partial<GatePlan> = {}): GatePlan => ({
  hours: { shortest: 1, likely: 2, longest: 3 },
  skill: 'metalwork',
  people: 1,
  bayKind: 'metalwork',
  hotWork: false,
  cureHours: 0,
  window: null,
  asks: ASKS_NOTHING,
  ...over,
})

export type RepairPlanOver = Partial<Omit<RepairPlan, 'gates'>> & {
  readonly gates?: Partial<Record<Gate, Partial<GatePlan>>>
}

/** A right rear repair with an inner panel and a closing plate. */
export const repairPlan = (name: string, { gates = {}, ...over }: RepairPlanOver = {}): RepairPlan => ({
  name,
  zone: { side: 'right', place: 'rear' },
  on: 'shell',
  loadBearing: false,
  primedFirst: false,
  outer: false,
  layers: [
    { layerId: layerId(name, 'inner'), name: 'inner panel', thicknessMm: 1.6, loadBearing: false },
    { layerId: layerId(name, 'closing'), name: 'closing plate', thicknessMm: 1.2, loadBearing: false },
  ],
  welds: [],
  parts: [],
  ...over,
  gates: Object.fromEntries(GATES.map((gate) => [gate, gatePlan(gates[gate])])) as RepairPlan['gates'],
})

export const taskPlan = (name: string, over: Partial<TaskPlan> = {}): TaskPlan => ({
  name,
  hours: { shortest: 2, likely: 4, longest: 6 },
  skill: 'paint',
  people: 1,
  bayKind: 'booth',
  hotWork: false,
  cureHours: 0,
  photos: 0,
  payer: 'owner',
  waitsFor: [],
  holds: [],
  ...over,
})

export const layerId = (repair: string, layer: string) =>
  layerIdSchema.parse(`layer-${slug(repair)}-${layer}`)

/** What an id may hold: lower-case letters, digits and dashes. */
export const slug = (name: string): string => name.toLowerCase().replace(/[^a-z0-9]+/g, '-')
