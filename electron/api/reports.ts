import type { Context } from 'hono'
import { readReport } from '../../db/report-files.ts'
import { reportRow } from '../../db/report-rows.ts'
import { readCar } from '../../db/reads.ts'
import { visitIdSchema } from '../../domain/ids.ts'
import { refuse } from '../../domain/refusal.ts'
import { parseIsoWeek } from '../../domain/time/iso-week.ts'
import { answerPdf } from './answer-pdf.ts'
import type { ApiDeps } from './deps.ts'
import { refused } from './guard.ts'
import type { ReportDesk } from './report-desk.ts'

/** `GET /reports/ID.pdf`: an issued report, byte for byte. */
export async function serveReport(
  c: Context,
  reportId: string,
  { db, reportsFolder }: ApiDeps,
): Promise<Response> {
  const row = reportRow(db, reportId)
  if (row === null) return refused(c, 404, unknownReport)
  const bytes = await readReport(reportsFolder, row.sha256)
  if (bytes === null) return refused(c, 404, lostReport)
  const shell = readCar(db, row.carId)?.shellNumber ?? ''
  return answerPdf(c, bytes, `${row.week} ${shell}`, 'private, max-age=31536000, immutable')
}

/** `GET /report-preview/VISIT/WEEK.pdf`: how it would be issued now, marked as not issued. */
export async function servePreview(
  c: Context,
  visit: string,
  weekText: string,
  desk: ReportDesk,
): Promise<Response> {
  const visitId = visitIdSchema.safeParse(visit)
  const week = parseIsoWeek(weekText)
  if (!visitId.success) return refused(c, 404, unknownReport)
  if (!week.ok) return refused(c, 404, week.refusal)
  const printed = await desk.printDraft(visitId.data, week.value)
  if (!printed.ok) return refused(c, 404, printed.refusal)
  return answerPdf(c, new Uint8Array(printed.value), `${weekText} not issued`, 'no-store')
}

export const { refusal: unknownReport } = refuse(
  'unknown',
  'There is no such report.',
  'Choose it from the owner reports.',
)
export const { refusal: lostReport } = refuse(
  'storage',
  'The file of this report is gone or was changed on the disk.',
  'Bring it back from the newest copy of the workshop, and run the check on this data folder.',
)
