import type { CarState, RepairState, VisitState } from '../car.ts'
import { eachGate, GATES, type Gate } from '../gates.ts'
import type { RepairId } from '../ids.ts'
import type { HoursContext } from '../value/entry-hours.ts'
import { visitFigures } from '../value/hours.ts'
import { targetKey } from '../value/target.ts'
import { isAgreed } from '../value/varied-hours.ts'

/** What was said of a gate and what it took, over one or more visits. Person-hours. */
export interface GateHours {
  /** First estimate, for ever; what moved with a split or merge is counted where it went. */
  readonly before: number
  /** Estimate as it stands, with accepted variations; 0 for a gate that turned out not to be needed. */
  readonly assessed: number
  /** Spent, rework among it. */
  readonly actual: number
  /** Spent after it had been passed once. */
  readonly rework: number
}

export type RepairHours = Readonly<Record<Gate, GateHours>>

/** By repair; gates without lines and hours stand at 0. */
export function repairHoursIn(
  car: CarState,
  visits: readonly VisitState[],
  context: HoursContext,
): (repair: RepairState) => RepairHours {
  const rows = new Map<string, Row>()
  for (const visit of visits) {
    addEstimates(rows, car, visit)
    for (const [key, { hours }] of visitFigures(car, visit.id, context)) {
      const row = rowOf(rows, key)
      row.actual += hours.spent
      row.rework += hours.rework
    }
  }
  return (repair) => eachGate((gate) => gateHours(rows, repair, gate))
}

export const sumOf = (hours: RepairHours, figure: keyof GateHours): number =>
  GATES.reduce((sum, gate) => sum + hours[gate][figure], 0)

type Row = { -readonly [Figure in keyof GateHours]: number }

function addEstimates(rows: Map<string, Row>, car: CarState, visit: VisitState): void {
  for (const { target, baseline, agreed, moved } of visit.lines.values()) {
    const row = rowOf(rows, targetKey(target))
    row.before += baseline.agreed + moved
    row.assessed += agreed + moved
  }
  for (const { visitId, status, lines } of car.variations.values()) {
    if (visitId !== visit.id || !isAgreed(status)) continue
    for (const { target, hours } of lines) rowOf(rows, targetKey(target)).assessed += hours
  }
}

function rowOf(rows: Map<string, Row>, key: string): Row {
  const row = rows.get(key) ?? { before: 0, assessed: 0, actual: 0, rework: 0 }
  rows.set(key, row)
  return row
}

function gateHours(rows: ReadonlyMap<string, Row>, { id, gates }: RepairState, gate: Gate): GateHours {
  const { before, assessed, actual, rework } = rows.get(gateKey(id, gate)) ?? NOTHING
  const isNeeded = gates[gate].status !== 'not needed'
  return {
    before: Math.max(0, before),
    assessed: isNeeded ? Math.max(0, assessed) : 0,
    actual,
    rework,
  }
}

const NOTHING: GateHours = { before: 0, assessed: 0, actual: 0, rework: 0 }

const gateKey = (repairId: RepairId, gate: Gate): string => targetKey({ kind: 'gate', repairId, gate })
