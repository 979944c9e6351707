import { useSubscription } from '@trpc/tanstack-react-query'
import { useEffect, useState } from 'react'
import { api, queryClient } from './client.ts'

/** Views of one car; all other views may show any car. */
const OF_ONE_CAR = ['car', 'repair', 'record']

/** What a plan that has moved changes, when nothing else has. */
const OF_THE_PLAN = ['plan', 'planHistory', 'daySheet', 'shopFloor']

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

/** Reads the plan again where it is shown. */
async function readPlanAgain(): Promise<void> {
  await queryClient.invalidateQueries({
    predicate: ({ queryKey }) => OF_THE_PLAN.includes((queryKey as QueryKeyOfApi)[0][0]),
  })
}

/**
 * Keeps every open view in step with the host: it goes on from the revision of the session's first answer, and after a
 * break from the last one that was heard.
 */
export function useLive(revision: number): 'live' | 'connecting' | 'away' {
  const [from] = useState({ lastEventId: String(revision) })
  const revisions = useSubscription(
    api.revisions.subscriptionOptions(from, {
      onData: ({ data }) => {
        const isPlanAlone = data.plan && !data.workshop && data.carIds.length === 0
        void (isPlanAlone ? readPlanAgain() : readAgain(data.carIds))
      },
    }),
  )
  // A connection that is refused says nothing of why; the session does.
  const isRefused = revisions.status === 'error'
  useEffect(() => {
    if (isRefused) void queryClient.invalidateQueries({ queryKey: api.session.queryKey() })
  }, [isRefused])
  if (revisions.status === 'pending' || revisions.status === 'idle') return 'live'
  return revisions.status === 'connecting' && revisions.error === null ? 'connecting' : 'away'
}
