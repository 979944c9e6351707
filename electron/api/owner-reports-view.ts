import { contactBook, type ContactBook } from '../../db/contacts.ts'
import type { ReadDatabase } from '../../db/database.ts'
import { readCarsOfVisits, readWorkshop } from '../../db/reads.ts'
import { readDraft, readPrepared } from '../../db/reports-in-preparation.ts'
import type { CarState, Moment, VisitState } from '../../domain/car.ts'
import type { VisitStatus } from '../../domain/facts/car-facts.ts'
import type { ReportSettings } from '../../domain/facts/reports-facts.ts'
import type { CarId, ReportId, VisitId } from '../../domain/ids.ts'
import type { ReportChoices } from '../../domain/report/report-choices.ts'
import { reportWeek, type ReportWeek } from '../../domain/report/report-week.ts'
import { formatIsoWeek, nextIsoWeek, previousIsoWeek, type IsoWeek } from '../../domain/time/iso-week.ts'
import type { WorkshopState } from '../../domain/workshop.ts'
import type { VisitSpan } from '../../domain/views/resting-car.ts'
import { choicesToStart, issuedReports } from './report-content.ts'

/** The owner reports of one week: what is issued, what could be, car by car. */
export interface OwnerReportsView {
  /** ISO week, like 2026-W48. */
  readonly week: string
  readonly previous: string
  readonly next: string
  /** When reports are prepared by themselves, and what they start with. */
  readonly settings: ReportSettings
  readonly reports: readonly OwnerReportLine[]
}

export interface OwnerReportLine {
  readonly carId: CarId
  readonly carName: string
  readonly shellNumber: string
  readonly visitId: VisitId
  readonly owner: string
  /** False: no e-mail can be written to the owner. */
  readonly ownerHasEmail: boolean
  readonly status: VisitStatus
  /** Of this week, the latest first. */
  readonly issued: readonly IssuedReportLine[]
  /** The latest of an earlier week. */
  readonly before: IssuedReportLine | null
  /** What the manager has chosen for the next issue of this week; null for nothing of their own. */
  readonly draft: ReportChoices | null
  /** What that issue starts with: the report that it corrects, else what the workshop has set. */
  readonly start: ReportChoices
  /** When it was prepared last, and what was wrong with it then; null where it was not, or is issued. */
  readonly prepared: { readonly at: Moment; readonly problems: readonly string[] } | null
}

export interface IssuedReportLine {
  readonly reportId: ReportId
  readonly week: string
  readonly title: string
  readonly at: Moment
  readonly by: string
  /** Reports of a visit are counted from 1, in the order in which they are issued. */
  readonly number: number
  /** False for reports from before a page was kept beside the PDF. */
  readonly hasPage: boolean
}

/** Every visit that was agreed and not yet delivered in some part of the week, in order of shell numbers. */
export function readOwnerReports(db: ReadDatabase, week: IsoWeek): OwnerReportsView {
  const workshop = readWorkshop(db)
  const span = reportWeek(week, workshop.zone)
  const context = { db, week, workshop, contacts: contactBook(db) }
  return {
    week: formatIsoWeek(week),
    previous: formatIsoWeek(previousIsoWeek(week)),
    next: formatIsoWeek(nextIsoWeek(week)),
    settings: workshop.reports,
    reports: readCarsOfVisits(db, (visit) => isToldOf(visit, span)).flatMap((car) =>
      [...car.visits.values()]
        .filter((visit) => isToldOf(visit, span))
        .map((visit) => reportLine(car, visit, context)),
    ),
  }
}

interface LineContext {
  readonly db: ReadDatabase
  readonly week: IsoWeek
  readonly workshop: Pick<WorkshopState, 'reports'>
  readonly contacts: ContactBook
}

function isToldOf(visit: VisitSpan, { from, to }: ReportWeek): boolean {
  if (visit.from !== null || visit.status === 'enquired' || visit.status === 'not taken on') return false
  const isGone = visit.status === 'delivered' && visit.statusSince < from
  return visit.opened.happened < to && !isGone
}

function reportLine(
  car: CarState,
  visit: VisitState,
  { db, week, workshop, contacts: { nameOf, contactOf } }: LineContext,
): OwnerReportLine {
  const thisWeek = formatIsoWeek(week)
  const issued = issuedReports(car, visit.id)
    .map(({ id, week, title, page, stamp }, index) => ({
      reportId: id,
      week,
      title,
      at: stamp.happened,
      by: stamp.by === null ? '' : nameOf(stamp.by),
      number: index + 1,
      hasPage: page !== null,
    }))
    .toReversed()
  const ofThisWeek = issued.filter((report) => report.week === thisWeek)
  // What was issued while it was being prepared is not to be prepared any more.
  const prepared = ofThisWeek.length > 0 ? null : readPrepared(db, visit.id, thisWeek)
  return {
    carId: car.id,
    carName: car.name,
    shellNumber: car.shellNumber,
    visitId: visit.id,
    owner: nameOf(visit.ownerId),
    ownerHasEmail: (contactOf(visit.ownerId)?.email ?? '') !== '',
    status: visit.status,
    issued: ofThisWeek,
    before: issued.find((report) => report.week < thisWeek) ?? null,
    draft: readDraft(db, visit.id, thisWeek),
    start: choicesToStart(car, workshop, { visitId: visit.id, week: thisWeek }),
    prepared: prepared && { at: prepared.preparedAt, problems: prepared.problems },
  }
}
