import { tryToStore } from '../../db/database-problem.ts'
import type { Database } from '../../db/database.ts'
import { readUpdateSetting, writeUpdateSetting } from '../../db/update-setting.ts'
import type { Moment } from '../../domain/car.ts'
import { PROGRAM_VERSION } from '../../domain/program-version.ts'
import { ok, refuse, type Result, refusalWords } from '../../domain/refusal.ts'
import { isNewer, isUpdateDue } from '../../domain/updates.ts'
import type { UpdateDesk } from '../api/update-desk.ts'
import { type FeedOptions, readFeed } from './read-feed.ts'

export interface UpdateDeskOptions {
  readonly db: Database
  /** The host's clock, epoch milliseconds. */
  readonly now: () => Moment
  readonly feed?: Omit<FeedOptions, 'ends'>
}

export interface OpenUpdateDesk extends UpdateDesk {
  /** Ends what is under way. */
  readonly close: () => Promise<void>
}

/** Looks for newer versions where a manager has said to, once a week and by hand; what is found is only told. */
export function openUpdateDesk({ db, now, feed }: UpdateDeskOptions): OpenUpdateDesk {
  const closing = new AbortController()
  let underWay: Promise<Result<true>> | null = null

  const lookAt = async (address: string): Promise<Result<true>> => {
    const at = now()
    const answer = await readFeed(address, { ...feed, ends: closing.signal })
    const set = readUpdateSetting(db)
    // Another address was set meanwhile, or none, or the host ends.
    if (closing.signal.aborted || set?.address !== address) return answer.ok ? ok(true) : answer
    const problem = answer.ok ? null : refusalWords(answer.refusal)
    writeUpdateSetting(db, { address, tried: { at, problem }, found: answer.ok ? answer.value : set.found })
    return answer.ok ? ok(true) : answer
  }
  const lookOnce = (address: string): Promise<Result<true>> => {
    underWay ??= lookAt(address).finally(() => (underWay = null))
    return underWay
  }
  return {
    state: () => {
      const set = readUpdateSetting(db)
      const found = set?.found ?? null
      return {
        version: PROGRAM_VERSION,
        address: set?.address ?? null,
        tried: set?.tried ?? null,
        newer: found !== null && isNewer(found.version, PROGRAM_VERSION) ? found : null,
      }
    },
    set: (address) =>
      tryToStore(() =>
        writeUpdateSetting(db, address === null ? null : { address, tried: null, found: null }),
      ),
    lookNow: async () => {
      const set = readUpdateSetting(db)
      return set === null ? notSet : lookOnce(set.address)
    },
    look: async () => {
      const set = readUpdateSetting(db)
      if (set !== null && isUpdateDue(set, now())) await lookOnce(set.address)
    },
    close: async () => {
      closing.abort()
      await underWay
    },
  }
}

const notSet = refuse(
  'not-now',
  'No address is set to look at.',
  'Set one in Panelwright’s own window first.',
)
