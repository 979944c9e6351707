import type { CarState, RepairState } from '../car.ts'
import type { Gate } from '../gates.ts'
import type { RepairId, TaskId } from '../ids.ts'
import { agreementHolds } from './agreement-holds.ts'
import { gateAsks } from './asks.ts'
import { fitHolds } from './fit-holds.ts'
import { hold, type Hold, type HoldContext } from './hold.ts'
import { orderHolds } from './order-holds.ts'
import { handHolds, partHolds, skillHolds, taskOrderHolds, taskWaits, watchHolds } from './work-holds.ts'
import { curingHolds, windowHolds } from './time-holds.ts'

export interface JudgedHold extends Hold {
  readonly released: RepairState['releases'][number] | null
}

/** Every hold on the gate, released ones too, in the order in which a person would clear them. */
export const gateHolds = (
  car: CarState,
  repairId: RepairId,
  gate: Gate,
  context: HoldContext,
): readonly JudgedHold[] => {
  const repair = car.repairs.get(repairId)
  if (!repair) return []
  const holds = [
    ...orderHolds(car, repair, gate),
    ...fitHolds(car, repair, gate),
    ...agreementHolds(car, repair, gate),
    ...partHolds(car, repair, gate, context),
    ...curingHolds(car, repair, gate, context),
    ...windowHolds(repair, gate, context),
    ...evidenceHolds(car, repair, gate),
    ...watchHolds(car, { kind: 'gate', repairId, gate }, context),
    ...skillHolds(repair.plan.gates[gate].skill, context),
    ...handHolds(car, repair, gate, context),
    ...taskOrderHolds(car, { kind: 'gate', repairId, gate }),
  ]
  return holds.map((each) => ({ ...each, released: releaseOf(repair, gate, each) }))
}

/** The holds that still stand. */
export const standing = (holds: readonly JudgedHold[]): readonly JudgedHold[] =>
  holds.filter((each) => each.released === null)

/** Holds on a task: it may wait for gates and tasks, a watch, a skill, the payer, or the manager's own hold. */
export const taskHolds = (car: CarState, taskId: TaskId, context: HoldContext): readonly JudgedHold[] => {
  const task = car.tasks.get(taskId)
  return task ? taskWaits(car, task, context).map((each) => ({ ...each, released: null })) : []
}

const evidenceHolds = (car: CarState, repair: RepairState, gate: Gate): readonly Hold[] =>
  gateAsks(car, repair.id, gate)
    .filter((ask) => !ask.met)
    .map((ask) => hold(ask.code, ask.key, `${ask.words}: ${ask.have}`, ask.clearedBy))

const releaseOf = (
  repair: RepairState,
  gate: Gate,
  { code, subject, releasable }: Hold,
): JudgedHold['released'] =>
  (releasable &&
    repair.releases.find(
      (release) =>
        !release.asked && release.gate === gate && release.code === code && release.subject === subject,
    )) ||
  null
