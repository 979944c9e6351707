import { isSystemError } from '../../db/system-error.ts'
import { ok, refuse, type Result } from '../../domain/refusal.ts'
import type { OwnerWeek } from '../../domain/report/owner-week-shapes.ts'
import { errorMessage } from '../../domain/text/error-words.ts'
import type { ApiDeps, PrintedAs } from './deps.ts'

/** The digests of an issued report's files. */
export interface KeptReport {
  /** Of the PDF. */
  readonly sha256: string
  readonly page: string
}

/** Prints a report, writes its page, and keeps both before anything is recorded. */
export async function keptReport(
  deps: ApiDeps,
  content: OwnerWeek,
  head: string,
): Promise<Result<KeptReport>> {
  const as = { kind: 'issued', head } as const
  const pdf = await print(deps, content, as)
  if (!pdf.ok) return pdf
  const page = await made(deps, content, () => deps.reportExports.toHtml(content, as))
  if (!page.ok) return page
  try {
    const sha256 = await deps.storeReport('pdf', pdf.value)
    return ok({ sha256, page: await deps.storeReport('html', page.value) })
  } catch (error) {
    return notKept(error)
  }
}

/** A report's PDF; refused, with the reason in the log, when it cannot be laid out. */
export const print = (deps: ApiDeps, content: OwnerWeek, as: PrintedAs): Promise<Result<Uint8Array>> =>
  made(deps, content, () => deps.printReport(content, as))

/** What stops the printing is written to the log; the person can only try again. */
async function made(
  deps: ApiDeps,
  content: OwnerWeek,
  make: () => Promise<Uint8Array>,
): Promise<Result<Uint8Array>> {
  try {
    return ok(await make())
  } catch (error) {
    const words = errorMessage(error)
    deps.log(`${content.title}, ${content.week}: ${words}`)
    return refuse(
      'storage',
      words,
      'If it stays so, report what the window says that Panelwright was started in.',
    )
  }
}

/** @throws what is no error of the disk */
function notKept(error: unknown): Result<never> {
  if (!isSystemError(error)) throw error
  return error.code === 'ENOSPC' || error.code === 'EDQUOT'
    ? refuse(
        'storage',
        'The disk with the data folder is full, so the report was not issued. Nothing of it was kept.',
        'Make room on it and issue the report again.',
      )
    : refuse(
        'storage',
        `The folder of the issued reports cannot be written to (${error.code}), so the report was not issued.`,
        'Check that its disk is attached and that this account may write to it, and issue the report again.',
      )
}
