import { isAbsolute } from 'node:path'
import {
  readCopiesSet,
  readCopyRecord,
  readRestore,
  recordCopy,
  rememberRestore,
  writeCopiesSet,
} from '../../db/copy-records.ts'
import { storageRefusal, tryToStore } from '../../db/database-problem.ts'
import type { Database } from '../../db/database.ts'
import { firstHash } from '../../db/journal.ts'
import { readWorkshop } from '../../db/reads.ts'
import type { Moment } from '../../domain/car.ts'
import { copyWarning, USUAL_WARN_AFTER_DAYS } from '../../domain/copies/copy-age.ts'
import { copyDue } from '../../domain/copies/copy-schedule.ts'
import type { CopiesSet } from '../../domain/copies/copy-settings.ts'
import { ok, refuse, type Result, refusalWords } from '../../domain/refusal.ts'
import { errorStack } from '../../domain/text/error-words.ts'
import type { CopiesAsked, CopiesDesk, CopyDoing, VerifiedView } from '../api/copies-desk.ts'
import { type CopyWork, startCopyWork } from './copy-work.ts'
import { type CopyStore, stampToMoment, workshopFolder } from './copy-paths.ts'
import { copyRefusal } from './copy-problem.ts'
import { recordOf } from './copy-record.ts'
import type { CopyWorkerJob, FromCopyWorker } from './copy-worker-job.ts'
import { createErasureKeeper } from './erasure-keeper.ts'
import { listCopiesHere } from './find-copies.ts'
import { keepKey, readKeptKey } from './kept-key.ts'
import { createRestoreDesk } from './restore-desk.ts'
import { createCopyKey } from './sealing.ts'
import { requireTarget } from './target.ts'

export interface CopiesDeskOptions {
  readonly db: Database
  /** The host's clock, epoch milliseconds. */
  readonly now: () => Moment
  /** Told of defects. */
  readonly log: (line: string) => void
}

export interface OpenCopiesDesk extends CopiesDesk {
  /** Ends what is under way and waits until it has cleared away what it began. */
  readonly close: () => Promise<void>
}

/** A disk that was away may be back: what failed is tried again after this. */
const RETRY_MS = 30 * 60_000

/** One copy at a time is made or verified, in a worker thread; what is set and what became of it is the host's to write. */
export function openCopiesDesk({ db, now, log }: CopiesDeskOptions): OpenCopiesDesk {
  const closing = new AbortController()
  const listeners: (() => void)[] = []
  let doing: CopyDoing = { kind: 'nothing' }
  let work: CopyWork | null = null
  let under: Promise<void> = Promise.resolve()
  let verified: VerifiedView | null = null
  const erasures = createErasureKeeper(db, log)

  const begin = (
    kind: 'copying' | 'verifying',
    job: CopyWorkerJob,
    end: (said: FromCopyWorker | null) => void,
  ) => {
    doing = { kind, words: 'It is starting.', done: 0, of: 0 }
    const started = startCopyWork(job, (progress) => (doing = { kind, ...progress }), log)
    work = started
    under = started.ended.then((said) => {
      work = null
      doing = { kind: 'nothing' }
      end(said)
      for (const listener of listeners) listener()
    })
  }

  const remember = (set: CopiesSet, at: Moment, said: FromCopyWorker | null): void => {
    const result = said?.kind === 'copied' ? said.result : DEFECT
    // What a person stopped is no failure of the copies.
    if (!result.ok && result.refusal.code === 'not-now') return
    const recorded = tryToStore(() => {
      recordCopy(db, recordOf(result, set.folder, at))
      const latest = readCopiesSet(db)
      if (result.ok && latest?.folder === set.folder) writeCopiesSet(db, { ...latest, isKnown: true })
    })
    if (!recorded.ok) log(`copies: ${recorded.refusal.message}`)
  }

  const start = (): Result<true> => {
    const set = readCopiesSet(db)
    if (set === null) return notSet
    if (doing.kind !== 'nothing' || db.dataDir === null || closing.signal.aborted) return busy
    const at = now()
    const { folder, isSealed, isKnown } = set
    const job = { kind: 'copy', dataDir: db.dataDir, folder, isSealed, isKnown, now: at } as const
    begin('copying', job, (said) => remember(set, at, said))
    return ok(true)
  }

  return {
    state: () => {
      const set = readCopiesSet(db)
      const record = readCopyRecord(db)
      const { zone } = readWorkshop(db)
      const warning = copyWarning({
        lastGood: record.good?.at ?? null,
        warnAfterDays: set?.warnAfterDays ?? USUAL_WARN_AFTER_DAYS,
        hasFolder: set !== null,
        now: now(),
        zone,
      })
      return {
        set: set && shown(set),
        record,
        doing,
        verified,
        warning,
        restored: readRestore(db),
        unlisted: erasures.problem(),
      }
    },
    list: async () => {
      const store = storeOf(db)
      if (store === null) return ok([])
      try {
        const key = db.dataDir === null ? null : await readKeptKey(db.dataDir)
        return ok(await listCopiesHere(store, key?.key ?? null))
      } catch (error) {
        return { ok: false, refusal: copyRefusal(error, store.folder) }
      }
    },
    set: (asked) => setCopies(db, asked, now()),
    start,
    verify: (stamp, passphrase) => {
      const store = storeOf(db)
      if (store === null) return notSet
      if (doing.kind !== 'nothing' || db.dataDir === null) return busy
      verified = null
      begin('verifying', { kind: 'verify', dataDir: db.dataDir, store, stamp, passphrase }, (said) => {
        const result = said?.kind === 'verified' ? said.result : DEFECT
        if (!result.ok && result.refusal.code === 'not-now') return
        verified = {
          made: stampToMoment(stamp),
          problem: result.ok ? null : refusalWords(result.refusal),
        }
      })
      return ok(true)
    },
    stop: () => work?.stop(),
    erased: () =>
      erasures.look().catch((error: unknown) => {
        log(`erasures: ${errorStack(error)}`)
      }),
    restoreRead: () => tryToStore(() => rememberRestore(db, null)),
    look: async () => {
      await erasures.look()
      const set = readCopiesSet(db)
      if (set === null || doing.kind !== 'nothing' || !isDue(db, set, now())) return
      start()
    },
    onCopied: (listener) => void listeners.push(listener),
    ...createRestoreDesk(db, closing.signal),
    close: async () => {
      closing.abort()
      work?.stop()
      await under
    },
  }
}

