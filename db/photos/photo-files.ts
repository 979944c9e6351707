import { mkdir, open, rename } from 'node:fs/promises'
import { dirname, join, relative, sep } from 'node:path'
import process from 'node:process'
import { isSystemError } from './photo-problem.ts'
import type { PhotoSize } from './photo-size.ts'
import { PHOTO_SIZES } from './photo-size.ts'

/** Where everything lies in a photo folder; all three are in one file system, so that a rename is one step. */
export function incomingFolder(folder: string): string {
  return join(folder, 'incoming')
}

export function originalsFolder(folder: string): string {
  return join(folder, 'originals')
}

export function originalPath(folder: string, sha256: string): string {
  return join(originalsFolder(folder), sha256.slice(0, 2), sha256.slice(2, 4), sha256)
}

export function derivedFolder(folder: string): string {
  return join(folder, 'derived')
}

/** Derived sizes can be made again from the original at any time and need no copy. */
export function sizePath(folder: string, sha256: string, size: PhotoSize): string {
  return join(derivedFolder(folder), `${sha256}-${size}.${PHOTO_SIZES[size].format}`)
}

/** Only digests name files here: nothing that a screen sends can lead out of the folder. */
export function isSha256(text: string): boolean {
  return /^[0-9a-f]{64}$/.test(text)
}

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
