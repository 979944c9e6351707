import type { Moment, RepairState, VisitState } from '../car.ts'
import { type Fact, type FactKind, type FactOf, factsOfKind } from '../facts.ts'
import { activeRepairs, isFinished } from '../rules/standing.ts'
import type { OwnerLanguage } from '../language/owner-language.ts'
import { localDateOf } from '../time/zone.ts'
import type { VisitId } from '../ids.ts'
import type { IsoWeek } from '../time/iso-week.ts'
import type { NameOf } from '../views/shared-views.ts'
import { createViewContext, type ViewContext } from '../views/view-context.ts'
import type { WorkshopState } from '../workshop.ts'
import type { ReportChoices } from './report-choices.ts'
import { type CarInWeek, carInWeek, type ReportWeek, reportWeek } from './report-week.ts'
import type { WeekExpected } from './week-expected.ts'

/** A visit's car in one week. */
export interface TellingCar extends CarInWeek {
  readonly week: ReportWeek
  readonly visit: VisitState
  readonly context: ViewContext
}

/** All that the sections of an owner's week are told from. */
export interface Telling extends TellingCar {
  /** The language that it is told in. */
  readonly say: OwnerLanguage
  readonly choices: ReportChoices
  readonly expected: WeekExpected | null
}

export interface TellingInput {
  /** The car's whole chain in journal order. */
  readonly facts: readonly Fact[]
  readonly visitId: VisitId
  readonly week: IsoWeek
  readonly now: Moment
  readonly workshop: WorkshopState
  readonly nameOf: NameOf
}

/** Null when the visit was not known by the end of the week. */
export function tellingCar({ facts, visitId, week, now, workshop, nameOf }: TellingInput): TellingCar | null {
  const span = reportWeek(week, workshop.zone)
  const inWeek = carInWeek(factsOfVisit(facts, visitId), span, now)
  const visit = inWeek?.car.visits.get(visitId)
  if (!inWeek || !visit) return null
  const context = { ...createViewContext({ now: inWeek.at, workshop, nameOf }), year: week.year }
  return { ...inWeek, week: span, visit, context }
}

/** The chain as far as the next visit: a car that came back tells nothing new of the visit before. */
function factsOfVisit(facts: readonly Fact[], visitId: VisitId): readonly Fact[] {
  const opened = facts.findIndex(({ kind, payload }) => kind === 'visitOpened' && payload.visitId === visitId)
  const next = facts.findIndex(({ kind }, index) => kind === 'visitOpened' && index > opened)
  return opened === -1 || next === -1 ? facts : facts.slice(0, next)
}

/** A fixed price is no matter of hours, and a warranty visit is paid by the workshop. */
export function isChargedByHours({ visit }: Pick<TellingCar, 'visit'>): boolean {
  return visit.kind === 'agreed' && visit.charge.by !== 'fixed'
}

/** The part of the week that belongs to the visit: what came before it is told in the report of the visit before. */
export function isInVisitWeek({ week, visit, car }: TellingCar, moment: Moment): boolean {
  if (moment < week.from || moment >= week.to) return false
  const [first] = car.visits.keys()
  return first === visit.id || moment >= visit.opened.happened
}

/** The visit's facts of one kind in the week, in journal order. */
export function weekFacts<K extends FactKind>(telling: TellingCar, kind: K): readonly FactOf<K>[] {
  return factsOfKind(telling.facts, kind).filter(({ happened }) =>
    isInVisitWeek(telling, Date.parse(happened)),
  )
}

/** Repairs that the visit's reports speak of: its own, and earlier ones that are open again or were touched in it. */
export function toldRepairs({ car, visit }: TellingCar): readonly RepairState[] {
  return activeRepairs(car).filter(
    (repair) =>
      repair.visitId === visit.id ||
      !isFinished(repair) ||
      Object.values(repair.gates).some(
        ({ done }) => done !== null && done.stamp.number > visit.opened.number,
      ),
  )
}

type TellsDays = Pick<Telling, 'context' | 'say'>

/** The local date of a moment, in words, with the year when it is not the week's. */
export function dayOf(telling: TellsDays, moment: Moment): string {
  return dateWords(telling, localDateOf(moment, telling.context.workshop.zone))
}

/** A local date the same way. */
export function dateWords({ context, say }: TellsDays, date: string): string {
  return say.figures.day(date, context.year)
}
