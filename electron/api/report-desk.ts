import { chainHead } from '../../db/journal.ts'
import { tryToStore } from '../../db/database-problem.ts'
import { executeCommand } from '../../db/execute-command.ts'
import { reportRow } from '../../db/report-rows.ts'
import { readWorkshop } from '../../db/reads.ts'
import { keepPrepared, type PreparedReport } from '../../db/reports-in-preparation.ts'
import type { Command } from '../../domain/commands/command-shapes.ts'
import type { CommandId, PersonId, ReportId } from '../../domain/ids.ts'
import { ok, refuse, type Refusal, type Result, refusalWords } from '../../domain/refusal.ts'
import { reportPhotos, type OwnerWeek } from '../../domain/report/owner-week-shapes.ts'
import type { ReportChoices } from '../../domain/report/report-choices.ts'
import { formatIsoWeek } from '../../domain/time/iso-week.ts'
import { instantToIso } from '../../domain/time/zone.ts'
import type { ApiServices } from './api-services.ts'
import type { ApiDeps } from './deps.ts'
import { gonePhotoRefusal, gonePhotos } from './gone-photos.ts'
import { keptReport, type KeptReport, print } from './keep-report.ts'
import type { Asker } from './pairing.ts'
import {
  currentChoices,
  keepChoices,
  tellReport,
  type ReportContent,
  type ReportOf,
} from './report-content.ts'

export interface ReportOrder extends ReportOf {
  readonly choices: ReportChoices
  readonly reportId: ReportId
  readonly commandId: CommandId
}

export interface ReportDesk {
  /** What the report says with these choices, which are kept until it is issued. */
  readonly draft: (of: ReportOf, choices: ReportChoices) => Result<ReportContent>
  /** What the report says as it stands on the desk. */
  readonly content: (of: ReportOf) => Result<ReportContent>
  /** The same, printed as 'not issued'. */
  readonly printDraft: (of: ReportOf) => Promise<Result<Uint8Array>>
  /** Builds and prints it once, to see that it can be issued, and keeps when and what was wrong. Issues nothing. */
  readonly prepare: (of: ReportOf) => Promise<Result<PreparedReport>>
  /** Prints, keeps the files, then records it: an issued report is never without its files. */
  readonly issue: (order: ReportOrder, manager: PersonId, asker: Asker) => Promise<IssueAnswer>
}

export type IssueAnswer =
  | { readonly ok: true; readonly reportId: ReportId }
  | { readonly ok: false; readonly refusal: Refusal }

/** The desk that the calls, the commands beside the host and the weekly preparing share. */
export function createReportDesk(services: ApiServices): ReportDesk {
  const { deps, revisions } = services
  const { db, now } = deps

  const content: ReportDesk['content'] = (of) => {
    const choices = currentChoices(db, of)
    return choices.ok ? tellReport(db, of, choices.value, now()) : choices
  }

  const issue: ReportDesk['issue'] = async (order, manager, { device }) => {
    if (reportRow(db, order.reportId) !== null) return { ok: true, reportId: order.reportId }
    const found = tellReport(db, order, order.choices, now())
    if (!found.ok) return found
    const [gone] = await gonePhotos(deps.photos, found.value.content)
    if (gone !== undefined) return { ok: false, refusal: gonePhotoRefusal(gone) }
    const head = chainHead(db, found.value.car.id)
    const kept = await keptReport(deps, found.value.content, head)
    if (!kept.ok) return kept
    const issued = { head, kept: kept.value, by: manager, made: instantToIso(now(), readWorkshop(db).zone) }
    const command = issueCommand(order, found.value, issued)
    const answer = executeCommand(db, { command, device: device.id, second: null, now: now() })
    if (!answer.ok) return answer
    revisions.announce(false)
    return { ok: true, reportId: order.reportId }
  }

  return {
    draft: (of, choices) => {
      const told = tellReport(db, of, choices, now())
      if (!told.ok) return told
      const kept = tryToStore(() => keepChoices(db, of, choices))
      return kept.ok ? told : kept
    },
    content,
    printDraft: async (of) => {
      const found = content(of)
      return found.ok ? print(deps, found.value.content, { kind: 'draft' }) : found
    },
    prepare: async (of) => {
      const found = content(of)
      const problems = found.ok ? await problemsOf(deps, found.value.content) : [found.refusal]
      // A report that was given up because the program ends says nothing of itself.
      if (deps.closing.aborted) return closing
      const prepared = {
        visitId: of.visitId,
        week: formatIsoWeek(of.week),
        preparedAt: now(),
        problems: problems.map(refusalWords),
      }
      const kept = tryToStore(() => keepPrepared(db, prepared))
      if (!kept.ok) return kept
      revisions.announce(true)
      return ok(prepared)
    },
    issue,
  }
}

/** Why a report could not be issued as it is, by trying. */
async function problemsOf(deps: ApiDeps, content: OwnerWeek): Promise<readonly Refusal[]> {
  const gone = await gonePhotos(deps.photos, content)
  const printed = await print(deps, content, { kind: 'draft' })
  return [...gone.map(gonePhotoRefusal), ...(printed.ok ? [] : [printed.refusal])]
}

interface Issued {
  readonly head: string
  readonly kept: KeptReport
  readonly by: PersonId
  readonly made: string
}

function issueCommand(
  { commandId, reportId, visitId, week, choices }: ReportOrder,
  { car, content }: ReportContent,
  { head, kept, by, made }: Issued,
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
    made,
    payload: {
      reportId,
      visitId,
      week: formatIsoWeek(week),
      ...kept,
      head,
      ...choices,
      photos: reportPhotos(content).map((photo) => photo.attachmentId),
      title: `${content.title}, ${content.subtitle}`,
    },
  }
}

const closing = refuse('not-now', 'The program is closing.', 'Prepare the reports again when it runs.')
