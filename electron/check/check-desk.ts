import { Worker } from 'node:worker_threads'
import type { CheckProgress } from '../../db/check.ts'
import type { CheckFinding } from '../../db/check-finding.ts'
import { LEFT_AFTER_MS } from '../../db/check-folder.ts'
import { readCopiesSet } from '../../db/copy-records.ts'
import { isSqliteError } from '../../db/database-problem.ts'
import type { Database } from '../../db/database.ts'
import { mendFindings, type Mended } from '../../db/mend.ts'
import type { PhotoResult } from '../../db/photos/photo-problem.ts'
import { readJsonSetting, writeSetting } from '../../db/settings.ts'
import type { Moment } from '../../domain/car.ts'
import { ok, refuse } from '../../domain/refusal.ts'
import { errorStack } from '../../domain/text/error-words.ts'
import { type CheckedFinding, type LastCheck, lastCheckSchema } from '../../domain/views/last-check.ts'
import type { CheckDesk, CheckDoing } from '../api/check-desk.ts'
import type { CheckJob, FromCheckWorker } from './check-job.ts'
import { openCopiedFiles } from './copied-files.ts'

export interface CheckDeskOptions {
  readonly db: Database
  readonly makeSizes: (sha256: string) => Promise<PhotoResult<true>>
  /** The host's clock, epoch milliseconds. */
  readonly now: () => Moment
  /** Told of defects. */
  readonly log: (line: string) => void
}

export interface OpenCheckDesk extends CheckDesk {
  /** Ends what is under way. */
  readonly close: () => Promise<void>
}

/** Findings that are remembered and shown; a disk that has gone may leave one for every photo. */
const MOST_SHOWN = 100

/** Ten years of journal lines and their hashes are held while the chains are followed. */
const HEAP_MB = 1_024

/** One check at a time, in a worker thread that reads beside the host; mending is the host's own, as its one writer. */
export function openCheckDesk({ db, makeSizes, now, log }: CheckDeskOptions): OpenCheckDesk {
  let doing: CheckDoing = { kind: 'nothing' }
  let worker: Worker | null = null
  let last = readLast(db)
  /** Of this run only: who mends must know that nothing was changed since by another program. */
  let findings: readonly CheckFinding[] = []
  let results: readonly Mended[] = []
  const rest = () =>
    findings.filter((finding) => !results.some((each) => each.finding === finding && each.isMended))

  const remember = (brokenOff: string | null, since: Moment): void => {
    last = lastOf(findings, results, { at: now(), took: Math.max(0, now() - since), brokenOff })
    saveLast(db, last, log)
  }
  const end = (found: readonly CheckFinding[], brokenOff: string | null): void => {
    if (doing.kind !== 'checking') return
    const { since } = doing
    void worker?.terminate()
    worker = null
    doing = { kind: 'nothing' }
    findings = found
    results = []
    remember(brokenOff, since)
  }
  const hear = (message: FromCheckWorker): void => {
    if (message.kind === 'found') end(message.findings, null)
    else if (message.kind === 'failed') end([], message.words)
    else if (doing.kind === 'checking') doing = advance(doing, message.progress, now())
  }
  const begin = (dataDir: string): void => {
    const since = now()
    doing = { kind: 'checking', since, words: 'The check is starting.', parts: null }
    // The files' times are this computer's, whatever time a demo has.
    const workerData: CheckJob = { dataDir, leftBefore: Date.now() - LEFT_AFTER_MS }
    const started = new Worker(checkWorkerUrl, {
      workerData,
      resourceLimits: { maxOldGenerationSizeMb: HEAP_MB },
    })
    worker = started
    const isUnderWay = () => worker === started
    started.on('message', (message: FromCheckWorker) => {
      if (isUnderWay()) hear(message)
    })
    started.on('error', (error) => {
      if (!isUnderWay()) return
      log(`check: ${errorStack(error)}`)
      end([], DEFECT)
    })
    started.on('exit', () => {
      if (isUnderWay()) end([], DEFECT)
    })
  }

  return {
    state: () => ({
      doing,
      last,
      mendable: rest().filter(({ mend }) => mend !== null).length,
      copiesFolder: readCopiesSet(db)?.folder ?? null,
    }),
    start: () => {
      if (doing.kind !== 'nothing' || db.dataDir === null) return busy
      begin(db.dataDir)
      return ok(true)
    },
    stop: () => {
      if (doing.kind !== 'checking') return
      void worker?.terminate()
      worker = null
      doing = { kind: 'nothing' }
    },
    mend: async (from) => {
      const { dataDir } = db
      if (doing.kind !== 'nothing' || dataDir === null || last === null) return busy
      const count = rest().filter(({ mend }) => mend !== null).length
      if (count === 0) return nothingToMend
      const since = now()
      const mending = (done: number): CheckDoing => ({ kind: 'mending', parts: { since, done, count } })
      doing = mending(0)
      try {
        const mended = await mendFindings(rest(), {
          db,
          dataDir,
          makeSizes,
          copies: from === null ? null : openCopiedFiles(from, dataDir),
          now: since,
          onProgress: (done) => (doing = mending(done)),
        })
        results = [...results, ...mended]
        last = lastOf(findings, results, last)
        saveLast(db, last, log)
        return ok(true)
      } finally {
        doing = { kind: 'nothing' }
      }
    },
    close: async () => {
      const ended = worker
      worker = null
      doing = { kind: 'nothing' }
      await ended?.terminate()
    },
  }
}

