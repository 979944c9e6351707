import type { CarState, FitGroupState, RepairState } from '../car.ts'
import type { Gate } from '../gates.ts'
import type { RepairId } from '../ids.ts'
import { hold, type Hold } from './hold.ts'
import { isActive, isClosed, isDone, standsOpen } from './standing.ts'

/** Fit together: trial-fitted needs a good last fit-up of each group, with every member not yet closed open and primed. */
export const fitHolds = (car: CarState, repair: RepairState, gate: Gate): readonly Hold[] =>
  gate === 'trial-fitted' && repair.plan.gates[gate].asks.fitUp
    ? groupsOf(car, repair.id).flatMap((group) => groupHolds(car, repair, group))
    : []

export const groupsOf = (car: CarState, id: RepairId): readonly FitGroupState[] =>
  [...car.fitGroups.values()].filter((group) => group.plan.members.includes(id))

/** A full fit-up in which every member took part and which nothing has made stale since. */
export const lastFullFitUp = (group: FitGroupState) =>
  group.fitUps.findLast((fitUp) => fitUp.kind === 'full' && fitUp.stamp.number > group.staleFrom) ?? null

/** Members that keep the group from being offered up whole: not closed, and not open and primed. */
export const membersNotReady = (
  car: CarState,
  group: FitGroupState,
): readonly { readonly repair: RepairState; readonly why: string }[] =>
  group.plan.members.flatMap((id) => {
    const member = car.repairs.get(id)
    if (!member || !isActive(member) || isClosed(member)) return []
    if (!standsOpen(member)) return [{ repair: member, why: 'is not open yet' }]
    return isDone(member, 'primed') ? [] : [{ repair: member, why: 'is not primed yet' }]
  })

const groupHolds = (car: CarState, repair: RepairState, group: FitGroupState): readonly Hold[] => {
  const waiting = membersNotReady(car, group).filter((member) => member.repair.id !== repair.id)
  if (waiting.length > 0)
    return waiting.map(({ repair: member, why }) =>
      hold(
        'fit together',
        `${group.id}/${member.id}`,
        `The ${group.plan.name} is offered up as one, and ${member.plan.name} ${why}.`,
        'the technician',
        { otherRepair: member.id },
      ),
    )
  const last = lastFullFitUp(group)
  const fresh = last !== null && last.stamp.number > repair.gates['trial-fitted'].evidenceFloor
  if (!fresh)
    return [
      hold(
        'fit together',
        group.id,
        `The ${group.plan.name} has not been offered up whole yet.`,
        'the technician',
      ),
    ]
  return last.good
    ? []
    : [
        hold(
          'fit together',
          group.id,
          `The last fit-up of the ${group.plan.name} was not good.`,
          'the technician',
        ),
      ]
}
