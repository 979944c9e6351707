import { mkdir, open, rename } from 'node:fs/promises'
import { dirname, join, relative, sep } from 'node:path'
import process from 'node:process'
import { isSystemError } from './system-error.ts'

/**
 * Makes a folder below one that must be there. Where the disk of that is away, nothing is begun anew in its place: it would hide
 * what the disk holds when it comes back.
 */
export async function makeBelow(top: string, deepest: string): Promise<void> {
  let path = top
  for (const name of relative(top, deepest).split(sep).filter(Boolean)) {
    path = join(path, name)
    await mkdir(path).catch((error: unknown) => {
      if (!isSystemError(error) || error.code !== 'EEXIST') throw error
    })
  }
}

/**
 * Moves a finished file, already synced, to its place for good: after this it survives a kill and a power cut.
 *
 * @param top must be there; folders between it and the file are made
 */
export async function moveForGood(from: string, to: string, top: string): Promise<void> {
  await makeBelow(top, dirname(to))
  await rename(from, to)
  await syncFolders(dirname(to), top)
}

/** Syncs a folder and every one above it up to `top`, as any of them may be new. */
export async function syncFolders(deepest: string, top: string): Promise<void> {
  for (let folder = deepest; folder.length >= top.length; folder = dirname(folder)) await syncFolder(folder)
}

/** Windows has no way to sync a folder: its file system journals the change of names itself. */
export async function syncFolder(path: string): Promise<void> {
  if (process.platform === 'win32') return
  const folder = await open(path, 'r')
  try {
    await folder.sync()
  } finally {
    await folder.close()
  }
}
