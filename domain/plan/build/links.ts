import type { CarState, RepairState } from '../../car.ts'
import type { WorkTarget } from '../../facts/shapes.ts'
import type { HoldCode } from '../../facts/work-facts.ts'
import type { Gate } from '../../gates.ts'
import type { RepairId } from '../../ids.ts'
import { groupsOf } from '../../rules/fit-holds.ts'
import {
  coveredBy,
  coversOf,
  descendants,
  isActive,
  isClosed,
  isFinished,
  standsOpen,
} from '../../rules/standing.ts'
import { targetKey } from '../../value/target.ts'
import { openGates } from './draft-work.ts'

/** `after` waits until `before` is done and has cured; by target keys of one car. */
export interface WorkLink {
  readonly before: string
  readonly after: string
  readonly cureHours: number
}

/** What has to come before what on a car, as the holds of its gates and tasks say. */
export function workLinks(car: CarState): readonly WorkLink[] {
  const repairs = [...car.repairs.values()].filter(isActive)
  return [
    ...repairs.flatMap((repair) => [
      ...gateOrderLinks(car, repair),
      ...uncoverLinks(car, repair),
      ...closingLinks(car, repair),
      ...fitLinks(car, repair),
    ]),
    ...taskLinks(car),
  ]
}

const gateOrderLinks = (car: CarState, repair: RepairState): readonly WorkLink[] => {
  const gates = openGates(repair)
  return gates
    .slice(1)
    .map((gate, index) => link(car, onGate(repair, gates[index] as Gate), onGate(repair, gate)))
}

/** No gate is passed unless every repair that covers this one stands open. */
const uncoverLinks = (car: CarState, repair: RepairState): readonly WorkLink[] =>
  coversOf(car, repair.id).flatMap((id) => {
    const over = activeRepair(car, id)
    const first = openGates(repair).find((gate) => !isReleased(repair, gate, 'uncover first', id))
    if (over === null || first === undefined || standsOpen(over) || isClosed(over)) return []
    return [
      { before: targetKey(onGate(over, 'opened')), after: targetKey(onGate(repair, first)), cureHours: 0 },
    ]
  })

/** Nothing is closed over that is not finished; what it covers itself must have cured too. */
const closingLinks = (car: CarState, repair: RepairState): readonly WorkLink[] => {
  if (!openGates(repair).includes('welded')) return []
  const direct = new Set(coveredBy(car, repair.id))
  return [...descendants(car, repair.id)].flatMap((id) => {
    const under = activeRepair(car, id)
    const last = under === null || isFinished(under) ? undefined : openGates(under).at(-1)
    if (under === null || last === undefined || id === repair.id) return []
    const closing = link(car, onGate(under, last), onGate(repair, 'welded'))
    return [direct.has(id) ? closing : { ...closing, cureHours: 0 }]
  })
}

/** A group is offered up whole: every member that is not closed stands open and is primed. */
const fitLinks = (car: CarState, repair: RepairState): readonly WorkLink[] => {
  const gate = 'trial-fitted'
  if (!openGates(repair).includes(gate) || !repair.plan.gates[gate].asks.fitUp) return []
  return groupsOf(car, repair.id).flatMap((group) =>
    group.plan.members.flatMap((id) => {
      const member = activeRepair(car, id)
      if (member === null || id === repair.id || isClosed(member)) return []
      if (isReleased(repair, gate, 'fit together', `${group.id}/${id}`)) return []
      const gates = openGates(member)
      const primed = gates.indexOf('primed')
      const last = primed === -1 ? gates.findLast((each) => each === 'opened') : gates[primed]
      return last === undefined
        ? []
        : [{ ...link(car, onGate(member, last), onGate(repair, gate)), cureHours: 0 }]
    }),
  )
}

/** What a task waits for, and the gates that wait for it. */
const taskLinks = (car: CarState): readonly WorkLink[] =>
  [...car.tasks.values()].flatMap(({ id, plan }) => {
    const task: WorkTarget = { kind: 'task', taskId: id }
    return [
      ...plan.waitsFor.map((before) => link(car, before, task)),
      ...plan.holds
        .filter((held) => held.kind === 'gate' && !isReleasedTarget(car, held, 'task', id))
        .map((held) => link(car, task, held)),
    ]
  })

const link = (car: CarState, before: WorkTarget, after: WorkTarget): WorkLink => ({
  before: targetKey(before),
  after: targetKey(after),
  cureHours: cureHoursOf(car, before),
})

/** By the clock, once it is done; 0 for what is not there any more. */
export const cureHoursOf = (car: CarState, target: WorkTarget): number =>
  (target.kind === 'gate'
    ? car.repairs.get(target.repairId)?.plan.gates[target.gate].cureHours
    : car.tasks.get(target.taskId)?.plan.cureHours) ?? 0

export const onGate = ({ id }: RepairState, gate: Gate): WorkTarget => ({ kind: 'gate', repairId: id, gate })

const activeRepair = (car: CarState, id: RepairId): RepairState | null => {
  const repair = car.repairs.get(id)
  return repair !== undefined && isActive(repair) ? repair : null
}

/** The manager has released this one hold on this gate. */
export const isReleased = (repair: RepairState, gate: Gate, code: HoldCode, subject: string): boolean =>
  repair.releases.some(
    (release) =>
      !release.asked && release.gate === gate && release.code === code && release.subject === subject,
  )

/** The same of any target; a task has no releases. */
export const isReleasedTarget = (
  car: CarState,
  target: WorkTarget,
  code: HoldCode,
  subject: string,
): boolean => {
  const repair = target.kind === 'gate' ? car.repairs.get(target.repairId) : undefined
  return target.kind === 'gate' && repair !== undefined && isReleased(repair, target.gate, code, subject)
}
