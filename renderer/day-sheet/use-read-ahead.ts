import { useEffect } from 'react'
import type { DaySheetLine, DaySheetView } from '../../domain/views/view-shapes.ts'
import { api, queryClient } from '../client.ts'
import { useIsAway } from '../live.ts'

/** More is no day's work. */
const MOST_LINES = 12

/** What changes several times in a row is read once, after the last of them. */
const QUIET_MS = 2_000

/**
 * Reads the repairs and cars of a day sheet before anybody opens them, so that they can be opened when the network drops and
 * in the app without the host. What was read stays good until the host says that its car has changed.
 *
 * @param view undefined until it has been read
 */
export function useReadAhead(view: DaySheetView | undefined): void {
  const isAway = useIsAway()
  useEffect(() => {
    if (view === undefined || isAway) return
    const left = new AbortController()
    const timer = window.setTimeout(() => void readAhead(view, left.signal), QUIET_MS)
    return () => {
      window.clearTimeout(timer)
      left.abort()
    }
  }, [view, isAway])
}

/** One after another: what somebody waits for must not stand behind them all. */
async function readAhead({ canDo, waits }: DaySheetView, left: AbortSignal): Promise<void> {
  for (const read of readsOf([...canDo, ...waits].slice(0, MOST_LINES))) {
    if (left.aborted) return
    try {
      await read()
    } catch {
      // Without an answer the others would get none either; the next day sheet begins anew.
      return
    }
  }
}

const UNTIL_CHANGED = { staleTime: Number.POSITIVE_INFINITY }

function readsOf(lines: readonly DaySheetLine[]): readonly (() => Promise<unknown>)[] {
  const repairs = lines.flatMap(({ carId, repairId }) => (repairId === null ? [] : [{ carId, repairId }]))
  const cars = [...new Set(lines.map(({ carId }) => carId))]
  return [
    ...repairs.map((repair) => () => queryClient.fetchQuery(api.repair.queryOptions(repair, UNTIL_CHANGED))),
    ...cars.map((carId) => () => queryClient.fetchQuery(api.car.queryOptions({ carId }, UNTIL_CHANGED))),
  ]
}
