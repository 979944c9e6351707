import { plural } from '../../domain/text/words.ts'
import { Button } from '../parts/form/button.tsx'
import styles from './card.module.css'
import type { PlacedPhoto } from './places.ts'
import type { AttachState } from './use-attach.ts'

/** At the lower edge: what is about to be attached, and the one button for it. */
export function AttachBar({
  ready,
  waiting,
  attaching,
  onAttach,
}: {
  readonly ready: readonly PlacedPhoto[]
  readonly waiting: number
  readonly attaching: AttachState
  readonly onAttach: () => void
}) {
  const { busy } = attaching
  return (
    <div className={styles.bar}>
      <p role="status" className="small">
        {busy !== null
          ? `${busy.done} of ${busy.count} attached`
          : waiting === 0
            ? 'Look through them first; a tap on a picture leaves it out.'
            : `${plural('photo', waiting)} ${waiting === 1 ? 'waits' : 'wait'} for your choice and ${waiting === 1 ? 'stays' : 'stay'} behind.`}
      </p>
      <Button kind="main" disabled={ready.length === 0 || busy !== null} onClick={onAttach}>
        {ready.length === 0 ? 'Nothing to attach yet' : `Attach ${plural('photo', ready.length)}`}
      </Button>
    </div>
  )
}
