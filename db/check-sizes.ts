import { plural } from '../domain/text/words.ts'
import type { CheckProgress } from './check.ts'
import { fault, note, type CheckFinding } from './check-finding.ts'
import { isSystemError } from './system-error.ts'
import { inspectSizes, type SizesState } from './photos/inspect-sizes.ts'

/**
 * The small and middle sizes of photos, which are made again from the originals.
 *
 * @param photos digests of the photos whose originals are whole
 */
export async function checkSizes(
  folder: string,
  photos: readonly string[],
  onProgress: (progress: CheckProgress) => void,
): Promise<readonly CheckFinding[]> {
  const found: Record<SizesState, string[]> = { whole: [], missing: [], broken: [] }
  try {
    for (const [done, sha256] of photos.entries()) {
      onProgress({ of: 'the sizes of photos', done, count: photos.length })
      found[await inspectSizes(folder, sha256)].push(sha256)
    }
  } catch (error) {
    if (!isSystemError(error)) throw error
    return [fault(`The sizes of photos cannot be read (${error.code}).`, SCREENS, 'Have the disk checked.')]
  }
  return [...broken(found.broken), ...missing(found.missing)]
}

const broken = (photos: readonly string[]): readonly CheckFinding[] =>
  photos.map((sha256) =>
    fault(
      `A size for screens of the photo ${sha256.slice(0, 12)} cannot be read.`,
      SCREENS,
      'Let it be mended: its sizes are made anew from the original.',
      { by: 'making sizes', photos: [sha256] },
    ),
  )

const missing = (photos: readonly string[]): readonly CheckFinding[] =>
  photos.length === 0
    ? []
    : [
        note(
          `${plural('photo', photos.length)} ${photos.length === 1 ? 'has' : 'have'} not all sizes for screens.`,
          'They are made when somebody looks at the photo, which takes a moment then.',
          'Nothing needs to be done; mending makes them now.',
          { by: 'making sizes', photos },
        ),
      ]

const SCREENS = 'Screens and reports do not show the photo. The original is whole.'
