import { keepPreviousData, useQuery } from '@tanstack/react-query'
import type { FindView } from '../../domain/views/find-shapes.ts'
import { api } from '../client.ts'
import { useQuiet } from '../parts/frame/use-quiet.ts'

/** Between two keys of somebody who types on. */
const QUIET_MS = 120

export interface FoundNow {
  /** The last that was found, also while the next is looked for. */
  readonly view: FindView | undefined
  readonly error: unknown
  /** What is shown is of what was typed. */
  readonly isCurrent: boolean
}

/** Asks the host once nobody has typed for a moment. */
export function useFound(text: string): FoundNow {
  const wanted = text.trim()
  const asked = useQuiet(wanted, QUIET_MS)
  const query = useQuery(
    api.find.queryOptions(
      { text: asked },
      { enabled: asked !== '', placeholderData: keepPreviousData, gcTime: QUIET_MS, retry: false },
    ),
  )
  const { data, error, isPlaceholderData } = query
  return {
    view: wanted === '' || error !== null ? undefined : data,
    error: wanted === '' ? null : error,
    isCurrent: asked === wanted && (!isPlaceholderData || error !== null) && !query.isPending,
  }
}
