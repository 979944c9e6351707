import type { RepairState } from '../car.ts'
import { type Gate, gateOrder } from '../gates.ts'
import { isActive, nextGate } from '../rules/standing.ts'
import { mayBeWorkedOn } from './hold-view.ts'
import type { GateMark, HoldView, MarkKind, NameOf } from './shared-views.ts'
import { stampName } from './view-context.ts'

/** The strip of a repair's gates in its own order; `nextHolds` are the holds on its next gate. */
export function gateMarks(
  repair: RepairState,
  nextHolds: readonly HoldView[],
  nameOf: NameOf,
): readonly GateMark[] {
  const next = nextGate(repair)
  return gateOrder(repair.plan).map((gate) => {
    const { done } = repair.gates[gate]
    return {
      gate,
      mark: markOf(repair, gate, next, nextHolds),
      done: done?.stamp.happened ?? null,
      by: done === null ? null : stampName(done.stamp, nameOf),
    }
  })
}

function markOf(
  repair: RepairState,
  gate: Gate,
  next: Gate | null,
  nextHolds: readonly HoldView[],
): MarkKind {
  const { status } = repair.gates[gate]
  if (status !== 'open') return status
  if (repair.closedAsFound !== null && isActive(repair)) return 'as found'
  if (gate !== next) return 'later'
  return mayBeWorkedOn(nextHolds) ? 'next' : 'held'
}
