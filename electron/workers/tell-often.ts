/** Often enough for a screen. */
const TELL_EVERY_MS = 200

/**
 * Passes on how far a worker is, a few times a second, and at once where another part of its work begins.
 *
 * @param partOf names the part
 */
export function tellOften<T>(
  partOf: (progress: T) => string,
  tell: (progress: T) => void,
): (progress: T) => void {
  let told = -TELL_EVERY_MS
  let part = ''
  return (progress) => {
    const now = performance.now()
    if (partOf(progress) === part && now - told < TELL_EVERY_MS) return
    told = now
    part = partOf(progress)
    tell(progress)
  }
}
