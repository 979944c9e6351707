import { createWriteStream } from 'node:fs'
import { mkdir, rm } from 'node:fs/promises'
import { join } from 'node:path'
import { Readable } from 'node:stream'
import { pipeline } from 'node:stream/promises'
import { adoptWorkshop } from '../../db/adopt-workshop.ts'
import { takingInFolder } from '../../db/data-paths.ts'
import type { Database } from '../../db/database.ts'
import { moveForGood } from '../../db/move-for-good.ts'
import { openDatabase } from '../../db/open-database.ts'
import { refuse, type Result } from '../../domain/refusal.ts'
import { refusalOf } from '../bag/bag-problem.ts'
import { takeIn, type TakeInOptions, type TakenIn } from './take-in.ts'
import { wholeFiles } from './whole-files.ts'

/**
 * Takes a workshop in to the folder of a host at work, in which there is none yet: made and checked beside it first, then taken
 * over in one step. What ends before that leaves the folder without a workshop.
 *
 * @param archive the `.zip` as it comes
 */
export async function takeInHere(
  db: Database,
  dataDir: string,
  archive: AsyncIterable<Uint8Array>,
  options: TakeInOptions,
): Promise<Result<TakenIn>> {
  const folder = takingInFolder(dataDir)
  const path = join(folder, 'workshop.zip')
  const made = join(folder, 'data')
  try {
    await rm(folder, { recursive: true, force: true })
    await mkdir(folder, { recursive: true })
    await pipeline(Readable.from(archive), createWriteStream(path, { flags: 'wx' }))
    const taken = await takeIn(path, made, options)
    if (!taken.ok) return taken
    return (await takeOver(db, made, dataDir)) ? taken : notEmpty
  } catch (error) {
    return { ok: false, refusal: refusalOf(error) }
  } finally {
    // What cannot be cleared away now is, before the next one.
    await rm(folder, { recursive: true, force: true }).catch(() => undefined)
  }
}

/**
 * Takes a workshop that was made in another folder over into the host's own. Files without a record are harmless, so that
 * they go first.
 *
 * @returns false when there is a workshop here already
 */
export async function takeOver(db: Database, made: string, dataDir: string): Promise<boolean> {
  await moveFiles(made, dataDir)
  const isAdopted = adoptWorkshop(db, made)
  db.noteEnd()
  return isAdopted
}

async function moveFiles(from: string, to: string): Promise<void> {
  const { reader, close } = openDatabase(from, { readonly: true })
  try {
    const places = wholeFiles(reader, to).map(({ place }) => place)
    for (const [index, { place }] of wholeFiles(reader, from).entries())
      await moveForGood(place, places[index] ?? place, to)
  } finally {
    close()
  }
}

export const notEmpty = refuse(
  'already',
  'There is a workshop in this data folder by now.',
  'Start Panelwright with an empty --data folder and take the workshop in there.',
)
