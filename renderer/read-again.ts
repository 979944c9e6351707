import type { InvalidateQueryFilters, Query } from '@tanstack/react-query'
import { queryClient } from './client.ts'

/**
 * Reads again what is shown of these. A first answer that is still on its way may be from before the change, and the library would
 * take it for the newest: it is waited for and read once more. One in place of an earlier answer is given up for a new one.
 */
export async function readAgainWhere(predicate: (query: Query) => boolean = () => true): Promise<void> {
  const coming = queryClient
    .getQueryCache()
    .findAll({ predicate, fetchStatus: 'fetching' })
    .filter(({ state }) => state.data === undefined)
  await invalidate({ predicate })
  if (coming.length === 0) return
  // Those that fail are shown, or asked for again, by whoever asked.
  await Promise.allSettled(coming.map(async ({ promise }) => promise))
  await invalidate({ predicate: (query) => coming.includes(query) })
}

const invalidate = (filters: InvalidateQueryFilters): Promise<void> => queryClient.invalidateQueries(filters)
