import type { CarState, VisitState } from '../car.ts'
import { localDateOf } from '../time/zone.ts'
import type { HoursContext, IsCounted } from './entry-hours.ts'
import { figuresOf } from './hours.ts'
import type { PlannedDay } from './planned-value.ts'
import { targetKey } from './target.ts'
import { targetEnd } from './target-history.ts'
import type { VarianceLabels, VarianceRow } from './variance-row.ts'
import {
  monthOf,
  monthOfDate,
  type Shares,
  targetLabels,
  workersByTarget,
  workShares,
} from './work-shares.ts'

/** Planned hours of one day, with what they are grouped by. */
export interface LabelledDay {
  readonly labels: VarianceLabels
  /** Local date. */
  readonly date: string
  readonly hours: number
}

/** What a visit's schedule figures are made of. */
export interface VisitSchedule {
  /** Planned value: each planned day, those to come too. */
  readonly planned: readonly LabelledDay[]
  /** What was earned of the work that has a planned value, in the months in which it was done. */
  readonly earned: readonly VarianceRow[]
}

/**
 * Planned work stands in the month of its day, with the people who did it, so that both sides of a comparison are theirs. A
 * gate or task that is done has earned all that was planned of it.
 */
export function visitSchedule(
  car: CarState,
  visit: VisitState,
  days: readonly PlannedDay[],
  context: HoursContext,
  isCounted: IsCounted | null = null,
): VisitSchedule {
  const figures = figuresOf(car, visit, context, isCounted)
  const workers = workersByTarget(car, visit, context, isCounted)
  const planned: LabelledDay[] = []
  const earned: VarianceRow[] = []
  for (const [key, own] of Map.groupBy(days, ({ target }) => targetKey(target))) {
    const each = figures.get(key)
    if (each === undefined) continue
    const end = targetEnd(car, visit, each.target)
    const labels = targetLabels(car, visit, each.target)
    const shares = workShares(workers.get(key), end?.did)
    for (const { date, hours } of own)
      for (const [person, share] of shares)
        planned.push({ labels: { ...labels, person, month: monthOfDate(date) }, date, hours: hours * share })
    if (each.standing === 'open') continue
    const month = end === null ? null : monthOf(end.at, context)
    earned.push(...earnedRows(labels, month, shares, sumOf(own)))
  }
  return { planned, earned }
}

/** The rows of a visit's schedule figures up to today's end, to be added to its rows of hours. */
export function plannedRows(
  car: CarState,
  visit: VisitState,
  days: readonly PlannedDay[],
  context: HoursContext,
  isCounted: IsCounted | null = null,
): readonly VarianceRow[] {
  const today = localDateOf(context.at, context.workshop.zone)
  const { planned, earned } = visitSchedule(car, visit, days, context, isCounted)
  return [...planned.filter(({ date }) => date <= today).map(dayToRow), ...earned]
}

export const dayToRow = ({ labels, hours }: LabelledDay): VarianceRow => ({
  labels,
  figures: { planned: hours },
})

const earnedRows = (
  labels: VarianceLabels,
  month: string | null,
  shares: Shares,
  hours: number,
): readonly VarianceRow[] =>
  [...shares].map(([person, share]) => ({
    labels: { ...labels, person, month },
    figures: { earnedOfPlanned: hours * share },
  }))

const sumOf = (days: readonly PlannedDay[]): number => days.reduce((sum, { hours }) => sum + hours, 0)
