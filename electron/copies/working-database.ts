import { mkdir, rm } from 'node:fs/promises'
import { join } from 'node:path'
import { copyDatabase, type CopiedDatabase } from '../../db/copy-database.ts'
import { copyingFolder, copyLockPath } from '../../db/data-paths.ts'
import { readingOn } from '../../db/database.ts'
import { type Erasure, readErasures } from '../../db/erasures.ts'
import { openReader, type Handle } from '../../db/handle.ts'
import { claimFolder } from '../../db/host-lock.ts'
import { firstHash } from '../../db/journal.ts'
import { readWorkshop } from '../../db/reads.ts'
import type { CopyContent } from '../../domain/copies/copy-shapes.ts'
import { versionWords } from '../../domain/program-version.ts'
import { readBuiltFrom } from '../built-from.ts'
import { wholeFiles, type WholeFile } from '../whole/whole-files.ts'

/** What a database that is being copied says of itself. */
export interface WorkingDatabase extends CopiedDatabase {
  readonly path: string
  readonly firstHash: string
  /** IANA zone that copies are thinned out by. */
  readonly zone: string
  readonly files: readonly WholeFile[]
  readonly erasures: readonly Erasure[]
  readonly told: Pick<CopyContent, 'program' | 'schema' | 'workshop' | 'cars' | 'photos' | 'otherFiles'>
}

/**
 * Gives a folder for what is being copied or verified, to one at a time, and clears it afterwards.
 *
 * @throws DatabaseProblem when another copy of this workshop is being made
 */
export async function withWorkingFolder<T>(
  dataDir: string,
  work: (folder: string) => Promise<T>,
): Promise<T> {
  const giveFree = claimFolder(copyLockPath(dataDir), BUSY)
  const folder = copyingFolder(dataDir)
  try {
    await rm(folder, { recursive: true, force: true })
    await mkdir(folder, { recursive: true, mode: 0o700 })
    return await work(folder)
  } finally {
    await rm(folder, { recursive: true, force: true }).catch(() => undefined)
    giveFree()
  }
}

export const BUSY = 'A copy of this workshop is being made or verified already. Wait until that is done.'

/** Copies the database of a workshop into the working folder and reads what belongs to it. */
export async function copyToWork(
  dataDir: string,
  folder: string,
  signal: AbortSignal,
): Promise<WorkingDatabase> {
  const path = join(folder, 'workshop.db')
  const copied = await copyDatabase(dataDir, path, signal)
  const reader = openReader(path)
  try {
    const files = wholeFiles(reader, dataDir)
    const first = firstHash({ reader }) ?? ''
    const db = readingOn(reader)
    const { name, zone } = readWorkshop(db)
    const told = tell(reader, name, files.length)
    return { ...copied, path, firstHash: first, zone, files, erasures: readErasures(db), told }
  } finally {
    reader.sqlite.close()
  }
}

function tell(reader: Handle, workshop: string, files: number): WorkingDatabase['told'] {
  const number = (sql: string) => reader.sqlite.prepare(sql).pluck().get() as number
  const photos = number('SELECT count(*) FROM photo')
  return {
    program: versionWords(readBuiltFrom()),
    schema: number('PRAGMA user_version'),
    workshop,
    cars: number('SELECT count(*) FROM car'),
    photos,
    otherFiles: files - photos,
  }
}
