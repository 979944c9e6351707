import { cpSync, existsSync, mkdtempSync, renameSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { photosFolder } from '../../db/data-paths.ts'
import { fillDemo } from '../../db/demo/fill-demo.ts'
import { openDatabase } from '../../db/open-database.ts'
import { inspectPhoto } from '../../db/photos/inspect-photo.ts'
import { openPhotoStore } from '../../db/photos/photo-store.ts'
import { filledDemoFolder } from './filled-demo-folder.ts'

/** A Wednesday, and the seed that the demo of the tests is filled by up to 10:40 of it. */
export const filledDemo = { today: '2026-11-25', seed: 'demo-test' } as const

/**
 * A data folder with the demo workshop, with a patch of colour for each photo; the caller takes it away. Filling takes
 * a quarter of a minute: it is done once in a run, by whichever test comes first.
 */
export async function copyFilledDemo(): Promise<string> {
  const filled = filledDemoFolder(process.ppid)
  if (!existsSync(filled)) await fillInto(filled)
  const dataDir = mkdtempSync(join(tmpdir(), 'panelwright-demo-'))
  cpSync(filled, dataDir, { recursive: true })
  return dataDir
}

/** Fills an empty data folder with the demo of the tests. */
export async function fillDemoInto(dataDir: string, photos: 'tiny' | 'drawn'): Promise<void> {
  const db = openDatabase(dataDir)
  const photoStore = await openPhotoStore(photosFolder(dataDir), { inspect: inspectPhoto })
  if (!photoStore.ok) throw new Error(photoStore.problem.message)
  await fillDemo({ db, photoStore: photoStore.value, ...filledDemo, photos })
  db.close()
}

/** Under another name until it is whole; where another test was quicker, theirs stays. */
async function fillInto(filled: string): Promise<void> {
  const dataDir = mkdtempSync(`${filled}-`)
  await fillDemoInto(dataDir, 'tiny')
  try {
    renameSync(dataDir, filled)
  } catch (error) {
    if (!existsSync(filled)) throw error
    rmSync(dataDir, { recursive: true })
  }
}
