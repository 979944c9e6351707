import type { Moment, RepairState, VisitState } from '../car.ts'
import type { Fact, FactKind, FactOf } from '../facts.ts'
import { activeRepairs, isFinished } from '../rules/standing.ts'
import { dayWords } from '../text/words.ts'
import { localDateOf } from '../time/zone.ts'
import type { ViewContext } from '../views/view-context.ts'
import type { CarInWeek, ReportWeek } from './report-week.ts'

/** All that the sections of an owner's week are told from. */
export interface Telling extends CarInWeek {
  readonly week: ReportWeek
  readonly visit: VisitState
  readonly context: ViewContext
}

/** The part of the week that belongs to the visit: what came before it is told in the report of the visit before. */
export function isInVisitWeek({ week, visit, car }: Telling, moment: Moment): boolean {
  if (moment < week.from || moment >= week.to) return false
  const [first] = car.visits.keys()
  return first === visit.id || moment >= visit.opened.happened
}

/** The visit's facts of one kind in the week, in journal order. */
export function weekFacts<K extends FactKind>(telling: Telling, kind: K): readonly FactOf<K>[] {
  return telling.facts.filter(
    (fact: Fact): fact is Extract<Fact, FactOf<K>> =>
      fact.kind === kind && isInVisitWeek(telling, Date.parse(fact.happened)),
  )
}

/** Repairs that the visit's reports speak of: its own, and earlier ones that are open again or were touched in it. */
export function toldRepairs({ car, visit }: Telling): readonly RepairState[] {
  return activeRepairs(car).filter(
    (repair) =>
      repair.visitId === visit.id ||
      !isFinished(repair) ||
      Object.values(repair.gates).some(
        ({ done }) => done !== null && done.stamp.number > visit.opened.number,
      ),
  )
}

/** 'Tue 24 Nov', with the year when it is not the week's. */
export function dayOf({ context }: Pick<Telling, 'context'>, moment: Moment): string {
  return dayWords(localDateOf(moment, context.workshop.zone), context.year)
}

/** A local date the same way. */
export function dateWords({ context }: Pick<Telling, 'context'>, date: string): string {
  return dayWords(date, context.year)
}
