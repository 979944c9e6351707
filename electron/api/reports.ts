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
import { fileName } from './saved-as.ts'

/** `GET /reports/ID.pdf`: an issued report, byte for byte. */
export async function serveReport(
  c: Context,
  reportId: string,
  { db, reportsFolder }: ApiDeps,
): Promise<Response> {
  const row = reportRow(db, reportId)
  if (row === null) return refused(c, 404, unknownReport)
  const bytes = await readReport(reportsFolder, 'pdf', row.sha256)
  if (bytes === null) return refused(c, 404, lostReport)
  const shell = readCar(db, row.carId)?.shellNumber ?? ''
  return answerPdf(c, bytes, `${row.week} ${shell}`, 'private, max-age=31536000, immutable')
}

/** `GET /reports/ID.html`: the page that was issued beside it, byte for byte. It runs nothing and loads nothing. */
export async function servePage(
  c: Context,
  reportId: string,
  { db, reportsFolder }: ApiDeps,
): Promise<Response> {
  const row = reportRow(db, reportId)
  if (row === null) return refused(c, 404, unknownReport)
  if (row.page === null) return refused(c, 404, noPage)
  const bytes = await readReport(reportsFolder, 'html', row.page)
  if (bytes === null) return refused(c, 404, lostReport)
  const shell = readCar(db, row.carId)?.shellNumber ?? ''
  return c.body(bytes, 200, {
    'Content-Type': 'text/html; charset=utf-8',
    'Content-Disposition': `inline; filename="${fileName(`${row.week} ${shell}`)}.html"`,
    'Content-Security-Policy': PAGE_POLICY,
    'Cache-Control': 'private, max-age=31536000, immutable',
  })
}

/** The page's own policy names its one style; this one holds for the pages of all versions. */
const PAGE_POLICY =
  "default-src 'none'; style-src 'unsafe-inline'; img-src data:; base-uri 'none'; form-action 'none'; frame-ancestors 'none'; sandbox"

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
  const printed = await desk.printDraft({ visitId: visitId.data, week: week.value })
  if (!printed.ok) return refused(c, 404, printed.refusal)
  return answerPdf(c, new Uint8Array(printed.value), `${weekText} not issued`, 'no-store')
}

export const { refusal: unknownReport } = refuse(
  'unknown',
  'There is no such report.',
  'Choose it from the owner reports.',
)
const { refusal: noPage } = refuse(
  'unknown',
  'This report was issued before pages were kept beside the PDF.',
  'Open its PDF.',
)
export const { refusal: lostReport } = refuse(
  'storage',
  'The file of this report is gone or was changed on the disk.',
  'Bring it back from the newest copy of the workshop, and run the check on this data folder.',
)
