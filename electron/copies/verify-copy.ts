import { checkJournal } from '../../db/check-journal.ts'
import { requireSound } from '../../db/copy-database.ts'
import { openWriter } from '../../db/handle.ts'
import { migrate } from '../../db/migrate.ts'
import { isMissing } from '../../db/system-error.ts'
import { ok, type Result } from '../../domain/refusal.ts'
import { wholeFiles } from '../whole/whole-files.ts'
import { filePath, type CopyStore } from './copy-paths.ts'
import { copyRefusal } from './copy-problem.ts'
import { hashWrapped } from './wrapped-file.ts'
import type { CopyOptions } from './make-copy.ts'
import { type CopySecrets, damaged, openCopy, takeDatabase } from './open-copy.ts'
import { withWorkingFolder } from './working-database.ts'

export interface VerifyJob {
  /** Of the workshop that asks; for room to work in. */
  readonly dataDir: string
  readonly store: CopyStore
  readonly stamp: string
  readonly secrets: CopySecrets
}

export interface VerifiedCopy {
  readonly stamp: string
  readonly files: number
  /** What it says itself that it does not have. */
  readonly lost: readonly string[]
}

/**
 * Reads all of a copy: its database and every line of its journal, and every file that it names against its digest.
 *
 * @returns a refusal that says what is damaged
 */
export async function verifyCopy(job: VerifyJob, options: CopyOptions = {}): Promise<Result<VerifiedCopy>> {
  try {
    return ok(await withWorkingFolder(job.dataDir, (work) => verifyIn(work, job, options)))
  } catch (error) {
    return { ok: false, refusal: copyRefusal(error, job.store.folder) }
  }
}

async function verifyIn(
  work: string,
  { store, stamp, secrets }: VerifyJob,
  options: CopyOptions,
): Promise<VerifiedCopy> {
  const { onProgress = () => {}, signal = new AbortController().signal } = options
  const copy = await openCopy(store, stamp, secrets)
  const path = `${work}/workshop.db`
  onProgress({ words: 'Reading the records.', done: 0, of: 0 })
  await takeDatabase(copy, path, signal)
  requireSound(path, { number: copy.head.number, heads: copy.content.heads })
  const files = readFiles(path)
  const missing: string[] = []
  for (const [done, { sha256, what }] of files.entries()) {
    onProgress({ words: 'Reading photos and reports.', done, of: files.length })
    const name = copy.wrapping.nameOf(sha256)
    if (!copy.names.has(name)) {
      missing.push(what)
      continue
    }
    const read = await hashWrapped(filePath(store, name), name, copy.wrapping, signal).catch(
      (error: unknown) => {
        throw isMissing(error) ? damaged(`${what} is missing.`) : error
      },
    )
    if (read.sha256 !== sha256) throw damaged(`${what} is not what was copied.`)
  }
  if (missing.length > copy.content.lost.length) throw damaged(`${missing[0]} is not in it.`)
  return { stamp, files: files.length - missing.length, lost: copy.content.lost }
}

/** A copy of an older program is read as this one would go on with it. */
function readFiles(path: string) {
  const reader = openWriter(path)
  try {
    migrate(reader)
    const fault = checkJournal(reader).find(({ severity }) => severity === 'fault')
    if (fault !== undefined) throw damaged(fault.what)
    return wholeFiles(reader, '')
  } finally {
    reader.sqlite.close()
  }
}
