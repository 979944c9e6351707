/** What a reading means, said while it is typed; the place is kept, so that nothing jumps. */
export function Measured({
  isInside,
  words,
}: {
  /** Null while there is nothing to judge. */
  readonly isInside: boolean | null
  readonly words: string
}) {
  const tone = isInside === null ? 'quiet' : isInside ? 'is-passed strong' : 'is-accent strong'
  return (
    <p className={`measured ${tone}`} aria-live="polite">
      {words}
    </p>
  )
}
