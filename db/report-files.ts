import { createHash, randomUUID } from 'node:crypto'
import { mkdir, open, readFile, rm, type FileHandle } from 'node:fs/promises'
import { join } from 'node:path'
import { moveForGood } from './move-for-good.ts'
import { isMissing } from './system-error.ts'

/** A report is kept twice: as it is printed, and as one page for a phone. */
export type ReportFileKind = 'pdf' | 'html'

export interface StoreReportOptions {
  /** Makes the file that is written into. Tests put a full disk here. */
  readonly createFile?: (path: string) => Promise<FileHandle>
}

/**
 * Keeps a file of a report that is being issued, under the SHA-256 of its bytes. Once this has answered, the file
 * survives a kill and a power cut; the command that issues the report names the digest. What fails leaves nothing behind.
 *
 * @throws the operating system's error when the disk is full or cannot be written
 */
export async function storeReport(
  folder: string,
  kind: ReportFileKind,
  bytes: Uint8Array,
  { createFile = createNewFile }: StoreReportOptions = {},
): Promise<string> {
  const sha256 = createHash('sha256').update(bytes).digest('hex')
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
    await moveForGood(temporary, reportPath(folder, kind, sha256), folder)
  } finally {
    await rm(temporary, { force: true })
  }
  return sha256
}

const createNewFile = (path: string): Promise<FileHandle> => open(path, 'wx')

export function reportPath(folder: string, kind: ReportFileKind, sha256: string): string {
  return join(folder, `${sha256}.${kind}`)
}

/** An issued report's bytes; null when the file is gone or is no longer what was issued. @throws other errors of the disk */
export async function readReport(
  folder: string,
  kind: ReportFileKind,
  sha256: string,
): Promise<Uint8Array<ArrayBuffer> | null> {
  try {
    const bytes = new Uint8Array(await readFile(reportPath(folder, kind, sha256)))
    return createHash('sha256').update(bytes).digest('hex') === sha256 ? bytes : null
  } catch (error) {
    if (isMissing(error)) return null
    throw error
  }
}

/** True when the file is there and still what was issued. @throws other errors of the disk than a missing file */
export async function isReportIntact(folder: string, kind: ReportFileKind, sha256: string): Promise<boolean> {
  return (await readReport(folder, kind, sha256)) !== null
}
