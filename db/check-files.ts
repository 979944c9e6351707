import { reportsFolder } from './data-paths.ts'
import { fault, note, RESTORE, TAKE_FROM_COPY, type CheckFinding, type Mend } from './check-finding.ts'
import type { ReadDatabase } from './database.ts'
import type { ReportRow } from './derived-rows.ts'
import type { Handle } from './handle.ts'
import type { PhotoRow } from './photo-rows.ts'
import type { KeptFile } from './kept-file.ts'
import type { PhotoReader } from './photos/photo-store.ts'
import { isReportIntact } from './report-files.ts'
import { attachment, carTable, photo, report } from './schema.ts'

/** What the database says about files, as of one moment. */
export interface FileRecords {
  readonly photos: readonly PhotoRow[]
  /** Shell numbers of the cars that a photo is attached to, by its digest. */
  readonly carsByPhoto: ReadonlyMap<string, ReadonlySet<string>>
  readonly reports: readonly ReportRow[]
}

/** All that the database says about photos and issued reports; to be read within one transaction. */
export function readFileRecords({ orm }: Handle): FileRecords {
  const shellNumbers = new Map(
    orm
      .select()
      .from(carTable)
      .all()
      .map((car) => [car.id, car.shellNumber]),
  )
  const carsByPhoto = new Map<string, Set<string>>()
  for (const { sha256, carId } of orm.select().from(attachment).all()) {
    const cars = carsByPhoto.get(sha256) ?? new Set()
    carsByPhoto.set(sha256, cars.add(shellNumbers.get(carId) ?? carId))
  }
  return { photos: orm.select().from(photo).all(), carsByPhoto, reports: orm.select().from(report).all() }
}

/** Every photo and issued report against its digest, and what refers to nothing in both directions. */
export async function checkFiles(
  db: ReadDatabase,
  store: Pick<PhotoReader, 'verify' | 'list'>,
  records: FileRecords,
  onPhoto: (done: number) => void = () => {},
): Promise<readonly CheckFinding[]> {
  return [
    ...unknownPhotos(records),
    ...(await damagedPhotos(store, records, onPhoto)),
    ...(await strayPhotos(store, records)),
    ...(await damagedReports(db, records)),
  ]
}

function unknownPhotos({ photos, carsByPhoto }: FileRecords): readonly CheckFinding[] {
  const known = new Set(photos.map(({ sha256 }) => sha256))
  return [...carsByPhoto.keys()]
    .filter((sha256) => !known.has(sha256))
    .map((sha256) =>
      fault(
        `The photo ${short(sha256)}${usedBy(carsByPhoto, sha256)} was never received.`,
        'The record of received photos was changed by hand.',
        RESTORE,
      ),
    )
}

/** One after the other: the disk is the bound, and a host beside this must go on working. */
async function damagedPhotos(
  store: Pick<PhotoReader, 'verify'>,
  { photos, carsByPhoto }: FileRecords,
  onPhoto: (done: number) => void,
): Promise<readonly CheckFinding[]> {
  const findings: CheckFinding[] = []
  for (const [index, { sha256, bytes }] of photos.entries()) {
    onPhoto(index)
    const verified = await store.verify(sha256)
    if (!verified.ok) {
      const { message, next } = verified.problem
      findings.push(
        fault(
          `${message}${usedBy(carsByPhoto, sha256)}`,
          EVIDENCE,
          next,
          fromCopy({ kind: 'photo', sha256 }),
        ),
      )
    } else if (verified.value.byteCount !== bytes)
      findings.push(
        fault(
          `The photo ${short(sha256)} has another length than was recorded.`,
          'The record of received photos was changed by hand.',
          RESTORE,
        ),
      )
  }
  return findings
}

async function strayPhotos(
  store: Pick<PhotoReader, 'list'>,
  { photos, carsByPhoto }: FileRecords,
): Promise<readonly CheckFinding[]> {
  const listed = await store.list()
  if (!listed.ok) return [fault(listed.problem.message, EVIDENCE, listed.problem.next)]
  const known = new Set(photos.map(({ sha256 }) => sha256))
  const unrecorded = listed.value.filter((sha256) => !known.has(sha256))
  const unused = [...known].filter((sha256) => !carsByPhoto.has(sha256))
  return [
    ...unrecorded.map((sha256) =>
      note(
        `The photo ${short(sha256)} lies in the folder without a record.`,
        'It was being sent when the program ended.',
        NOTHING,
      ),
    ),
    ...unused.map((sha256) =>
      note(`The photo ${short(sha256)} is attached to nothing.`, 'It was sent and then not used.', NOTHING),
    ),
  ]
}

async function damagedReports(
  { dataDir }: ReadDatabase,
  { reports }: FileRecords,
): Promise<readonly CheckFinding[]> {
  if (dataDir === null) return []
  const findings: CheckFinding[] = []
  const folder = reportsFolder(dataDir)
  for (const { id, week, sha256, page } of reports) {
    if (!(await isReportIntact(folder, 'pdf', sha256)))
      findings.push(lostReport(`The report ${id} of ${week}`, { kind: 'report', sha256 }))
    if (page !== null && !(await isReportIntact(folder, 'html', page)))
      findings.push(
        lostReport(`The page of the report ${id} of ${week}`, { kind: 'report page', sha256: page }),
      )
  }
  return findings
}

const lostReport = (what: string, file: KeptFile): CheckFinding =>
  fault(
    `${what} is missing or is not what was issued.`,
    'The owner holds the issued one; this folder does not.',
    TAKE_FROM_COPY,
    fromCopy(file),
  )

const fromCopy = (file: KeptFile): Mend => ({ by: 'taking from a copy', file })

const EVIDENCE = 'Evidence of the work is lost.'
const NOTHING = 'Nothing needs to be done.'

function short(sha256: string): string {
  return sha256.slice(0, 12)
}

function usedBy(carsByPhoto: FileRecords['carsByPhoto'], sha256: string): string {
  const cars = carsByPhoto.get(sha256)
  return cars ? ` (on ${[...cars].join(', ')})` : ''
}
