import type { CarState, VisitState } from '../car.ts'
import { parseIsoWeek } from '../time/iso-week.ts'
import { weekWords } from '../text/words.ts'
import { visitRows } from '../value/car-variance.ts'
import { type PlannedAmounts, plannedDays } from '../value/planned-days.ts'
import { scheduleAt, schedulePlan } from '../value/schedule-plan.ts'
import { earnedByDay, earnedOfPlannedByDay, spentByDay } from '../value/value-days.ts'
import { valueWeeks } from '../value/value-weeks.ts'
import { addInto, type FiguresDraft, noFigures } from '../value/variance-row.ts'
import { visitName } from './variance-drill.ts'
import { figuresView } from './variance-lines.ts'
import type { VisitCurves } from './variance-shapes.ts'
import type { ViewContext } from './view-context.ts'

/** Planned, earned and spent hours of a visit over the weeks, with its earned schedule. */
export function visitCurves(
  car: CarState,
  visit: VisitState,
  planned: PlannedAmounts,
  context: ViewContext,
): VisitCurves {
  const { at, workshop } = context
  const days = plannedDays(car, visit, planned, context)
  const earnedOfPlanned = earnedOfPlannedByDay(car, visit, days, context)
  const sum: FiguresDraft = { ...noFigures }
  for (const { figures } of visitRows(car, visit, planned, context, null)) addInto(sum, figures)
  const plan = schedulePlan(days, earnedOfPlanned)
  const earned = earnedByDay(car, visit, context)
  const spent = spentByDay(car, visit, context)
  return {
    carId: car.id,
    visitId: visit.id,
    name: visitName(car, visit),
    total: figuresView(sum),
    weeks: valueWeeks({ planned: days, earned, earnedOfPlanned, spent, at, workshop }).map((week) => ({
      ...week,
      words: wordsOf(week.week, context),
    })),
    schedule: plan === null ? null : scheduleAt(at, workshop)(plan, sum.earnedOfPlanned),
    now: at,
  }
}

function wordsOf(text: string, { year }: ViewContext): string {
  const week = parseIsoWeek(text)
  return week.ok ? weekWords(week.value, year) : text
}
