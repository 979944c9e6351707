import { DatabaseProblem } from '../../db/database-problem.ts'
import type { Database } from '../../db/database.ts'
import { toWeb } from '../../db/to-web.ts'
import type { Moment } from '../../domain/car.ts'
import { ok, refuse, type Refusal } from '../../domain/refusal.ts'
import type { WholeDesk, WholeProgress, WholeStream } from '../api/whole-desk.ts'
import { refusalOrDefect, STOPPED } from '../bag/bag-problem.ts'
import { writeBagArchive } from '../bag/write-bag.ts'
import { takeInHere } from './take-in-here.ts'
import { openWholeWorkshop, type WholeWorkshop } from './whole-bag.ts'

export interface WholeDeskOptions {
  readonly db: Database
  /** The host's clock, epoch milliseconds. */
  readonly now: () => Moment
  /** Told of defects. */
  readonly log: (line: string) => void
}

export interface OpenWholeDesk extends WholeDesk {
  /** Ends what is being taken out. */
  readonly close: () => void
}

/** The desk of the host; one workshop is taken in at a time, and the progress is that of the last taking out. */
export function openWholeDesk({ db, now, log }: WholeDeskOptions): OpenWholeDesk {
  const dataDir = db.dataDir ?? ''
  const closing = new AbortController()
  let progress: WholeProgress | null = null
  let step: string | null = null
  const fail = (refusal: Refusal): void => {
    progress = { doing: 'refused', refusal }
  }

  const archiveOf = ({ bag, bagName, files: of, close }: WholeWorkshop): WholeStream['stream'] => {
    let last = { files: 0, bytes: 0 }
    progress = { doing: 'writing', done: 0, of }
    const archive = writeBagArchive(bag, bagName, {
      signal: closing.signal,
      onProgress: (written) => {
        last = written
        progress = { doing: 'writing', done: written.files, of }
      },
    })
    archive.once('end', () => {
      progress = { doing: 'finished', ...last }
    })
    archive.once('error', (error: unknown) => fail(wordsFor(error, log)))
    archive.once('close', () => {
      close()
      if (progress?.doing === 'writing') fail(STOPPED)
    })
    return toWeb(archive)
  }

  return {
    begin: () => {
      try {
        const workshop = openWholeWorkshop(dataDir, now())
        return ok({ name: `${workshop.bagName}.zip`, stream: archiveOf(workshop) })
      } catch (error) {
        if (!(error instanceof DatabaseProblem)) throw error
        return refuse('storage', error.message, 'Try again when this is mended.')
      }
    },
    progress: () => progress,
    takeIn: async (archive) => {
      if (step !== null) return busy
      const onStep = (words: string) => {
        step = words
      }
      onStep('Receiving the archive.')
      try {
        const taken = await takeInHere(db, dataDir, archive, { onStep, signal: closing.signal })
        return taken.ok ? ok(taken.value.name) : taken
      } finally {
        step = null
      }
    },
    takingIn: () => step,
    close: () => closing.abort(),
  }
}

const wordsFor = (error: unknown, log: (line: string) => void): Refusal =>
  refusalOrDefect(error, DEFECT, (words) => log(`Taking out: ${words}`))

const busy = refuse(
  'not-now',
  'A workshop is being taken in already.',
  'Wait until that is done; this takes some minutes for a large one.',
)

const { refusal: DEFECT } = refuse(
  'storage',
  'Something went wrong in Panelwright itself, so the workshop was not taken out.',
  'Try again. If it stays so, look at the window where Panelwright was started and report what it says.',
)
