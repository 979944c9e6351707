import { stat } from 'node:fs/promises'
import { isMissing } from './system-error.ts'

/** Whether there is such a file or folder. @throws other errors of the disk */
export async function isThere(path: string): Promise<boolean> {
  try {
    await stat(path)
    return true
  } catch (error) {
    if (isMissing(error)) return false
    throw error
  }
}
