import { contactBook } from '../../db/contacts.ts'
import { chainHead, readFacts } from '../../db/journal.ts'
import { executeCommand } from '../../db/execute-command.ts'
import { isSystemError } from '../../db/photos/photo-problem.ts'
import { storeReport } from '../../db/report-files.ts'
import { reportRow } from '../../db/report-rows.ts'
import { readAllCars, readWorkshop } from '../../db/reads.ts'
import type { CarState } from '../../domain/car.ts'
import type { Command } from '../../domain/commands/command-shapes.ts'
import type { CommandId, PersonId, ReportId, VisitId } from '../../domain/ids.ts'
import { ok, refuse, type Refusal, type Result } from '../../domain/refusal.ts'
import { ownerWeek } from '../../domain/report/owner-week.ts'
import { reportPhotos, type OwnerWeek } from '../../domain/report/owner-week-shapes.ts'
import { formatIsoWeek, type IsoWeek } from '../../domain/time/iso-week.ts'
import { instantToIso } from '../../domain/time/zone.ts'
import type { ApiServices } from './api-services.ts'
import type { ApiDeps, PrintedAs } from './deps.ts'
import type { ReportDraft } from './owner-reports-view.ts'
import type { Asker } from './pairing.ts'

/** A report as it would be issued now. */
export interface ReportContent {
  readonly car: CarState
  readonly content: OwnerWeek
}

export interface ReportOrder extends ReportDraft {
  readonly visitId: VisitId
  readonly week: IsoWeek
  readonly reportId: ReportId
  readonly commandId: CommandId
}

export interface ReportDesk {
  /** Kept in memory, for the printed preview, until it is issued or the host ends. */
  readonly keepDraft: (visitId: VisitId, week: IsoWeek, draft: ReportDraft) => void
  readonly draftOf: (visitId: VisitId, week: string) => ReportDraft | null
  readonly content: (visitId: VisitId, week: IsoWeek, draft: ReportDraft) => Result<ReportContent>
  /** The draft, or what the report says by itself, printed as 'not issued'. */
  readonly printDraft: (visitId: VisitId, week: IsoWeek) => Promise<Result<Uint8Array>>
  /** Prints, keeps the file, then records it: an issued report is never without its file. */
  readonly issue: (order: ReportOrder, manager: PersonId, asker: Asker) => Promise<IssueAnswer>
}

export type IssueAnswer =
  | { readonly ok: true; readonly reportId: ReportId }
  | { readonly ok: false; readonly refusal: Refusal }

export function createReportDesk(services: ApiServices): ReportDesk {
  const { deps, revisions } = services
  const { db, now } = deps
  const drafts = new Map<string, ReportDraft>()

  const draftOf: ReportDesk['draftOf'] = (visitId, week) => drafts.get(`${visitId} ${week}`) ?? null

  const content: ReportDesk['content'] = (visitId, week, { words, photos }) => {
    const car = readAllCars(db).find((each) => each.visits.has(visitId))
    if (car === undefined) return unknownVisit
    const told = ownerWeek({
      facts: readFacts(db, car.id),
      visitId,
      week,
      now: now(),
      workshop: readWorkshop(db),
      nameOf: contactBook(db).nameOf,
      words,
      photos,
    })
    return told === null ? notYetThere : ok({ car, content: told })
  }

  const issue: ReportDesk['issue'] = async (order, manager, { device }) => {
    if (reportRow(db, order.reportId) !== null) return { ok: true, reportId: order.reportId }
    const found = content(order.visitId, order.week, order)
    if (!found.ok) return found
    const { car, content: told } = found.value
    const head = chainHead(db, car.id)
    const printed = await print(deps, told, { kind: 'issued', head })
    if (!printed.ok) return printed
    const stored = await store(deps.reportsFolder, printed.value)
    if (!stored.ok) return stored
    const command = issueCommand(
      order,
      { car, content: told },
      { head, sha256: stored.value, by: manager, now: now() },
      readWorkshop(db).zone,
    )
    const answer = executeCommand(db, { command, device: device.id, second: null, now: now() })
    if (!answer.ok) return answer
    drafts.delete(`${order.visitId} ${formatIsoWeek(order.week)}`)
    revisions.announce(false)
    return { ok: true, reportId: order.reportId }
  }

  return {
    keepDraft: (visitId, week, draft) => void drafts.set(`${visitId} ${formatIsoWeek(week)}`, draft),
    draftOf,
    content,
    printDraft: async (visitId, week) => {
      const draft = draftOf(visitId, formatIsoWeek(week)) ?? { words: '', photos: null }
      const found = content(visitId, week, draft)
      return found.ok ? print(deps, found.value.content, { kind: 'draft' }) : found
    },
    issue,
  }
}

interface Issued {
  readonly head: string
  readonly sha256: string
  readonly by: PersonId
  readonly now: number
}

function issueCommand(
  { commandId, reportId, visitId, week, words }: ReportOrder,
  { car, content }: ReportContent,
  { head, sha256, by, now }: Issued,
  zone: string,
): Command {
  return {
    id: commandId,
    kind: 'issueReport',
    carId: car.id,
    seen: null,
    by,
    code: null,
    second: null,
    happened: null,
    made: instantToIso(now, zone),
    payload: {
      reportId,
      visitId,
      week: formatIsoWeek(week),
      sha256,
      page: null,
      head,
      words,
      crops: [],
      names: false,
      dates: 'range',
      photos: reportPhotos(content).map((photo) => photo.attachmentId),
      title: `${content.title}, ${content.subtitle}`,
    },
  }
}

/** What stops the printing is written to the log; the person can only try again. */
async function print(deps: ApiDeps, content: OwnerWeek, as: PrintedAs): Promise<Result<Uint8Array>> {
  try {
    return ok(await deps.printReport(content, as))
  } catch (error) {
    const words = error instanceof Error ? error.message : String(error)
    deps.log(`${content.title}, ${content.week}: ${words}`)
    return refuse(
      'storage',
      words,
      'If it stays so, report what the window says that Panelwright was started in.',
    )
  }
}

async function store(folder: string, bytes: Uint8Array): Promise<Result<string>> {
  try {
    return ok(await storeReport(folder, bytes))
  } catch (error) {
    if (!isSystemError(error)) throw error
    return refuse(
      'storage',
      `The report could not be kept on the disk (${error.code}), so it was not issued.`,
      'Make room on the disk, check that this account may write to it, and issue it again.',
    )
  }
}

const unknownVisit = refuse('unknown', 'This visit is not known here.', 'Choose the car from the list.')
const notYetThere = refuse(
  'not-now',
  'The car was not here in that week, so there is nothing to tell.',
  'Choose a later week.',
)
