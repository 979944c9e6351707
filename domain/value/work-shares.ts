import type { CarState, Moment, VisitState } from '../car.ts'
import type { WorkTarget } from '../facts/shapes.ts'
import type { PersonId } from '../ids.ts'
import { type HoursContext, type IsCounted, visitPieces } from './entry-hours.ts'
import { dateIn } from './local-dates.ts'
import { targetKey } from './target.ts'
import type { FiguresDraft, VarianceFigures, VarianceLabels, VarianceRow } from './variance-row.ts'

/** Shares by person, adding up to 1; null is nobody yet. */
export type Shares = ReadonlyMap<PersonId | null, number>

/** Hours of a gate or task that come to it, leave it, are earned or planned in a month (YYYY-MM, null for none yet). */
export interface Move {
  readonly month: string | null
  readonly figures: Partial<VarianceFigures>
}

/** What a gate's or task's hours are labelled with, whoever worked on it and whenever. */
export function targetLabels(car: CarState, visit: VisitState, target: WorkTarget): VarianceLabels {
  const ids = { carId: car.id, visitId: visit.id, target: targetKey(target) }
  const of = { ...ids, person: null, month: null, cause: null }
  if (target.kind === 'task') return { ...of, type: 'tasks', gate: 'tasks', zone: 'tasks' }
  const repair = car.repairs.get(target.repairId)
  const zone = repair === undefined ? 'no zone' : `${repair.plan.zone.side} ${repair.plan.zone.place}`
  return { ...of, type: repair?.typeId ?? 'no type', gate: target.gate, zone }
}

/** Person-hours without rework by person, by target key. */
export function workersByTarget(
  car: CarState,
  visit: VisitState,
  context: HoursContext,
  isCounted: IsCounted | null,
): ReadonlyMap<string, ReadonlyMap<PersonId, number>> {
  const workers = new Map<string, Map<PersonId, number>>()
  for (const { entry, key, hours, rework } of visitPieces(car, visit.id, context, isCounted)) {
    if (rework !== null || hours <= 0) continue
    const of = workers.get(key) ?? new Map<PersonId, number>()
    workers.set(key, of.set(entry.personId, (of.get(entry.personId) ?? 0) + hours))
  }
  return workers
}

/** By hours without rework, else equal over those who are named to have done it, else nobody yet. */
export function workShares(
  workers: ReadonlyMap<PersonId, number> | undefined,
  did: readonly PersonId[] | undefined,
): Shares {
  if (workers !== undefined) {
    const whole = [...workers.values()].reduce((sum, hours) => sum + hours, 0)
    return new Map([...workers].map(([person, hours]) => [person, hours / whole] as const))
  }
  if (did === undefined || did.length === 0) return NOBODY_YET
  return new Map(did.map((person) => [person, 1 / did.length] as const))
}

const NOBODY_YET: Shares = new Map([[null, 1]])

/** One row for each move and person. */
export function splitOver(
  shares: Shares,
  labels: VarianceLabels,
  moves: readonly Move[],
): readonly VarianceRow[] {
  return moves.flatMap(({ month, figures }) =>
    [...shares].map(([person, share]) => ({
      labels: { ...labels, person, month },
      figures: share === 1 ? figures : sharedFigures(figures, share),
    })),
  )
}

function sharedFigures(figures: Partial<VarianceFigures>, share: number): Partial<VarianceFigures> {
  const shared: Partial<FiguresDraft> = {}
  for (const [figure, hours] of Object.entries(figures))
    shared[figure as keyof VarianceFigures] = hours * share
  return shared
}

const MONTH_LENGTH = 'YYYY-MM'.length

/** @param date local date, YYYY-MM-DD */
export const monthOfDate = (date: string): string => date.slice(0, MONTH_LENGTH)

export const monthOf = (moment: Moment, context: HoursContext): string =>
  monthOfDate(dateIn(context.workshop.zone, moment))
