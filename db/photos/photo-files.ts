import { join } from 'node:path'
import type { PhotoSize } from './photo-size.ts'
import { PHOTO_SIZES } from './photo-size.ts'

/** Where everything lies in a photo folder; all three are in one file system, so that a rename is one step. */
export function incomingFolder(folder: string): string {
  return join(folder, 'incoming')
}

/** Photos as they came, by their digests; never written to again. */
export function originalsFolder(folder: string): string {
  return join(folder, 'originals')
}

/** Two folders deep, so that none holds too many. @param sha256 checked by the caller */
export function originalPath(folder: string, sha256: string): string {
  return join(originalsFolder(folder), sha256.slice(0, 2), sha256.slice(2, 4), sha256)
}

/** Sizes of all photos beside one another. */
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
