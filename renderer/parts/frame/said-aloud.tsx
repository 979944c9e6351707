import { useSaid } from '../../aloud.ts'

/**
 * The one region that tells a screen reader what happens by itself or follows an act. It stands from the start, as readers
 * follow no region that comes with its words, and an open sheet leaves it readable by its attribute.
 */
export function SaidAloud() {
  return (
    <div
      className="hidden-word"
      role="status"
      aria-label="Just now"
      aria-atomic="false"
      data-live-announcer="true"
    >
      {useSaid().map(({ id, words }) => (
        <p key={id}>{words}</p>
      ))}
    </div>
  )
}
