import type { CarState, RepairState, TaskState, VisitState } from '../car.ts'
import type { BandsWhen, StatedBand } from '../facts/agreement-facts.ts'
import { fact, type NewFactOf, type PayloadOf } from '../facts.ts'
import type { RepairId } from '../ids.ts'
import type { HoursContext } from '../value/entry-hours.ts'
import { estimatedHours } from '../value/estimated-hours.ts'
import { targetHours } from '../value/hours.ts'
import { isSameTarget } from '../value/target.ts'
import { carBand, type TaskToEstimate, USUAL_DRAWS } from './car-band.ts'
import type { EstimateHistory } from './estimate-history.ts'
import { type RepairBand, repairBand, type RepairToEstimate } from './repair-band.ts'
import { repairToEstimate, withoutOpenGates } from './repair-to-estimate.ts'

/**
 * What is said of some repairs' hours as it stands, so that it can be judged once they are finished; with an acceptance of
 * the whole car's too. A repair of which nothing can be said, or nothing is left to say, is left out. Null when that leaves
 * none.
 */
export function bandsStated(
  car: CarState,
  visit: VisitState,
  { of, when }: { readonly of: ReadonlySet<RepairId>; readonly when: BandsWhen },
  history: EstimateHistory,
  context: HoursContext,
): NewFactOf<'bandsStated'> | null {
  const bandsOf = (repairs: readonly RepairState[]): readonly KnownBand[] =>
    repairs.flatMap((repair) => {
      const band = repairBand(history, standing(car, repair, context))
      return band === null ? [] : [{ repairId: repair.id, band }]
    })
  const all = repairsIn(car, visit)
  const repairs = bandsOf(all.filter(({ id }) => of.has(id))).flatMap(toStatedBand)
  if (repairs.length === 0) return null
  const whole = when === 'accepted' ? wholeCar(car, visit, bandsOf(all), history, context) : null
  return fact('bandsStated', { visitId: visit.id, when, repairs, car: whole })
}

/** Those of the visit, and earlier ones that have a line in it. */
function repairsIn(car: CarState, { id, lines }: VisitState): readonly RepairState[] {
  const estimated = new Set(
    [...lines.values()].flatMap(({ target }) => (target.kind === 'gate' ? [target.repairId] : [])),
  )
  return [...car.repairs.values()].filter(
    (repair) => repair.retired === null && (repair.visitId === id || estimated.has(repair.id)),
  )
}

/** Only figures are recorded, so it needs no name among its like. */
function standing(car: CarState, repair: RepairState, context: HoursContext): RepairToEstimate {
  const stands = repairToEstimate(car, repair, '', context)
  return repair.closedAsFound === null ? stands : withoutOpenGates(stands)
}

function toStatedBand({ repairId, band }: KnownBand): readonly StatedBand[] {
  const { method, estimate, hours, rests } = band
  return method === 'spent' ? [] : [{ repairId, estimated: estimate, ...hours, method, rests }]
}

interface KnownBand {
  readonly repairId: RepairId
  readonly band: RepairBand
}

function wholeCar(
  car: CarState,
  visit: VisitState,
  repairs: readonly KnownBand[],
  history: EstimateHistory,
  context: HoursContext,
): PayloadOf<'bandsStated'>['car'] {
  const tasks = [...car.tasks.values()].filter(
    ({ visitId, status }) => visitId === visit.id && status !== 'not needed',
  )
  const work = { repairs, tasks: tasks.map((task) => taskToEstimate(car, visit, task, context)) }
  const band = carBand(work, { ...USUAL_DRAWS, correlation: history.correlation })
  if (band === null) return null
  const estimated =
    repairs.reduce((sum, { band: { estimate } }) => sum + estimate, 0) +
    tasks.reduce((sum, { id }) => sum + estimatedHours(car, visit.id, { kind: 'task', taskId: id }), 0)
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
  return { taskId: id, points: line?.hours ?? plan.hours, isDone: status === 'passed', spent }
}
