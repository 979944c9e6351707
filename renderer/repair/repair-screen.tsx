import { useQuery } from '@tanstack/react-query'
import { useParams } from '@tanstack/react-router'
import type { CarId, RepairId } from '../../domain/ids.ts'
import { api } from '../client.ts'
import { useIsAway } from '../live.ts'
import { Loaded } from '../parts/frame/loaded.tsx'
import { RepairPage } from './repair-page.tsx'

/** Curing, windows and watches go by the clock, so it is read again without any change on the host too. */
const READ_EVERY_MS = 60_000

export function RepairScreen() {
  const { carId, repairId } = useParams({ from: '/cars/$carId/repairs/$repairId' })
  const query = useQuery(
    api.repair.queryOptions(
      { carId: carId as CarId, repairId: repairId as RepairId },
      { refetchInterval: READ_EVERY_MS },
    ),
  )
  const isAway = useIsAway()
  // Stands at the top of the page, so that nothing below it jumps when it comes. The page asks for it too: what is waited for is
  // one answer or failure and never a second one, or the page would take itself away again.
  const { isFetched, isPaused } = useQuery(api.beyondAgreed.queryOptions({ carId: carId as CarId }))
  const isReady = isFetched || isPaused || isAway
  return <Loaded query={query}>{(view) => isReady && <RepairPage key={repairId} view={view} />}</Loaded>
}
