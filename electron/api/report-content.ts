import { contactBook } from '../../db/contacts.ts'
import type { Database, ReadDatabase } from '../../db/database.ts'
import { readFacts } from '../../db/journal.ts'
import { readCarOfVisit, readWorkshop } from '../../db/reads.ts'
import { keepDraft, readDraft } from '../../db/reports-in-preparation.ts'
import type { CarState, IssuedReport, Moment } from '../../domain/car.ts'
import type { VisitId } from '../../domain/ids.ts'
import { ok, refuse, type Result } from '../../domain/refusal.ts'
import { ownerWeek } from '../../domain/report/owner-week.ts'
import type { OwnerWeek } from '../../domain/report/owner-week-shapes.ts'
import { isSameChoices, type ReportChoices } from '../../domain/report/report-choices.ts'
import { formatIsoWeek, type IsoWeek } from '../../domain/time/iso-week.ts'
import type { WorkshopState } from '../../domain/workshop.ts'
import { weekExpected } from './week-expected.ts'

/** Which report: of one visit of a car, on one week. */
export interface ReportOf {
  readonly visitId: VisitId
  readonly week: IsoWeek
}

/** A report as it would be issued now. */
export interface ReportContent {
  readonly car: CarState
  readonly content: OwnerWeek
}

/** What a report says with these choices. */
export function tellReport(
  db: ReadDatabase,
  { visitId, week }: ReportOf,
  choices: ReportChoices,
  now: Moment,
): Result<ReportContent> {
  const car = readCarOfVisit(db, visitId)
  if (car === null) return unknownVisit
  const input = {
    facts: readFacts(db, car.id),
    visitId,
    week,
    now,
    workshop: readWorkshop(db),
    nameOf: contactBook(db).nameOf,
  }
  const told = ownerWeek({ ...input, choices, expected: weekExpected(db, input) })
  return told === null ? notYetThere : ok({ car, content: told })
}

/** The manager's draft, else what a report starts with. Refused for a visit that is unknown. */
export function currentChoices(db: ReadDatabase, { visitId, week }: ReportOf): Result<ReportChoices> {
  const car = readCarOfVisit(db, visitId)
  if (car === null) return unknownVisit
  const weekText = formatIsoWeek(week)
  return ok(
    readDraft(db, visitId, weekText) ?? choicesToStart(car, readWorkshop(db), { visitId, week: weekText }),
  )
}

/** A correction starts from the report that it corrects, any other report from what the workshop has set. */
export function choicesToStart(
  car: CarState,
  { reports: { names, dates, language } }: Pick<WorkshopState, 'reports'>,
  of: { readonly visitId: VisitId; readonly week: string },
): ReportChoices {
  return (
    issuedReports(car, of.visitId).findLast(({ week }) => week === of.week)?.choices ?? {
      words: '',
      photos: null,
      crops: [],
      names,
      dates,
      language,
    }
  )
}

/** Those of a visit, the earliest first: the first one is report 1. */
export function issuedReports(car: CarState, visitId: VisitId): readonly IssuedReport[] {
  return [...car.reports.values()].filter((report) => report.visitId === visitId)
}

/** Keeps what differs from what the report starts with: a letter that was only looked at follows later settings. */
export function keepChoices(db: Database, { visitId, week }: ReportOf, choices: ReportChoices): void {
  const car = readCarOfVisit(db, visitId)
  if (car === null) return
  const of = { visitId, week: formatIsoWeek(week) }
  const isOwn = !isSameChoices(choices, choicesToStart(car, readWorkshop(db), of))
  keepDraft(db, of, isOwn ? choices : null)
}

const unknownVisit = refuse('unknown', 'This visit is not known here.', 'Choose the car from the list.')
const notYetThere = refuse(
  'not-now',
  'The car was not here in that week, so there is nothing to tell.',
  'Choose a later week.',
)
