import { isThere } from '../is-there.ts'
import { sizePath } from './photo-files.ts'
import { PHOTO_SIZE_NAMES } from './photo-size.ts'
import { sharp } from './sharp.ts'

/** 'broken' comes before 'missing': a size that is not there is made when somebody looks at it, a broken one never is. */
export type SizesState = 'whole' | 'missing' | 'broken'

/**
 * Reads every size of a photo to its end. Bits that have changed within the picture are not seen: nothing but the original
 * has a digest.
 */
export async function inspectSizes(folder: string, sha256: string): Promise<SizesState> {
  let state: SizesState = 'whole'
  for (const size of PHOTO_SIZE_NAMES) {
    const path = sizePath(folder, sha256, size)
    if (!(await isThere(path))) state = 'missing'
    else if (!(await canBeRead(path))) return 'broken'
  }
  return state
}

/** Scaled down while it is decoded, which costs a fraction and still reads the whole file. */
async function canBeRead(path: string): Promise<boolean> {
  try {
    await sharp(path, { failOn: 'error' }).resize(16, 16, { fit: 'inside' }).raw().toBuffer()
    return true
  } catch {
    // Whatever keeps it from being read: it can be made anew.
    return false
  }
}
