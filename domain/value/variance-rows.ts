import type { CarState, VisitState } from '../car.ts'
import type { WorkTarget } from '../facts/shapes.ts'
import type { PersonId } from '../ids.ts'
import { localDateOf } from '../time/zone.ts'
import { entryDate, entryPieces, type HoursContext, visitEntries } from './entry-hours.ts'
import { type TargetFigures, visitFigures } from './hours.ts'
import { hoursToGo } from './hours-to-go.ts'
import { shareOnReleased } from './released-hours.ts'
import { targetKey } from './target.ts'
import { targetEnd } from './target-history.ts'
import { noFigures, type VarianceFigures, type VarianceLabels, type VarianceRow } from './variance-row.ts'

/**
 * The hours of a visit as rows that every grouping adds up. Spent hours stand with who logged them in the month that they
 * belong to. Authorised hours stand in the month in which they were accepted and leave in the month in which they are
 * given back; earned ones stand in the month in which the gate or task was done. Both are split over the people who
 * worked on it, by their hours without rework, else over those who are named to have done it, else nobody yet.
 */
export function varianceRows(
  car: CarState,
  visit: VisitState,
  context: HoursContext,
): readonly VarianceRow[] {
  const figures = [...visitFigures(car, visit.id, context).values()]
  const workers = workersByTarget(car, visit, context)
  const agreed = agreedHours(car, visit, context)
  const budget = figures.flatMap((each) => {
    const key = targetKey(each.target)
    const end = targetEnd(car, visit, each.target)
    const toGo = hoursToGo(car, visit, each, context)
    const endMonth = end === null ? null : monthOf(end.at, context)
    const moves = [...(agreed.get(key) ?? []), ...standingHours(each, endMonth, toGo)]
    return splitOver(sharesOf(workers.get(key), end?.did), targetLabels(car, visit, each.target), moves)
  })
  return [...budget, ...spentRows(car, visit, context)]
}

/** What a gate's or task's hours are labelled with, whoever worked on it and whenever. */
export function targetLabels(car: CarState, visit: VisitState, target: WorkTarget): VarianceLabels {
  const of = { carId: car.id, visitId: visit.id, person: null, month: null, cause: null }
  if (target.kind === 'task') return { ...of, type: 'tasks', gate: 'tasks', zone: 'tasks' }
  const repair = car.repairs.get(target.repairId)
  const zone = repair === undefined ? 'no zone' : `${repair.plan.zone.side} ${repair.plan.zone.place}`
  return { ...of, type: repair?.typeId ?? 'no type', gate: target.gate, zone }
}

/** Shares by person, adding up to 1. */
type Shares = ReadonlyMap<PersonId | null, number>

/** Hours that come to the work, leave it or are earned on it in a month. */
interface Move {
  readonly month: string | null
  readonly figures: Partial<VarianceFigures>
}

function standingHours(
  { hours: { waiting, earned, givenBack } }: TargetFigures,
  endMonth: string | null,
  toGo: number,
): readonly Move[] {
  return [
    ...(earned === 0 ? [] : [{ month: endMonth, figures: { earned } }]),
    ...(givenBack === 0 ? [] : [{ month: endMonth, figures: { givenBack, authorised: -givenBack } }]),
    ...(waiting === 0 && toGo === 0 ? [] : [{ month: null, figures: { waiting, expected: toGo } }]),
  ]
}

/** The baseline and what was accepted since, by target key. */
function agreedHours(
  car: CarState,
  visit: VisitState,
  context: HoursContext,
): ReadonlyMap<string, readonly Move[]> {
  const moves = new Map<string, Move[]>()
  const add = (target: WorkTarget, move: Move): void => {
    const key = targetKey(target)
    moves.set(key, [...(moves.get(key) ?? []), move])
  }
  for (const { target, accepted, baseline, agreed, moved } of visit.lines.values())
    add(
      target,
      accepted === null
        ? { month: null, figures: { baseline: baseline.agreed } }
        : {
            month: monthOf(accepted.happened, context),
            figures: { baseline: baseline.agreed, authorised: agreed + moved },
          },
    )
  for (const { visitId, status, lines, raised, decided, settled } of car.variations.values()) {
    if (visitId !== visit.id || (status !== 'accepted' && status !== 'workshop pays')) continue
    const month = monthOf((settled ?? decided ?? raised).happened, context)
    for (const { target, hours } of lines) add(target, { month, figures: { authorised: hours } })
  }
  return moves
}

function spentRows(car: CarState, visit: VisitState, context: HoursContext): readonly VarianceRow[] {
  return visitEntries(car, visit.id).flatMap((entry) => {
    const month = entryDate(entry, context.workshop.zone).slice(0, MONTH_LENGTH)
    return entryPieces(car, entry, context).map(({ target, hours, rework }) => ({
      ...targetLabels(car, visit, target),
      ...noFigures,
      person: entry.personId,
      month,
      cause: rework,
      spent: hours,
      expected: hours,
      rework: rework === null ? 0 : hours,
      onReleased: hours * shareOnReleased(car, entry, target, context),
    }))
  })
}

function workersByTarget(
  car: CarState,
  visit: VisitState,
  context: HoursContext,
): ReadonlyMap<string, ReadonlyMap<PersonId, number>> {
  const workers = new Map<string, Map<PersonId, number>>()
  for (const entry of visitEntries(car, visit.id))
    for (const { target, hours, rework } of entryPieces(car, entry, context)) {
      if (rework !== null || hours <= 0) continue
      const key = targetKey(target)
      const of = workers.get(key) ?? new Map<PersonId, number>()
      workers.set(key, of.set(entry.personId, (of.get(entry.personId) ?? 0) + hours))
    }
  return workers
}

function sharesOf(
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

function splitOver(shares: Shares, labels: VarianceLabels, moves: readonly Move[]): readonly VarianceRow[] {
  return moves.flatMap(({ month, figures }) =>
    [...shares].map(([person, share]) => ({
      ...labels,
      ...noFigures,
      ...Object.fromEntries(Object.entries(figures).map(([figure, hours]) => [figure, hours * share])),
      person,
      month,
    })),
  )
}

const MONTH_LENGTH = 'YYYY-MM'.length

const monthOf = (moment: number, { workshop }: HoursContext): string =>
  localDateOf(moment, workshop.zone).slice(0, MONTH_LENGTH)
