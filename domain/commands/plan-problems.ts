import type { RepairPlan } from '../facts/shapes.ts'
import { gateOrder, GATES } from '../gates.ts'
import { firstRefusal, refuseIf, type Refused } from './deciders.ts'

/** What the shape of a plan cannot say: ids that are told apart, and windows that start before they end. */
export const planRefusal = (plan: RepairPlan): Refused | null => {
  const order = gateOrder(plan)
  const lateWindow = GATES.find((gate) => {
    const { window } = plan.gates[gate]
    return window !== null && order.indexOf(window.after) >= order.indexOf(gate)
  })
  return firstRefusal(
    twiceRefusal(
      plan.layers.map((layer) => layer.layerId),
      'layers',
    ),
    twiceRefusal(
      plan.welds.map((joint) => joint.jointId),
      'weld joints',
    ),
    twiceRefusal(
      plan.parts.map((part) => part.partId),
      'parts',
    ),
    refuseIf(
      lateWindow !== undefined,
      'bad-input',
      `The window of ${lateWindow} starts at a gate that comes after it.`,
      'Let the window start at an earlier gate.',
    ),
  )
}

const twiceRefusal = (ids: readonly string[], what: string): Refused | null =>
  refuseIf(
    new Set(ids).size !== ids.length,
    'bad-input',
    `Two ${what} have the same id.`,
    'Reload the screen and try again.',
  )
