import { createHash, randomUUID } from 'node:crypto'
import { mkdir, open, readFile, rm } from 'node:fs/promises'
import { join } from 'node:path'
import { moveForGood } from './photos/photo-files.ts'

/**
 * Keeps the file of a report that is being issued, under the SHA-256 of its bytes. Once this has answered, the file
 * survives a kill and a power cut; the command that issues the report names the digest.
 *
 * @throws the operating system's error when the disk is full or cannot be written
 */
export async function storeReport(folder: string, bytes: Uint8Array): Promise<string> {
  const sha256 = createHash('sha256').update(bytes).digest('hex')
  const temporary = join(folder, `${randomUUID()}.part`)
  await mkdir(folder, { recursive: true })
  try {
    const file = await open(temporary, 'wx')
    try {
      await file.writeFile(bytes)
      await file.sync()
    } finally {
      await file.close()
    }
    await moveForGood(temporary, reportPath(folder, sha256), folder)
  } finally {
    await rm(temporary, { force: true })
  }
  return sha256
}

export function reportPath(folder: string, sha256: string): string {
  return join(folder, `${sha256}.pdf`)
}

/** An issued report's bytes; null when the file is gone or is no longer what was issued. @throws other errors of the disk */
export async function readReport(folder: string, sha256: string): Promise<Uint8Array<ArrayBuffer> | null> {
  try {
    const bytes = new Uint8Array(await readFile(reportPath(folder, sha256)))
    return createHash('sha256').update(bytes).digest('hex') === sha256 ? bytes : null
  } catch (error) {
    if (error instanceof Error && 'code' in error && error.code === 'ENOENT') return null
    throw error
  }
}

/** True when the file is there and still what was issued. @throws other errors of the disk than a missing file */
export async function isReportIntact(folder: string, sha256: string): Promise<boolean> {
  return (await readReport(folder, sha256)) !== null
}
