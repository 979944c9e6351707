import type { CarState, RepairState, TaskState, VisitState } from '../car.ts'
import type { BandsWhen, StatedBand } from '../facts/agreement-facts.ts'
import { fact, type NewFactOf, type PayloadOf } from '../facts.ts'
import type { RepairId } from '../ids.ts'
import type { HoursContext } from '../value/entry-hours.ts'
import { estimatedHours } from '../value/estimated-hours.ts'
import { targetHours } from '../value/hours.ts'
import { isSameTarget } from '../rules/agreement-holds.ts'
import { carBand, type TaskToEstimate, USUAL_DRAWS } from './car-band.ts'
import type { EstimateHistory } from './estimate-history.ts'
import { type RepairBand, repairBand } from './repair-band.ts'
import { repairToEstimate } from './repair-to-estimate.ts'

/**
 * What is said of some repairs' hours, and of the whole car's, as it stands, so that it can be judged once they are
 * finished. A repair of which nothing can be said, or nothing is left to say, is left out. Null when that leaves none.
 */
export function bandsStated(
  car: CarState,
  visit: VisitState,
  { of, when }: { readonly of: ReadonlySet<RepairId>; readonly when: BandsWhen },
  history: EstimateHistory,
  context: HoursContext,
): NewFactOf<'bandsStated'> | null {
  const bands = repairsIn(car, visit).map((repair) => ({
    repairId: repair.id,
    // Only the figures are recorded, so it needs no name among its like.
    band: repairBand(history, repairToEstimate(car, repair, '', context)),
  }))
  const known = bands.flatMap(({ repairId, band }) => (band === null ? [] : [{ repairId, band }]))
  const repairs = known.flatMap(({ repairId, band }) =>
    of.has(repairId) ? (toStatedBand(repairId, band) ?? []) : [],
  )
  if (repairs.length === 0) return null
  const whole = known.length === bands.length ? wholeCar(car, visit, known, history, context) : null
  return fact('bandsStated', { visitId: visit.id, when, repairs, car: whole })
}

/** Those that stand in the visit's estimate and are still to be repaired, or were. */
function repairsIn(car: CarState, { id, lines }: VisitState): readonly RepairState[] {
  const estimated = new Set(
    [...lines.values()].flatMap(({ target }) => (target.kind === 'gate' ? [target.repairId] : [])),
  )
  return [...car.repairs.values()].filter(
    (repair) =>
      repair.retired === null &&
      repair.closedAsFound === null &&
      (repair.visitId === id || estimated.has(repair.id)),
  )
}

function toStatedBand(repairId: RepairId, band: RepairBand): StatedBand | null {
  const { method, estimate, hours, rests } = band
  return method === 'spent' ? null : { repairId, estimated: estimate, ...hours, method, rests }
}

interface KnownBand {
  readonly repairId: RepairId
  readonly band: RepairBand
}

/** Null where some task has no band: the sum of the others would say less than the whole. */
function wholeCar(
  car: CarState,
  visit: VisitState,
  repairs: readonly KnownBand[],
  history: EstimateHistory,
  context: HoursContext,
): PayloadOf<'bandsStated'>['car'] {
  const tasks = [...car.tasks.values()].filter(({ visitId }) => visitId === visit.id)
  const work = { repairs, tasks: tasks.map((task) => taskToEstimate(car, visit, task, context)) }
  const band = carBand(work, { ...USUAL_DRAWS, correlation: history.correlation })
  if (band === null || band.leftOut.length > 0) return null
  const estimated =
    repairs.reduce((sum, { band: { estimate } }) => sum + estimate, 0) +
    tasks.reduce((sum, task) => sum + taskEstimate(car, visit, task), 0)
  return { estimated, ...band.hours }
}

function taskToEstimate(
  car: CarState,
  visit: VisitState,
  { id, plan, status }: TaskState,
  context: HoursContext,
): TaskToEstimate {
  const target = { kind: 'task', taskId: id } as const
  const line = [...visit.lines.values()].find((each) => isSameTarget(each.target, target))
  const { spent } = targetHours(car, visit.id, target, context)
  return { taskId: id, points: line?.hours ?? plan.hours, isDone: status !== 'open', spent }
}

const taskEstimate = (car: CarState, visit: VisitState, { id, status }: TaskState): number =>
  status === 'not needed' ? 0 : estimatedHours(car, visit.id, { kind: 'task', taskId: id })