type Checking = Extract<CheckDoing, { readonly kind: 'checking' }>

function advance(doing: Checking, progress: CheckProgress, now: Moment): Checking {
  const words = WORDS[progress.of]
  if (!('count' in progress)) return { ...doing, words, parts: null }
  const since = doing.words === words && doing.parts !== null ? doing.parts.since : now
  return { ...doing, words, parts: { since, done: progress.done, count: progress.count } }
}

const WORDS: Readonly<Record<CheckProgress['of'], string>> = {
  'the database file': 'Reading the database file.',
  'the journal': 'Following the journal line by line.',
  'the tables': 'Making the tables anew and comparing them.',
  'the photos': 'Reading every photo.',
  'the sizes of photos': 'Reading the sizes of photos.',
}

function lastOf(
  findings: readonly CheckFinding[],
  results: readonly Mended[],
  about: Pick<LastCheck, 'at' | 'took' | 'brokenOff'>,
): LastCheck {
  const mended = new Map(results.map(({ finding, isMended, words }) => [finding, { isMended, words }]))
  const isLeft = (finding: CheckFinding) => mended.get(finding)?.isMended !== true
  const countOf = (severity: CheckFinding['severity']) =>
    findings.filter((finding) => finding.severity === severity && isLeft(finding)).length
  // Faults first: what is cut off is what matters least.
  const shown = findings.toSorted((a, b) => a.severity.localeCompare(b.severity)).slice(0, MOST_SHOWN)
  return {
    at: about.at,
    took: about.took,
    brokenOff: about.brokenOff,
    faults: countOf('fault'),
    notes: countOf('note'),
    findings: shown.map((finding): CheckedFinding => ({
      severity: finding.severity,
      what: finding.what,
      meaning: finding.meaning,
      todo: finding.todo,
      mended: mended.get(finding) ?? null,
    })),
  }
}

/** Null before a first one, and for what this program has not written. */
function readLast(db: Database): LastCheck | null {
  return lastCheckSchema.safeParse(readJsonSetting(db, 'lastCheck')).data ?? null
}

/** A full disk must not hide what was found. */
function saveLast(db: Database, last: LastCheck, log: (line: string) => void): void {
  try {
    writeSetting(db, 'lastCheck', JSON.stringify(last))
  } catch (error) {
    if (!isSqliteError(error)) throw error
    log(`check: its result could not be kept: ${error.message}`)
  }
}

const DEFECT =
  'Something went wrong in Panelwright itself. Look at the window where Panelwright was started and report what it says.'

const busy = refuse(
  'not-now',
  'The workshop’s folder is being checked or mended.',
  'Wait until that is done, or stop the check.',
)
const nothingToMend = refuse(
  'not-now',
  'There is nothing to mend that was found since Panelwright was started.',
  'Run the check first.',
)

/**
 * The one place that says where the worker is. It stays a literal: from source Node runs the TypeScript file itself, and
 * the build (build/bring-along.ts) makes the worker an entry of its own and points this line to the result.
 */
const checkWorkerUrl = new URL('./check-worker.ts', import.meta.url)
