import type { ContactBook } from '../../db/contacts.ts'
import type { CarState, Moment, VisitState } from '../../domain/car.ts'
import type { VisitStatus } from '../../domain/facts/car-facts.ts'
import type { AttachmentId, CarId, ReportId, VisitId } from '../../domain/ids.ts'
import { reportWeek, type ReportWeek } from '../../domain/report/report-week.ts'
import { formatIsoWeek, nextIsoWeek, previousIsoWeek, type IsoWeek } from '../../domain/time/iso-week.ts'

/** The owner reports of one week: what is issued, what could be, car by car. */
export interface OwnerReportsView {
  /** ISO week, like 2026-W48. */
  readonly week: string
  readonly previous: string
  readonly next: string
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
  /** What the manager has prepared in this run and not issued yet. */
  readonly draft: ReportDraft | null
}

export interface IssuedReportLine {
  readonly reportId: ReportId
  readonly week: string
  readonly title: string
  readonly at: Moment
  readonly by: string
}

export interface ReportDraft {
  readonly words: string
  /** The manager's choice; null leaves it to the report. */
  readonly photos: readonly AttachmentId[] | null
}

export interface OwnerReportsInput {
  readonly cars: readonly CarState[]
  readonly week: IsoWeek
  readonly zone: string
  readonly contacts: ContactBook
  readonly draftOf: (visitId: VisitId, week: string) => ReportDraft | null
}

/** Every visit that was agreed and not yet delivered in some part of the week, in order of shell numbers. */
export function ownerReportsView(input: OwnerReportsInput): OwnerReportsView {
  const { cars, week, zone } = input
  const span = reportWeek(week, zone)
  return {
    week: formatIsoWeek(week),
    previous: formatIsoWeek(previousIsoWeek(week)),
    next: formatIsoWeek(nextIsoWeek(week)),
    reports: cars.flatMap((car) =>
      [...car.visits.values()]
        .filter((visit) => isToldOf(visit, span))
        .map((visit) => reportLine(car, visit, input)),
    ),
  }
}

function isToldOf(visit: VisitState, { from, to }: ReportWeek): boolean {
  const isGone = visit.status === 'delivered' && visit.statusSince < from
  return visit.from === null && visit.status !== 'enquired' && visit.opened.happened < to && !isGone
}

function reportLine(
  car: CarState,
  visit: VisitState,
  { week, contacts: { nameOf, contactOf }, draftOf }: OwnerReportsInput,
): OwnerReportLine {
  const thisWeek = formatIsoWeek(week)
  const issued = [...car.reports.values()]
    .filter((report) => report.visitId === visit.id)
    .map(({ id, week, title, stamp }) => ({
      reportId: id,
      week,
      title,
      at: stamp.happened,
      by: stamp.by === null ? '' : nameOf(stamp.by),
    }))
    .toSorted((a, b) => b.at - a.at)
  return {
    carId: car.id,
    carName: car.name,
    shellNumber: car.shellNumber,
    visitId: visit.id,
    owner: nameOf(visit.ownerId),
    ownerHasEmail: (contactOf(visit.ownerId)?.email ?? '') !== '',
    status: visit.status,
    issued: issued.filter((report) => report.week === thisWeek),
    before: issued.find((report) => report.week < thisWeek) ?? null,
    draft: draftOf(visit.id, thisWeek),
  }
}
