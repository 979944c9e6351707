import { mkdir, writeFile } from 'node:fs/promises'
import { join, resolve } from 'node:path'
import { contactBook } from '../../db/contacts.ts'
import { photosFolder, reportsFolder } from '../../db/data-paths.ts'
import type { ReadDatabase } from '../../db/database.ts'
import { readFacts } from '../../db/journal.ts'
import { lastLine } from '../../db/chains.ts'
import { openDatabase } from '../../db/open-database.ts'
import { readReport } from '../../db/report-files.ts'
import { reportRow } from '../../db/report-rows.ts'
import { readAllCars, readWorkshop } from '../../db/reads.ts'
import { ownerWeek } from '../../domain/report/owner-week.ts'
import { plural } from '../../domain/text/words.ts'
import { formatIsoWeek, parseIsoWeek, type IsoWeek } from '../../domain/time/iso-week.ts'
import { ownerReportsView, type OwnerReportLine } from '../api/owner-reports-view.ts'
import { printOwnerWeek } from '../print/print-owner-week.ts'
import type { LoadPhoto } from '../print/print-photos.ts'
import { createPhotoLoader } from '../print/load-report-photo.ts'
import { dataFolder, readFlags, runCommand, UsageProblem } from './command-line.ts'

const usage = `npm run reports -- [--data DIR] --week 2026-W48 --out DIR
  --data DIR       the data folder; also while Panelwright is running on it
  --week YYYY-Www  ISO week that the reports are about
  --out DIR        where the PDF files go (made when it is not there)`

await runCommand(usage, reports)

interface Run {
  readonly db: ReadDatabase
  readonly dataDir: string
  readonly week: IsoWeek
  readonly loadPhoto: LoadPhoto
}

/** Writes all owner reports of a week: issued ones as they are, the others as drafts marked 'not issued'. Issues none. */
async function reports(argv: readonly string[]): Promise<number> {
  const flags = readFlags(argv, ['data', 'week', 'out'])
  const week = neededWeek(flags.week)
  const out = neededFolder(flags.out)
  const dataDir = dataFolder(flags.data)
  const db = openDatabase(dataDir, { readonly: true })
  try {
    const loadPhoto = createPhotoLoader(photosFolder(dataDir))
    return await writeAll({ db, dataDir, week, loadPhoto }, out)
  } finally {
    db.close()
  }
}

async function writeAll(run: Run, out: string): Promise<number> {
  await mkdir(out, { recursive: true })
  const lines = linesOf(run)
  let lost = 0
  for (const [index, line] of lines.entries()) {
    const bytes = await reportBytes(run, line)
    const what = `${line.carName}, shell ${line.shellNumber}`
    if (bytes === null) {
      lost += 1
      console.error(
        `${what}: the file of its issued report is gone or was changed; run the check on this folder.`,
      )
      continue
    }
    const path = join(out, fileName(run.week, line, lines.slice(0, index)))
    await writeFile(path, bytes)
    console.log(`${what}: ${line.issued.length > 0 ? 'issued' : 'not issued'}, ${path}`)
  }
  console.log(`${plural('report', lines.length - lost)} of ${formatIsoWeek(run.week)} in ${out}.`)
  return lost === 0 ? 0 : 1
}

function linesOf({ db, week }: Run): readonly OwnerReportLine[] {
  const { zone } = readWorkshop(db)
  const contacts = contactBook(db)
  return ownerReportsView({ cars: readAllCars(db), week, zone, contacts, draftOf: () => null }).reports
}

/** Null when an issued report cannot be read any more: a draft in its place would say something else. */
async function reportBytes(
  { db, dataDir, week, loadPhoto }: Run,
  line: OwnerReportLine,
): Promise<Uint8Array | null> {
  const [issued] = line.issued
  if (issued !== undefined) {
    const row = reportRow(db, issued.reportId)
    return row === null ? null : readReport(reportsFolder(dataDir), row.sha256)
  }
  const told = ownerWeek({
    facts: readFacts(db, line.carId),
    visitId: line.visitId,
    week,
    now: latestTime(db),
    workshop: readWorkshop(db),
    nameOf: contactBook(db).nameOf,
    choices: { words: '', photos: null, crops: [], names: false, dates: 'range' },
  })
  if (told === null) throw new Error(`The visit ${line.visitId} is not told of in ${formatIsoWeek(week)}.`)
  return printOwnerWeek(told, loadPhoto, { kind: 'draft' })
}

/** This computer's time, or the journal's own where that is later: a demo may be filled up to a day to come. */
function latestTime(db: ReadDatabase): number {
  return Math.max(Date.now(), Date.parse(lastLine(db.reader)?.recorded ?? '') || 0)
}

/** '2026-W48-S-101.pdf'; a car with a second visit in the week gets '-2'. */
function fileName(
  week: IsoWeek,
  { shellNumber }: OwnerReportLine,
  before: readonly OwnerReportLine[],
): string {
  const visit = before.filter((line) => line.shellNumber === shellNumber).length + 1
  const name = `${formatIsoWeek(week)}-${shellNumber.replaceAll('/', '-')}`
  return `${name}${visit === 1 ? '' : `-${visit}`}.pdf`
}

function neededWeek(text: string | undefined): IsoWeek {
  const week = parseIsoWeek(text ?? '')
  if (week.ok) return week.value
  throw new UsageProblem(
    text === undefined ? '--week is missing.' : `${week.refusal.message} ${week.refusal.next}`,
  )
}

function neededFolder(named: string | undefined): string {
  if (named === undefined || named === '') throw new UsageProblem('--out is missing.')
  return resolve(named)
}
