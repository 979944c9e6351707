import { createHash, randomUUID } from 'node:crypto'
import { mkdir, open, readFile, rm, type FileHandle } from 'node:fs/promises'
import { join } from 'node:path'
import { moveForGood } from './move-for-good.ts'
import { isMissing } from './system-error.ts'

export interface KeepByDigestOptions {
  /** Makes the file that is written into. Tests put a full disk here. */
  readonly createFile?: (path: string) => Promise<FileHandle>
}

/**
 * Keeps bytes under their own SHA-256. Once this has answered, the file survives a kill and a power cut; what fails leaves nothing
 * behind.
 *
 * @param folder made where it is not there
 * @param pathOf where the file of a digest lies in it
 * @returns the digest, lower-case hexadecimal
 * @throws the operating system's error when the disk is full or cannot be written
 */
export async function keepByDigest(
  folder: string,
  bytes: Uint8Array,
  pathOf: (sha256: string) => string,
  { createFile = createNewFile }: KeepByDigestOptions = {},
): Promise<string> {
  const sha256 = digestOf(bytes)
  const temporary = join(folder, `${randomUUID()}.part`)
  await mkdir(folder, { recursive: true })
  try {
    const file = await createFile(temporary)
    try {
      await file.writeFile(bytes)
      await file.sync()
    } finally {
      await file.close()
    }
    await moveForGood(temporary, pathOf(sha256), folder)
  } finally {
    await rm(temporary, { force: true })
  }
  return sha256
}

/** The bytes of a kept file; null when it is gone or is no longer what was kept. @throws other errors of the disk */
export async function readByDigest(path: string, sha256: string): Promise<Buffer | null> {
  try {
    const bytes = await readFile(path)
    return digestOf(bytes) === sha256 ? bytes : null
  } catch (error) {
    if (isMissing(error)) return null
    throw error
  }
}

const createNewFile = (path: string): Promise<FileHandle> => open(path, 'wx')

const digestOf = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex')
