import { useMemo } from 'react'
import type { PhotoInOutbox } from '../../outbox/board.ts'
import { useOutbox } from '../../outbox/outbox.ts'
import { photosUnderWay } from '../../outbox/photos-under-way.ts'

/** Photos that were taken on this device and that no screen counts yet. */
export function useSending(): readonly PhotoInOutbox[] {
  const state = useOutbox()
  return useMemo(() => photosUnderWay(state), [state])
}
