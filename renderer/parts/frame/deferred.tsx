import { type ReactNode, useDeferredValue } from 'react'

/**
 * What takes long to draw: the rest of the screen is painted before it, and what somebody does meanwhile comes first. Nothing
 * may stand below it, as that would be pushed down.
 */
export function Deferred({ children }: { readonly children: ReactNode }) {
  const isDue = useDeferredValue(true, false)
  return isDue ? children : null
}
