import type { CarState, TargetStanding, VariationStatus, VisitState } from '../car.ts'
import type { WorkTarget } from '../facts/shapes.ts'
import { GATES } from '../gates.ts'
import type { RepairId, VisitId } from '../ids.ts'
import type { HoursPair } from '../views/shared-views.ts'
import { type HoursContext, type IsCounted, visitPieces } from './entry-hours.ts'
import { perReckoning } from './per-reckoning.ts'
import { targetKey, targetStanding } from './target.ts'

/** The figures of one gate or task in one visit, in person-hours. */
export interface TargetFigures {
  readonly target: WorkTarget
  readonly standing: TargetStanding
  /** The first figures of its estimate, for ever. */
  readonly baseline: number
  readonly hours: HoursPair
}

/** By target key: everything that is estimated, decided or worked on in a visit. */
export type VisitFigures = ReadonlyMap<string, TargetFigures>

export const noHours: HoursPair = { authorised: 0, waiting: 0, earned: 0, spent: 0, rework: 0, givenBack: 0 }

/**
 * The figures of every gate and task of a visit. Authorised: accepted lines with what moved, and variations that are
 * accepted or paid by the workshop. Waiting: lines and variations not accepted yet. A gate passed earns its authorised
 * hours; one not needed, or left at closed as found, gives them back; a retired repair gives back what is unspent on its
 * open gates. Only the visit's own entries, lines and variations count.
 */
export function visitFigures(car: CarState, visitId: VisitId | null, context: HoursContext): VisitFigures {
  return visitOf(car, visitId, context)?.figures ?? new Map()
}

/** The same, or those of some gates and tasks only: a few are reckoned faster than what is remembered of all. */
export function figuresOf(
  car: CarState,
  visit: VisitState,
  context: HoursContext,
  isCounted: IsCounted | null,
): VisitFigures {
  return isCounted === null
    ? visitFigures(car, visit.id, context)
    : reckon(car, visit, context, isCounted).figures
}

export function targetHours(
  car: CarState,
  visitId: VisitId | null,
  target: WorkTarget,
  context: HoursContext,
): HoursPair {
  return visitFigures(car, visitId, context).get(targetKey(target))?.hours ?? noHours
}

export function repairHours(
  car: CarState,
  visitId: VisitId | null,
  repairId: RepairId,
  context: HoursContext,
): HoursPair {
  return addHours(GATES.map((gate) => targetHours(car, visitId, { kind: 'gate', repairId, gate }, context)))
}

export function carHours(car: CarState, visitId: VisitId | null, context: HoursContext): HoursPair {
  return visitOf(car, visitId, context)?.total ?? noHours
}

export function addHours(parts: readonly HoursPair[]): HoursPair {
  const sum = { ...noHours }
  for (const part of parts) for (const figure of FIGURES) sum[figure] += part[figure]
  return sum
}

/** Earned less spent, person-hours: CV = EV - AC in hours. Negative when more was spent than earned. */
export const hoursVariance = ({ earned, spent }: Pick<HoursPair, 'earned' | 'spent'>): number =>
  earned - spent

/** Earned by spent, CPI = EV / AC; null when nothing is spent. */
export const hoursIndex = ({ earned, spent }: Pick<HoursPair, 'earned' | 'spent'>): number | null =>
  spent === 0 ? null : earned / spent

const FIGURES = ['authorised', 'waiting', 'earned', 'spent', 'rework', 'givenBack'] as const

interface Row {
  readonly target: WorkTarget
  baseline: number
  authorised: number
  waiting: number
  spent: number
  rework: number
}

interface ReckonedVisit {
  readonly figures: VisitFigures
  readonly total: HoursPair
}

const reckonedVisits = perReckoning(
  (car, context): ReadonlyMap<VisitId, ReckonedVisit> =>
    new Map([...car.visits.values()].map((visit) => [visit.id, reckon(car, visit, context)] as const)),
)

const visitOf = (car: CarState, visitId: VisitId | null, context: HoursContext): ReckonedVisit | undefined =>
  visitId === null ? undefined : reckonedVisits(car, context).get(visitId)

const VARIATION_COUNTS: Readonly<Record<VariationStatus, 'authorised' | 'waiting' | null>> = {
  raised: 'waiting',
  accepted: 'authorised',
  'workshop pays': 'authorised',
  declined: null,
  'less work': null,
  stopped: null,
}

function reckon(
  car: CarState,
  visit: VisitState,
  context: HoursContext,
  isCounted: IsCounted | null = null,
): ReckonedVisit {
  const rows = new Map<string, Row>()
  for (const line of visit.lines.values()) {
    if (isCounted !== null && !isCounted(targetKey(line.target))) continue
    const row = rowOf(rows, line.target)
    row.baseline += line.baseline.agreed
    row[line.accepted === null ? 'waiting' : 'authorised'] += line.agreed + line.moved
  }
  for (const variation of car.variations.values()) {
    const counts = variation.visitId === visit.id ? VARIATION_COUNTS[variation.status] : null
    if (counts === null) continue
    for (const { target, hours } of variation.lines)
      if (isCounted === null || isCounted(targetKey(target))) rowOf(rows, target)[counts] += hours
  }
  for (const { target, hours, rework } of visitPieces(car, visit.id, context, isCounted)) {
    const row = rowOf(rows, target)
    row.spent += hours
    if (rework !== null) row.rework += hours
  }
  const standingOf = (target: WorkTarget): TargetStanding =>
    visit.left === null ? targetStanding(car, target) : (visit.left.get(targetKey(target)) ?? 'open')
  const figures = new Map(
    [...rows].map(([key, row]) => [key, rowToFigures(row, standingOf(row.target))] as const),
  )
  return { figures, total: addHours([...figures.values()].map(({ hours }) => hours)) }
}

function rowOf(rows: Map<string, Row>, target: WorkTarget): Row {
  const key = targetKey(target)
  const known = rows.get(key)
  if (known !== undefined) return known
  const row: Row = { target, baseline: 0, authorised: 0, waiting: 0, spent: 0, rework: 0 }
  rows.set(key, row)
  return row
}

function rowToFigures({ target, baseline, ...row }: Row, standing: TargetStanding): TargetFigures {
  const { spent, rework } = row
  const givenBack = givenBackOf(row, standing)
  const authorised = row.authorised - givenBack
  const hours = {
    authorised,
    waiting: standing === 'open' || standing === 'passed' ? row.waiting : 0,
    earned: standing === 'open' ? 0 : authorised,
    spent,
    rework,
    givenBack,
  }
  return { target, standing, baseline, hours }
}

/** What was spent on a retired repair stays authorised and earned: the work was done, and what is left went elsewhere. */
function givenBackOf(
  { authorised, spent }: Pick<Row, 'authorised' | 'spent'>,
  standing: TargetStanding,
): number {
  switch (standing) {
    case 'open':
    case 'passed':
      return 0
    case 'not needed':
    case 'as found':
      return authorised
    case 'retired':
      return Math.max(0, authorised - spent)
  }
}
