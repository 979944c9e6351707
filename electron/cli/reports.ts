import { resolve } from 'node:path'
import { photosFolder, reportsFolder } from '../../db/data-paths.ts'
import type { ReadDatabase } from '../../db/database.ts'
import { latestTime } from '../../db/host-clock.ts'
import { openDatabase } from '../../db/open-database.ts'
import { openPhotoReader, type PhotoReader } from '../../db/photos/photo-store.ts'
import { readReport } from '../../db/report-files.ts'
import { reportRow } from '../../db/report-rows.ts'
import type { OwnerWeek } from '../../domain/report/owner-week-shapes.ts'
import { plural } from '../../domain/text/words.ts'
import { formatIsoWeek, parseIsoWeek, type IsoWeek } from '../../domain/time/iso-week.ts'
import { gonePhotoRefusal, gonePhotos } from '../api/gone-photos.ts'
import { readOwnerReports, type OwnerReportLine } from '../api/owner-reports-view.ts'
import { currentChoices, tellReport } from '../api/report-content.ts'
import { reportHtml } from '../export/report-html.ts'
import { printOwnerWeek } from '../print/print-owner-week.ts'
import type { LoadPhoto } from '../print/print-photos.ts'
import { createPhotoLoader } from '../print/load-report-photo.ts'
import { dataFolder, needed, readFlags, runCommand, UsageProblem } from './command-line.ts'
import { makeOutFolder, writeOut } from './write-out.ts'
import { refusalWords } from '../../domain/refusal.ts'

const usage = `npm run reports -- [--data DIR] --week 2026-W48 --out DIR
  --data DIR       the data folder; also while Panelwright is running on it
  --week YYYY-Www  ISO week that the reports are about
  --out DIR        where each report goes, as a PDF and as a page for a phone (made when it is not there)`

await runCommand(usage, reports)

interface Run {
  readonly db: ReadDatabase
  readonly dataDir: string
  readonly week: IsoWeek
  readonly photos: PhotoReader
  readonly loadPhoto: LoadPhoto
}

/** Writes all owner reports of a week: issued ones as they are, the others as drafts marked 'not issued'. Issues none. */
async function reports(argv: readonly string[]): Promise<number> {
  const flags = readFlags(argv, ['data', 'week', 'out'])
  const week = neededWeek(flags.week)
  const out = resolve(needed(flags.out, '--out'))
  const dataDir = dataFolder(flags.data)
  const db = openDatabase(dataDir, { readonly: true })
  try {
    const folder = photosFolder(dataDir)
    const photos = openPhotoReader(folder)
    return await writeAll({ db, dataDir, week, photos, loadPhoto: createPhotoLoader(folder) }, out)
  } finally {
    db.close()
  }
}

async function writeAll(run: Run, out: string): Promise<number> {
  await makeOutFolder(out)
  const lines = readOwnerReports(run.db, run.week).reports
  let faults = 0
  for (const [index, line] of lines.entries()) {
    const what = `${line.carName}, shell ${line.shellNumber}`
    const { files, problems } = await reportFiles(run, line)
    for (const problem of problems) console.error(`${what}: ${problem}`)
    faults += problems.length
    const name = fileName(run.week, line, lines.slice(0, index))
    const paths = []
    for (const { ending, bytes } of files) paths.push(await writeOut(out, `${name}.${ending}`, bytes))
    const state = line.issued.length > 0 ? 'issued' : 'not issued'
    if (paths.length > 0) console.log([`${what}: ${state}`, ...paths].join(', '))
  }
  console.log(`${plural('report', lines.length)} of ${formatIsoWeek(run.week)} in ${out}.`)
  return faults === 0 ? 0 : 1
}

interface ReportFiles {
  readonly files: readonly { readonly ending: 'pdf' | 'html'; readonly bytes: Uint8Array }[]
  /** Sentences. */
  readonly problems: readonly string[]
}

function reportFiles(run: Run, line: OwnerReportLine): Promise<ReportFiles> {
  const [issued] = line.issued
  return issued === undefined ? draftFiles(run, line) : issuedFiles(run, issued.reportId)
}

/** A lost file is left out: a draft in its place would say something else. */
async function issuedFiles({ db, dataDir }: Run, reportId: string): Promise<ReportFiles> {
  const row = reportRow(db, reportId)
  const folder = reportsFolder(dataDir)
  const kept = [
    { ending: 'pdf', sha256: row?.sha256 ?? null },
    { ending: 'html', sha256: row?.page ?? null },
  ] as const
  const files: { ending: 'pdf' | 'html'; bytes: Uint8Array }[] = []
  const problems: string[] = []
  for (const { ending, sha256 } of kept) {
    if (sha256 === null) continue
    const bytes = await readReport(folder, ending, sha256)
    if (bytes === null)
      problems.push(
        `the ${ending === 'pdf' ? 'PDF' : 'page'} of its issued report is gone or was changed; run the check on this folder.`,
      )
    else files.push({ ending, bytes })
  }
  return { files, problems }
}

async function draftFiles(run: Run, line: OwnerReportLine): Promise<ReportFiles> {
  const told = draftContent(run, line)
  const gone = await gonePhotos(run.photos, told)
  const problems = gone.map(gonePhotoRefusal).map(refusalWords)
  const as = { kind: 'draft' } as const
  const pdf = await printOwnerWeek(told, run.loadPhoto, as)
  const html = await reportHtml(told, run.loadPhoto, as)
  return {
    files: [
      { ending: 'pdf', bytes: pdf },
      { ending: 'html', bytes: html },
    ],
    problems,
  }
}

function draftContent({ db, week }: Run, { visitId }: OwnerReportLine): OwnerWeek {
  const choices = currentChoices(db, { visitId, week })
  const told = choices.ok
    ? tellReport(db, { visitId, week }, choices.value, latestTime(db, Date.now()))
    : choices
  if (!told.ok) throw new Error(told.refusal.message)
  return told.value.content
}

/** '2026-W48-S-101'; a car with a second visit in the week gets '-2'. */
function fileName(
  week: IsoWeek,
  { shellNumber }: OwnerReportLine,
  before: readonly OwnerReportLine[],
): string {
  const visit = before.filter((line) => line.shellNumber === shellNumber).length + 1
  const name = `${formatIsoWeek(week)}-${shellNumber.replaceAll('/', '-')}`
  return `${name}${visit === 1 ? '' : `-${visit}`}`
}

function neededWeek(text: string | undefined): IsoWeek {
  const week = parseIsoWeek(text ?? '')
  if (week.ok) return week.value
  throw new UsageProblem(text === undefined ? '--week is missing.' : refusalWords(week.refusal))
}
