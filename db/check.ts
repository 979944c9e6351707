import { checkCameJournals, readCameRecords } from './check-brought-in.ts'
import { checkDerived } from './check-derived.ts'
import { checkFiles, readFileRecords } from './check-files.ts'
import { fault, RESTORE, type CheckFinding } from './check-finding.ts'
import { checkJournal } from './check-journal.ts'
import { checkPlans } from './check-plans.ts'
import { journalEndPath } from './data-paths.ts'
import { isSqliteError } from './database-problem.ts'
import type { ReadDatabase } from './database.ts'
import { damagesIn, type Handle } from './handle.ts'
import { missingEnd, readJournalEnd, type JournalEnd } from './journal-end.ts'
import type { PhotoReader } from './photos/photo-store.ts'

/**
 * Verifies everything that can be verified: the database's own structure, every line of every chain and its payload, the
 * derived tables against the journal, every kept plan, photo, issued report and journal that came with a car against its digest. Reads only, and may run beside
 * a working host: the database is read as of one moment. The time it takes goes with the bytes of all photos.
 *
 * Not checked: contacts, codes and devices, which no digest covers, and the sizes of photos, which can be made again.
 * Lines cut from the very end of the journal are seen where a later link, report or copy names them.
 *
 * @returns nothing when all is well; see `isClean`
 */
export async function checkDatabase(
  db: ReadDatabase,
  photos: Pick<PhotoReader, 'verify' | 'list'>,
  onProgress: (progress: CheckProgress) => void = () => {},
): Promise<readonly CheckFinding[]> {
  // Read first, so that a host at work beside this cannot have come further meanwhile.
  const end = db.dataDir === null ? null : readJournalEnd(journalEndPath(db.dataDir))
  const findings: CheckFinding[] = []
  const records = readable(findings, () =>
    db.reader.sqlite.transaction(() => {
      onProgress({ of: 'the database file' })
      findings.push(...checkStructure(db.reader))
      onProgress({ of: 'the journal' })
      const ofJournal = [...checkJournal(db.reader), ...checkRemembered(db.reader, end)]
      onProgress({ of: 'the tables' })
      findings.push(...ofJournal, ...mendable(checkDerived(db.reader), ofJournal), ...checkPlans(db.reader))
      return { files: readFileRecords(db.reader), came: readCameRecords(db.reader) }
    })(),
  )
  if (records === null) return findings
  const photoCount = records.files.photos.length
  const ofFiles = await checkFiles(db, photos, records.files, (done) =>
    onProgress({ of: 'the photos', done, count: photoCount }),
  )
  const ofCame = await checkCameJournals(db.dataDir, records.came)
  return [...findings, ...ofFiles, ...ofCame]
}

/** How far a check is. The parts before the photos are gone through at one go each. */
export type CheckProgress =
  | { readonly of: 'the database file' | 'the journal' | 'the tables' }
  | { readonly of: 'the photos' | 'the sizes of photos'; readonly done: number; readonly count: number }

/** Lines that were cut off together with what SQLite remembers of them, as when the write-ahead log is deleted. */
function checkRemembered(reader: Handle, end: JournalEnd | null): readonly CheckFinding[] {
  const problem = end === null ? null : missingEnd(reader, end)
  return problem === null ? [] : [fault(problem, LOST_END, RESTORE)]
}

/** Tables that were made anew from a damaged journal would pass the damage on. */
function mendable(
  ofTables: readonly CheckFinding[],
  ofJournal: readonly CheckFinding[],
): readonly CheckFinding[] {
  if (ofJournal.length === 0) return ofTables
  return ofTables.map((finding) => ({ ...finding, todo: RESTORE, mend: null }))
}

function checkStructure(reader: Handle): readonly CheckFinding[] {
  const strays = reader.sqlite.pragma('foreign_key_check') as readonly { readonly table: string }[]
  return [
    ...damagesIn(reader).map((text) => fault(`The database file is damaged: ${text}.`, DAMAGED, RESTORE)),
    ...strays.map(({ table }) =>
      fault(`A row of the table ${table} belongs to nothing.`, 'Something was deleted by hand.', RESTORE),
    ),
  ]
}

/** A file that is damaged enough cannot even be read to its end; that is a finding of its own and answers null. */
function readable<T>(findings: CheckFinding[], step: () => T): T | null {
  try {
    return step()
  } catch (error) {
    if (!isSqliteError(error)) throw error
    findings.push(fault(`The database cannot be read: ${error.message}.`, DAMAGED, RESTORE))
    return null
  }
}

const LOST_END =
  'What was recorded last is gone: the file workshop.db-wal was deleted, or an older workshop.db was put in its place.'
const DAMAGED = 'The disk has failed, or another program has written into the file.'
