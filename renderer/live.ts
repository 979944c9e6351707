import { useSubscription } from '@trpc/tanstack-react-query'
import { api, queryClient } from './client.ts'

/** Views of one car; all other views may show any car. */
const OF_ONE_CAR = ['car', 'repair', 'record']

type QueryKeyOfApi = readonly [
  readonly [string],
  { readonly input?: { readonly carId?: string } } | undefined,
]

/** Reads again what the screens show of these cars. */
export async function readAgain(carIds: readonly string[]): Promise<void> {
  await queryClient.invalidateQueries({
    predicate: ({ queryKey }) => {
      const [path, asked] = queryKey as QueryKeyOfApi
      return !OF_ONE_CAR.includes(path[0]) || carIds.includes(asked?.input?.carId ?? '')
    },
  })
}

let hasStarted = false

/** The first start finds screens that have just been read; each later one follows a break. */
function readAllAfterBreak(): void {
  if (hasStarted) void queryClient.invalidateQueries()
  hasStarted = true
}

/**
 * Keeps every open view in step with the host. After a break the screens read everything again, as revisions may have
 * been missed.
 */
export function useLive(): 'live' | 'connecting' | 'away' {
  const revisions = useSubscription(
    api.revisions.subscriptionOptions(undefined, {
      onData: (event) => void readAgain(event.data.carIds),
      onStarted: readAllAfterBreak,
    }),
  )
  if (revisions.status === 'pending' || revisions.status === 'idle') return 'live'
  return revisions.status === 'connecting' && revisions.error === null ? 'connecting' : 'away'
}
