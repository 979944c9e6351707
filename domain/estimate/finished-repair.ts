import type { CarState, Moment, RepairState, VisitState } from '../car.ts'
import { type Grade, GRADES } from '../facts/shapes.ts'
import { GATES } from '../gates.ts'
import type { CarId, PersonId, RepairId, TypeId, VisitId } from '../ids.ts'
import { isFinished } from '../rules/standing.ts'
import type { HoursContext } from '../value/entry-hours.ts'
import { targetKey } from '../value/target.ts'
import { type RepairHours, repairHoursIn, sumOf } from './repair-hours.ts'

/** What a finished repair tells of later ones. Plain values, so that a table can hold one row a repair. Person-hours. */
export interface FinishedRepair {
  readonly repairId: RepairId
  readonly carId: CarId
  /** The visit in which it was finished. */
  readonly visitId: VisitId
  readonly typeId: TypeId | null
  /** Who set its first estimate lines; null when that is not known. */
  readonly estimator: PersonId | null
  /** When the last of its gates was done; `number` is the journal's, which is the order of finishing. */
  readonly finished: { readonly number: number; readonly at: Moment }
  /** First estimate of the whole repair. */
  readonly before: number
  /** What it was estimated at once it was assessed, accepted variations among it. */
  readonly assessed: number
  /** Spent, rework among it. */
  readonly actual: number
  readonly gates: RepairHours
  /** Its hours were taken from finished repairs: they say nothing of how far estimates are off. */
  readonly taken: boolean
  /** Seen on its outermost layer before it was opened; null when nobody had said. */
  readonly outside: Grade | null
  /** Innermost first, without the outermost one; a grade is null where the layer was not seen. */
  readonly hidden: readonly HiddenLayer[]
  /** Null where nothing is hidden or nothing of it was seen. */
  readonly worstHidden: Grade | null
}

export interface HiddenLayer {
  readonly name: string
  readonly grade: Grade | null
}

/**
 * The finished repairs of a car, in the order of finishing. One that is unfinished, retired, closed as found, without hours,
 * without an estimate or begun in another workshop is not among them. A repair that was finished in a visit stays as it was,
 * whatever a later visit does to it; one that goes on into a later visit counts the hours and lines of both.
 */
export function finishedRepairs(car: CarState, context: HoursContext): readonly FinishedRepair[] {
  const visits = [...car.visits.values()].toSorted((a, b) => a.opened.number - b.opened.number)
  const hoursBy = new Map<string, (repair: RepairState) => RepairHours>()
  const hoursOf = (repair: RepairState, of: readonly VisitState[]): RepairHours => {
    const key = of.map(({ id }) => id).join(' ')
    const known = hoursBy.get(key) ?? repairHoursIn(car, of, context)
    hoursBy.set(key, known)
    return known(repair)
  }
  return [...car.repairs.values()]
    .flatMap((repair) => {
      const end = endOf(repair, visits)
      if (end === null) return []
      const gates = hoursOf(repair, end.visits)
      const row = toRow(car, repair, end, gates)
      return row.before > 0 && row.actual > 0 ? [row] : []
    })
    .toSorted((a, b) => a.finished.number - b.finished.number)
}

/** Best to worst: the worse of two, and of nothing null. */
export function worstGrade(grades: readonly (Grade | null)[]): Grade | null {
  const worst = Math.max(-1, ...grades.map((grade) => (grade === null ? -1 : GRADES.indexOf(grade))))
  return GRADES[worst] ?? null
}

/** All layers but the outermost, innermost first. */
export function hiddenLayersOf(repair: RepairState): readonly HiddenLayer[] {
  return repair.plan.layers.slice(0, -1).map(({ layerId, name }) => {
    const grade = repair.layers.get(layerId)?.grade ?? null
    return { name, grade: grade === 'not seen' ? null : grade }
  })
}

interface RepairEnd {
  /** From the one that it was added in to the one that it was finished in. */
  readonly visits: readonly VisitState[]
  readonly finished: FinishedRepair['finished']
}

function endOf(repair: RepairState, visits: readonly VisitState[]): RepairEnd | null {
  if (repair.retired !== null || repair.closedAsFound !== null || repair.from !== null) return null
  const first = visits.findIndex(({ id }) => id === repair.visitId)
  const last = visits.findIndex((visit, at) => at >= first && wasFinishedIn(repair, visit))
  if (first === -1 || last === -1) return null
  const own = visits.slice(first, last + 1)
  return { visits: own, finished: finishedAt(repair, own.at(-1) as VisitState, visits[last + 1]) }
}

function wasFinishedIn(repair: RepairState, { left }: VisitState): boolean {
  if (left === null) return isFinished(repair)
  return GATES.every((gate) => {
    const standing = left.get(targetKey({ kind: 'gate', repairId: repair.id, gate }))
    return standing === 'passed' || standing === 'not needed'
  })
}

/** What a later visit took back has lost its stamp: then it was finished when its visit ended. */
function finishedAt(
  repair: RepairState,
  visit: VisitState,
  next: VisitState | undefined,
): FinishedRepair['finished'] {
  const stamps = GATES.flatMap((gate) => repair.gates[gate].done?.stamp ?? [])
  const within = stamps.filter(({ number }) => next === undefined || number < next.opened.number)
  const last = within.toSorted((a, b) => a.number - b.number).at(-1)
  if (next !== undefined && (last === undefined || within.length < GATES.length))
    return { number: next.opened.number, at: visit.statusSince }
  return last === undefined
    ? { number: repair.added.number, at: repair.added.happened }
    : { number: last.number, at: last.happened }
}

function toRow(
  car: CarState,
  repair: RepairState,
  { visits, finished }: RepairEnd,
  gates: RepairHours,
): FinishedRepair {
  const hidden = hiddenLayersOf(repair)
  return {
    repairId: repair.id,
    carId: car.id,
    visitId: visits.at(-1)?.id ?? repair.visitId,
    typeId: repair.typeId,
    estimator: estimatorOf(repair.id, visits),
    finished,
    before: sumOf(gates, 'before'),
    assessed: sumOf(gates, 'assessed'),
    actual: sumOf(gates, 'actual'),
    gates,
    taken: repair.taken !== null,
    outside: repair.outside?.grade ?? null,
    hidden,
    worstHidden: worstGrade(hidden.map(({ grade }) => grade)),
  }
}

/** Of the line that was set first. */
function estimatorOf(repairId: RepairId, visits: readonly VisitState[]): PersonId | null {
  for (const { lines } of visits)
    for (const { target, by } of lines.values())
      if (target.kind === 'gate' && target.repairId === repairId) return by
  return null
}
