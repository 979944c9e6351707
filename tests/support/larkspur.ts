import { ASKS_NOTHING } from '../../domain/catalogue/type-plan.ts'
import type { CommandPayload } from '../../domain/commands/command-shapes.ts'
import { type Gate, GATES } from '../../domain/gates.ts'
import { variationIdSchema, visitIdSchema, type CarId, type RepairId } from '../../domain/ids.ts'
import { repairId } from './car-builder.ts'
import { repairPlan, type RepairPlanOver } from './plans.ts'
import { metalBay, welder, type Workshop } from './workshop.ts'

/** The Larkspur 4, shell S-101, on stands in bay Metal 1, its owner R. Okafor. Nothing is to be done on it yet. */
export function bringInLarkspur(workshop: Workshop): CarId {
  const carId = workshop.addCar('Larkspur 4', 'S-101')
  workshop.run('moveShell', { bayId: metalBay, fixture: 'stands', note: '' }, { carId })
  return carId
}

export interface RepairToAdd extends Pick<Partial<CommandPayload<'addRepair'>>, 'covers' | 'payer' | 'type'> {
  readonly plan?: RepairPlanOver
  /** The last gate that the welder has passed already. */
  readonly passed?: Gate
  /** False leaves the estimate to be accepted by its payer. */
  readonly accepted?: boolean
}

/** Adds a repair and brings it to where the test begins. Its passed gates ask for grades and nothing else. */
export function addRepair(workshop: Workshop, carId: CarId, name: string, more: RepairToAdd = {}): RepairId {
  const { plan, covers = [], payer = 'owner', type = null, passed, accepted = true } = more
  const id = repairId(name)
  workshop.run(
    'addRepair',
    { repairId: id, type, plan: repairPlan(name, plan), payer, covers, coveredBy: [] },
    { carId },
  )
  if (accepted) acceptAll(workshop, carId)
  if (passed !== undefined) passTo(workshop, carId, id, passed)
  return id
}

/** A boot floor in work, for which the owner is asked for two hours more. */
export function withOwnerAsked(workshop: Workshop): void {
  const carId = bringInLarkspur(workshop)
  const repairId = addRepair(workshop, carId, 'Boot floor', { passed: 'assessed' })
  const target = { kind: 'gate', repairId, gate: 'fabricated' } as const
  workshop.run(
    'raiseVariation',
    {
      variationId: variationIdSchema.parse('variation-longer'),
      visitId: visitIdSchema.parse('visit-s-101'),
      payer: 'owner',
      title: 'A longer section',
      why: 'The flange is gone.',
      ifNot: '',
      findings: [],
      attachments: [],
      lines: [{ target, low: 1, hours: 2, high: 4 }],
      costs: [],
    },
    { carId },
  )
}

/** A gate that asks for so many photos. */
export const photosOnly = (photos: number) => ({ asks: { ...ASKS_NOTHING, photos } })

/** Passes the gates up to this one, each a quarter of an hour after the one before. */
export function passTo(workshop: Workshop, carId: CarId, id: RepairId, last: Gate): void {
  for (const gate of GATES.slice(0, GATES.indexOf(last) + 1)) {
    if (workshop.car(carId).repairs.get(id)?.gates[gate].status !== 'open') continue
    workshop.pass({ minutes: 15 })
    if (gate === 'assessed') gradeLayers(workshop, carId, id)
    const coat = gate === 'painted' ? ('protective' as const) : null
    workshop.run('passGate', { repairIds: [id], gate, did: [welder], coat, note: '' }, { carId, by: welder })
  }
}

function gradeLayers(workshop: Workshop, carId: CarId, id: RepairId): void {
  for (const { layerId } of workshop.car(carId).repairs.get(id)?.plan.layers ?? []) {
    const found = { grade: 'surface', judgedBy: '', remainingMm: null, decision: 'keep' } as const
    workshop.run('gradeLayer', { repairId: id, layerId, ...found }, { carId, by: welder })
  }
}

function acceptAll(workshop: Workshop, carId: CarId): void {
  const visitId = visitIdSchema.parse(workshop.car(carId).currentVisit)
  const lines = workshop.car(carId).visits.get(visitId)?.lines.values() ?? []
  const lineIds = [...lines].filter(({ payer }) => payer === 'owner').map(({ lineId }) => lineId)
  workshop.run(
    'acceptEstimate',
    { visitId, payer: 'owner', lineIds, costIds: [], how: 'letter', note: '' },
    { carId },
  )
}
