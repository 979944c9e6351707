import type { CarState, RepairState, VisitState } from '../car.ts'
import type { ThreePoint } from '../facts/shapes.ts'
import { eachGate, type Gate } from '../gates.ts'
import { isDone } from '../rules/standing.ts'
import type { HoursContext } from '../value/entry-hours.ts'
import { expectedHours } from '../value/estimated-hours.ts'
import { hiddenLayersOf, worstGrade } from './finished-repair.ts'
import type { GateToEstimate, RepairToEstimate } from './repair-band.ts'
import { repairHoursIn } from './repair-hours.ts'

/**
 * A repair as it stands, over the visits since it was added; warranty visits count for repairs that were added in them. A
 * gate without an estimate line is estimated by its plan.
 *
 * @param what what it is called among its like, in the plural
 */
export function repairToEstimate(
  car: CarState,
  repair: RepairState,
  what: string,
  context: HoursContext,
): RepairToEstimate {
  const visits = visitsOf(car, repair)
  const hours = repairHoursIn(car, visits, context)(repair)
  const lines = linesOf(repair, visits)
  const hidden = hiddenLayersOf(repair)
  const gates = eachGate((gate): GateToEstimate => {
    const line = lines.get(gate)
    const status = repair.gates[gate].status
    const points = line ?? repair.plan.gates[gate].hours
    const planned = line === undefined ? expectedHours(points) : 0
    const { before, assessed, actual, rework } = hours[gate]
    return {
      before: before + planned,
      assessed: status === 'not needed' ? 0 : assessed + planned,
      points,
      isDone: status !== 'open',
      spent: actual,
      rework,
    }
  })
  return {
    typeId: repair.typeId,
    what,
    outside: repair.outside?.grade ?? null,
    hiddenLayers: hidden.length,
    taken: repair.taken,
    worstHidden: isDone(repair, 'assessed') ? worstGrade(hidden.map(({ grade }) => grade)) : null,
    gates,
  }
}

/** What is left open at closed as found is given back: it is done, and nothing is estimated for it. */
export function withoutOpenGates(repair: RepairToEstimate): RepairToEstimate {
  const gates = eachGate((gate) => {
    const known = repair.gates[gate]
    return known.isDone ? known : { ...known, assessed: 0, isDone: true }
  })
  return { ...repair, gates }
}

function visitsOf(car: CarState, repair: RepairState): readonly VisitState[] {
  const first = car.visits.get(repair.visitId)?.opened.number ?? 0
  return [...car.visits.values()].filter(
    ({ id, kind, opened }) => opened.number >= first && (id === repair.visitId || kind === 'agreed'),
  )
}

/** Three points of the first line of each gate. */
function linesOf({ id }: RepairState, visits: readonly VisitState[]): ReadonlyMap<Gate, ThreePoint> {
  const points = new Map<Gate, ThreePoint>()
  for (const { lines } of visits)
    for (const { target, hours } of lines.values())
      if (target.kind === 'gate' && target.repairId === id && !points.has(target.gate))
        points.set(target.gate, hours)
  return points
}
