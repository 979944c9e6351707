import type { CarDraft, CarState, TargetStanding } from '../car.ts'
import type { WorkTarget } from '../facts/shapes.ts'
import { GATES } from '../gates.ts'

/** One text for each gate of a repair and each task of a car. */
export const targetKey = (target: WorkTarget): string =>
  target.kind === 'gate' ? `${target.repairId}/${target.gate}` : target.taskId

/** Compared by its parts: holds ask it of every entry and line, where making two texts each time is dear. */
export const isSameTarget = (a: WorkTarget, b: WorkTarget): boolean =>
  a.kind === 'gate'
    ? b.kind === 'gate' && a.repairId === b.repairId && a.gate === b.gate
    : b.kind === 'task' && a.taskId === b.taskId

/** How a gate or task stands now; open when the car does not know it. */
export const targetStanding = (car: CarState | CarDraft, target: WorkTarget): TargetStanding => {
  if (target.kind === 'task') return car.tasks.get(target.taskId)?.status ?? 'open'
  const repair = car.repairs.get(target.repairId)
  const status = repair?.gates[target.gate].status ?? 'open'
  if (!repair || status !== 'open') return status
  if (repair.retired) return 'retired'
  return repair.closedAsFound ? 'as found' : 'open'
}

/** How every gate and task of a car stands now, by target key. */
export const targetStandings = (car: CarDraft): Map<string, TargetStanding> => {
  const gates = [...car.repairs.keys()].flatMap((repairId) =>
    GATES.map((gate): WorkTarget => ({ kind: 'gate', repairId, gate })),
  )
  const tasks = [...car.tasks.keys()].map((taskId): WorkTarget => ({ kind: 'task', taskId }))
  return new Map(
    [...gates, ...tasks].map((target) => [targetKey(target), targetStanding(car, target)] as const),
  )
}
