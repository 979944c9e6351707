import { cpSync, mkdirSync, mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { monitorEventLoopDelay } from 'node:perf_hooks'
import process from 'node:process'
import type { Result } from '../../domain/refusal.ts'
import { startCopyWork } from '../../electron/copies/copy-work.ts'
import { keepKey } from '../../electron/copies/kept-key.ts'
import type { CopyMade } from '../../electron/copies/make-copy.ts'
import { NO_SECRETS } from '../support/copies.ts'
import { restoreCopy } from '../../electron/copies/restore-copy.ts'
import { createCopyKey } from '../../electron/copies/sealing.ts'
import { openDatabase } from '../../db/open-database.ts'

export interface CopyFigures {
  readonly journalLines: number
  readonly files: number
  readonly firstSeconds: number
  /** Processor time of it, which a busy machine hardly stretches. */
  readonly firstProcessorSeconds: number
  readonly firstMb: number
  readonly laterSeconds: number
  readonly laterProcessorSeconds: number
  /** What a later copy of an unchanged workshop writes: the database alone. */
  readonly laterMb: number
  readonly sealedSeconds: number
  readonly restoreSeconds: number
  /** The longest that the thread beside the worker was held up, ms. */
  readonly longestStallMs: number
}

/**
 * Copies a data folder as the host does, in the worker: for the first time, once more, and sealed; then restores it.
 *
 * @param args the data folder, such as one that `npm start -- --demo --data DIR` has filled; it is only read
 */
export async function benchCopies([from]: readonly string[]): Promise<CopyFigures> {
  if (from === undefined) throw new Error('Name a data folder: npm run bench -- copies DIR')
  const top = mkdtempSync(join(tmpdir(), 'panelwright-copies-'))
  const dataDir = join(top, 'data')
  try {
    cpSync(from, dataDir, { recursive: true })
    openDatabase(dataDir).close()
    keepKey(dataDir, await createCopyKey('a passphrase for the bench'))
    const delays = monitorEventLoopDelay({ resolution: 5 })
    delays.enable()
    const first = await timed(() => copy(dataDir, join(top, 'disk'), false))
    const later = await timed(() => copy(dataDir, join(top, 'disk'), false))
    const sealed = await timed(() => copy(dataDir, join(top, 'sealed'), true))
    delays.disable()
    const { store, stamp, head, files } = first.value
    const restored = await timed(async () =>
      valueOf(await restoreCopy({ store, stamp, secrets: NO_SECRETS }, join(top, 'restored'))),
    )
    const databaseBytes = head.content?.database.bytes ?? 0
    return {
      journalLines: head.number,
      files: files.written,
      firstSeconds: first.seconds,
      firstProcessorSeconds: first.processorSeconds,
      firstMb: toMb(files.writtenBytes + databaseBytes),
      laterSeconds: later.seconds,
      laterProcessorSeconds: later.processorSeconds,
      laterMb: toMb(later.value.files.writtenBytes + databaseBytes),
      sealedSeconds: sealed.seconds,
      restoreSeconds: restored.seconds,
      longestStallMs: Math.round(delays.max / 1e6),
    }
  } finally {
    rmSync(top, { recursive: true })
  }
}

async function copy(dataDir: string, folder: string, isSealed: boolean): Promise<CopyMade> {
  mkdirSync(folder, { recursive: true })
  const job = { kind: 'copy', dataDir, folder, isSealed, isKnown: false, now: Date.now() } as const
  const said = await startCopyWork(job, () => {}, console.error).ended
  if (said?.kind !== 'copied') throw new Error('The worker ended without a copy.')
  return valueOf(said.result)
}

function valueOf<T>(result: Result<T>): T {
  if (result.ok) return result.value
  throw new Error(`${result.refusal.message} ${result.refusal.next}`)
}

interface Timed<T> {
  readonly value: T
  readonly seconds: number
  readonly processorSeconds: number
}

async function timed<T>(work: () => Promise<T>): Promise<Timed<T>> {
  const begun = performance.now()
  const before = process.cpuUsage()
  const value = await work()
  const { user, system } = process.cpuUsage(before)
  const seconds = toTenths((performance.now() - begun) / 1e3)
  return { value, seconds, processorSeconds: toTenths((user + system) / 1e6) }
}

const toTenths = (value: number): number => Math.round(value * 10) / 10
const toMb = (bytes: number): number => Math.round(bytes / 1e5) / 10
