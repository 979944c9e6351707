import { tracked } from '@trpc/server'
import type { ReadDatabase } from '../../db/database.ts'
import { lastNumber } from '../../db/journal.ts'
import { carsChangedSince, readWorkshop } from '../../db/reads.ts'
import type { CarId } from '../../domain/ids.ts'
import type { Planner } from './planner.ts'

/** What has changed up to a journal number: which cars, and whether the workshop itself has. */
export interface RevisionChange {
  readonly revision: number
  readonly carIds: readonly CarId[]
  readonly workshop: boolean
  /** The plan, or whether one is being made. */
  readonly plan: boolean
}

export interface Revisions {
  /** To be called after every commit; `factless` when it added no fact, as a new name or code does. */
  readonly announce: (factless: boolean) => void
  /** The journal number that all screens can be at now. */
  readonly latest: () => number
  /**
   * Everything that changes after journal number `since`, as it happens. Changes that come faster than they are read
   * are joined. The id of each is its revision, so that a screen that was cut off goes on where it was.
   */
  readonly follow: (
    since: number,
    signal: AbortSignal,
  ) => AsyncGenerator<ReturnType<typeof tracked<RevisionChange>>, void, undefined>
}

/**
 * @param closing aborted when the host closes; ends all followers
 * @param planner told of facts that were added, and followed like them
 */
export function createRevisions(
  db: ReadDatabase,
  closing: AbortSignal,
  planner: Pick<Planner, 'factsAdded' | 'onMoved'>,
): Revisions {
  const waiting = new Set<() => void>()
  let factlessCount = 0
  let planCount = 0

  const wake = () => {
    for (const goOn of waiting) goOn()
  }
  planner.onMoved(() => {
    planCount += 1
    wake()
  })

  async function* follow(since: number, signal: AbortSignal) {
    const ends = AbortSignal.any([closing, signal])
    let last = since
    let lastFactless = factlessCount
    // A screen cannot say which plan it shows: one that comes anew hears of it once the plan has moved at all.
    let lastPlan = 0
    while (!ends.aborted) {
      const change = changeSince(db, last)
      const isFactless = factlessCount > lastFactless
      const plan = planCount > lastPlan
      if (change.revision > last || isFactless || plan) {
        last = change.revision
        lastFactless = factlessCount
        lastPlan = planCount
        yield tracked(String(last), { ...change, workshop: change.workshop || isFactless, plan })
      } else {
        await announcement(waiting, ends)
      }
    }
  }

  return {
    announce: (factless) => {
      if (factless) factlessCount += 1
      else planner.factsAdded()
      wake()
    },
    latest: () => lastNumber(db),
    follow,
  }
}

function changeSince(db: ReadDatabase, since: number): Omit<RevisionChange, 'plan'> {
  return {
    revision: lastNumber(db),
    carIds: carsChangedSince(db, since).map(({ id }) => id),
    workshop: readWorkshop(db).revision > since,
  }
}

/** Resolves at the next announcement, or when `ends` is aborted. */
function announcement(waiting: Set<() => void>, ends: AbortSignal): Promise<void> {
  return new Promise((resolve) => {
    const goOn = () => {
      waiting.delete(goOn)
      ends.removeEventListener('abort', goOn)
      resolve()
    }
    waiting.add(goOn)
    ends.addEventListener('abort', goOn)
  })
}
