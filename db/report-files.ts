import { join } from 'node:path'
import { keepByDigest, type KeepByDigestOptions, readByDigest } from './files-by-digest.ts'

/** A report is kept twice: as it is printed, and as one page for a phone. */
export type ReportFileKind = 'pdf' | 'html'

/** Keeps a file of a report that is being issued, as {@link keepByDigest} does; the command that issues the report names the digest. */
export function storeReport(
  folder: string,
  kind: ReportFileKind,
  bytes: Uint8Array,
  options?: KeepByDigestOptions,
): Promise<string> {
  return keepByDigest(folder, bytes, (sha256) => reportPath(folder, kind, sha256), options)
}

/** Where the file of an issued report lies. */
export function reportPath(folder: string, kind: ReportFileKind, sha256: string): string {
  return join(folder, `${sha256}.${kind}`)
}

/** An issued report's bytes; null when the file is gone or is no longer what was issued. @throws other errors of the disk */
export async function readReport(
  folder: string,
  kind: ReportFileKind,
  sha256: string,
): Promise<Uint8Array<ArrayBuffer> | null> {
  const bytes = await readByDigest(reportPath(folder, kind, sha256), sha256)
  return bytes && new Uint8Array(bytes)
}

/** True when the file is there and still what was issued. @throws other errors of the disk than a missing file */
export async function isReportIntact(folder: string, kind: ReportFileKind, sha256: string): Promise<boolean> {
  return (await readByDigest(reportPath(folder, kind, sha256), sha256)) !== null
}