function shown({ folder, schedule, warnAfterDays, isSealed }: CopiesSet) {
  return { folder, schedule, warnAfterDays, isSealed }
}

function storeOf(db: Database): CopyStore | null {
  const set = readCopiesSet(db)
  const first = firstHash(db)
  return set === null || first === null ? null : { folder: workshopFolder(set.folder, first) }
}

function isDue(db: Database, { schedule, since }: CopiesSet, now: Moment): boolean {
  const { good, tried } = readCopyRecord(db)
  if (schedule === null || firstHash(db) === null) return false
  if (tried !== null && tried.problem !== null && now >= tried.at && now - tried.at < RETRY_MS) return false
  const { zone } = readWorkshop(db)
  return copyDue(schedule, { since, last: good?.at ?? null, now, zone }) !== null
}

async function setCopies(db: Database, asked: CopiesAsked, now: Moment): Promise<Result<true>> {
  const { folder, schedule, warnAfterDays, passphrase } = asked
  const { dataDir } = db
  if (dataDir === null || !isAbsolute(folder)) return notAbsolute
  try {
    await requireTarget(dataDir, folder)
    const isSealed = passphrase !== null
    if (typeof passphrase === 'string') keepKey(dataDir, await createCopyKey(passphrase))
    if (isSealed && (await readKeptKey(dataDir)) === null) return noPassphrase
    const before = readCopiesSet(db)
    const isKnown = before?.folder === folder && before.isKnown
    writeCopiesSet(db, { folder, schedule, warnAfterDays, isSealed, since: now, isKnown })
    return ok(true)
  } catch (error) {
    return { ok: false, refusal: storageRefusal(error) ?? copyRefusal(error, folder) }
  }
}

const busy = refuse(
  'not-now',
  'A copy is being made or verified already.',
  'Wait until that is done, or stop it.',
)
const notSet = refuse(
  'not-now',
  'No folder for copies is set on this computer.',
  'Choose one first, on a disk that is not the workshop’s own.',
)
const notAbsolute = refuse(
  'bad-input',
  'This is not the whole path of a folder.',
  'Give it from its beginning, like D:\\Copies or /media/copies.',
)
const noPassphrase = refuse(
  'bad-input',
  'No passphrase was set on this computer yet.',
  'Give the passphrase that copies are sealed with.',
)
const DEFECT = refuse(
  'storage',
  'Something went wrong in Panelwright itself, so this was not finished. Earlier copies are as they were.',
  'Try again. If it stays so, look at the window where Panelwright was started and report what it says.',
)
