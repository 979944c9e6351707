import { useSyncExternalStore } from 'react'

/** As in shell.css: below this width the screen is a phone's. */
const NARROW = '(max-width: 47rem)'

export function useIsNarrow(): boolean {
  return useSyncExternalStore(listen, () => matchMedia(NARROW).matches)
}

function listen(onChange: () => void): () => void {
  const query = matchMedia(NARROW)
  query.addEventListener('change', onChange)
  return () => query.removeEventListener('change', onChange)
}
