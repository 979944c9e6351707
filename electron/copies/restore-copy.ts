import { mkdir, rm } from 'node:fs/promises'
import { dirname } from 'node:path'
import type { CheckFinding } from '../../db/check-finding.ts'
import { checkDatabase } from '../../db/check.ts'
import { rememberRestore } from '../../db/copy-records.ts'
import { requireSound } from '../../db/copy-database.ts'
import { beforeMigrationFolder, databasePath, photosFolder } from '../../db/data-paths.ts'
import type { Database } from '../../db/database.ts'
import { startEpoch } from '../../db/epoch.ts'
import { syncFolders } from '../../db/move-for-good.ts'
import { openDatabase } from '../../db/open-database.ts'
import { originalsFolder } from '../../db/photos/photo-files.ts'
import { openPhotoReader } from '../../db/photos/photo-store.ts'
import { readWorkshop } from '../../db/reads.ts'
import { ok, type Result } from '../../domain/refusal.ts'
import { besideFolder, putInPlace, requireEmpty } from '../whole/new-folder.ts'
import { wholeFiles } from '../whole/whole-files.ts'
import type { CopyStore } from './copy-paths.ts'
import { eraseLater } from './erase-later.ts'
import { takeLaterContacts } from './later-contacts.ts'
import { copyRefusal } from './copy-problem.ts'
import { type CopySecrets, damaged, openCopy, type OpenCopy, takeDatabase, takeFile } from './open-copy.ts'
import { requireRoom } from './target.ts'

export interface RestoreJob {
  readonly store: CopyStore
  readonly stamp: string
  readonly secrets: CopySecrets
}

export interface RestoreOptions {
  /** Told in words what is done now. */
  readonly onStep?: (words: string) => void
  /** When aborted, the restore ends and nothing of it is left. */
  readonly signal?: AbortSignal
}

export interface Restored {
  readonly name: string
  /** Number of the last journal line. */
  readonly number: number
  readonly files: number
  /** When the copy was made, epoch milliseconds: what was recorded later is not in it. */
  readonly made: number
  /** What the copy did not have, in words; nothing for a whole one. */
  readonly lost: readonly string[]
  /** What else people should know, in words. */
  readonly notes: readonly string[]
}

/**
 * Makes a data folder from a copy. Everything is verified before the folder gets its name: it is as it was copied, or it is not
 * there. It goes on with an epoch of its own, so that screens and devices know that what they have read may not be in it.
 *
 * @param dataDir a folder that is empty or not there yet
 */
export async function restoreCopy(
  job: RestoreJob,
  dataDir: string,
  { onStep = () => {}, signal = never }: RestoreOptions = {},
): Promise<Result<Restored>> {
  const temporary = besideFolder(dataDir)
  try {
    await requireEmpty(dataDir)
    onStep('Opening the copy.')
    const copy = await openCopy(job.store, job.stamp, job.secrets)
    await mkdir(temporary, { recursive: true })
    await requireRoom(temporary, copy.head.bytes)
    const restored = await fill(copy, temporary, { secrets: job.secrets, onStep, signal })
    await putInPlace(temporary, dataDir)
    return ok(restored)
  } catch (error) {
    // What cannot be cleared away, on a disk that has just gone, must not hide why.
    await rm(temporary, { recursive: true, force: true }).catch(() => undefined)
    return { ok: false, refusal: copyRefusal(error, dataDir) }
  }
}

const never = new AbortController().signal

async function fill(
  copy: OpenCopy,
  folder: string,
  { secrets, onStep, signal }: Required<RestoreOptions> & Pick<RestoreJob, 'secrets'>,
): Promise<Restored> {
  const { head, content } = copy
  onStep('Restoring the records.')
  await takeDatabase(copy, databasePath(folder), signal)
  requireSound(databasePath(folder), { number: head.number, heads: content.heads })
  const db = openDatabase(folder)
  try {
    startEpoch(db)
    const files = await restoreFiles(copy, db, folder, onStep, signal)
    const later = await takeLaterContacts(copy, db, { secrets, folder, signal })
    const notes = [...later.notes, ...(await eraseLater(copy, db, later.erasures))]
    onStep('Checking the workshop.')
    const findings = await checkDatabase(db, openPhotoReader(photosFolder(folder)))
    requireExpected(findings, content.lost.length)
    signal.throwIfAborted()
    rememberRestore(db, { made: Date.parse(head.made), notes: [...content.lost.map(lostWords), ...notes] })
    // It held what the copy holds.
    await rm(beforeMigrationFolder(folder), { recursive: true, force: true })
    const { name } = readWorkshop(db)
    return { name, number: head.number, files, made: Date.parse(head.made), lost: content.lost, notes }
  } finally {
    db.close()
  }
}

const lostWords = (words: string): string => `The copy did not have this: ${words}`

/** What the copy itself says that it has not is missed by the check; nothing else may be. */
function requireExpected(findings: readonly CheckFinding[], lost: number): void {
  const faults = findings.filter(({ severity }) => severity === 'fault')
  if (faults.length <= lost) return
  throw damaged(`${faults[0]?.what ?? ''} Nothing was restored.`)
}

async function restoreFiles(
  copy: OpenCopy,
  { reader }: Database,
  folder: string,
  onStep: (words: string) => void,
  signal: AbortSignal,
): Promise<number> {
  const named = wholeFiles(reader, folder)
  const files = named.filter(({ sha256 }) => copy.names.has(copy.wrapping.nameOf(sha256)))
  if (named.length - files.length > copy.content.lost.length)
    throw damaged('Files that its records name are not in it.')
  const folders = new Set<string>()
  await mkdir(originalsFolder(photosFolder(folder)), { recursive: true })
  for (const [done, file] of files.entries()) {
    if (done % 100 === 0) onStep(`Restoring photos and reports: ${done} of ${files.length}.`)
    await mkdir(dirname(file.place), { recursive: true })
    folders.add(dirname(file.place))
    await takeFile(copy, file, file.place, signal)
  }
  for (const each of folders) await syncFolders(each, folder)
  return files.length
}
