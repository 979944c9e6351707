import type { Moment } from '../domain/car.ts'
import { checkDatabase, type CheckProgress } from './check.ts'
import type { CheckFinding } from './check-finding.ts'
import { readFileRecords, type FileRecords } from './check-files.ts'
import { checkLeftovers } from './check-leftovers.ts'
import { checkSizes } from './check-sizes.ts'
import { photosFolder } from './data-paths.ts'
import { isSqliteError } from './database-problem.ts'
import type { ReadDatabase } from './database.ts'
import { openPhotoReader } from './photos/photo-store.ts'

export interface CheckFolderOptions {
  /** Half-written files of before this, epoch milliseconds, are leftovers; see `checkLeftovers`. */
  readonly leftBefore: Moment
  readonly onProgress?: (progress: CheckProgress) => void
}

/** No upload, book or bringing in takes so long. */
export const LEFT_AFTER_MS = 86_400_000

/** All of `checkDatabase`, and what can be made again or is of no use: sizes of photos, and leftovers. Reads only. */
export async function checkFolder(
  db: ReadDatabase,
  dataDir: string,
  { leftBefore, onProgress = () => {} }: CheckFolderOptions,
): Promise<readonly CheckFinding[]> {
  const folder = photosFolder(dataDir)
  const findings = await checkDatabase(db, openPhotoReader(folder), onProgress)
  const records = recordsOf(db)
  if (records === null) return findings
  const photos = records.photos.map(({ sha256 }) => sha256)
  const damaged = new Set(findings.flatMap(({ mend }) => damagedPhoto(mend)))
  const ofSizes = await checkSizes(
    folder,
    photos.filter((sha256) => !damaged.has(sha256)),
    onProgress,
  )
  const named = { photos: new Set(photos), reports: new Set(records.reports.flatMap(reportFiles)) }
  return [...findings, ...ofSizes, ...(await checkLeftovers(dataDir, named, leftBefore))]
}

function damagedPhoto(mend: CheckFinding['mend']): readonly string[] {
  return mend?.by === 'taking from a copy' && mend.file.kind === 'photo' ? [mend.file.sha256] : []
}

function reportFiles({ sha256, page }: FileRecords['reports'][number]): readonly string[] {
  return [`${sha256}.pdf`, ...(page === null ? [] : [`${page}.html`])]
}

/** Null where the database cannot be read, which is among the findings by then. */
function recordsOf({ reader }: ReadDatabase): FileRecords | null {
  try {
    return readFileRecords(reader)
  } catch (error) {
    if (!isSqliteError(error)) throw error
    return null
  }
}
