/** A busy page is not waited for longer than this. */
const IDLE_WAIT_MS = 1_000

/** Does it once nothing else is to be done. @returns what calls it off */
export function whenIdle(act: () => void): () => void {
  // Safari has no idle callback.
  if (!('requestIdleCallback' in window)) {
    const timer = setTimeout(act, 1)
    return () => clearTimeout(timer)
  }
  const handle = requestIdleCallback(act, { timeout: IDLE_WAIT_MS })
  return () => cancelIdleCallback(handle)
}
