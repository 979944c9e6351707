import { useState } from 'react'
import { WordButton } from '../parts/form/button.tsx'
import { RefusalNote } from '../parts/form/notice.tsx'
import type { Refusal } from '../../domain/refusal.ts'
import styles from './card.module.css'
import { ClockDialog } from './clock-dialog.tsx'
import type { PlacedPhoto } from './places.ts'
import type { Card } from './use-card.ts'

/** Whether the camera's clock is taken as right, and the way to put it right. */
export function ClockBar({
  card,
  photos,
  correction,
}: {
  readonly card: Card
  readonly photos: readonly PlacedPhoto[]
  readonly correction: string | null
}) {
  const [isOpen, setIsOpen] = useState(false)
  const [refusal, setRefusal] = useState<Refusal | null>(null)
  return (
    <div className={styles.clock}>
      <p>
        {correction === null
          ? 'The camera’s clock is taken as right.'
          : `${correction} All times here are put right by it.`}
      </p>
      <div className="row">
        <WordButton onClick={() => setIsOpen(true)}>
          {correction === null ? 'the clock is off' : 'change that'}
        </WordButton>
        {correction !== null && (
          <WordButton onClick={() => void card.correct(null).then(setRefusal)}>take it as right</WordButton>
        )}
      </div>
      <RefusalNote refusal={refusal} />
      {isOpen && <ClockDialog card={card} photos={photos} onClose={() => setIsOpen(false)} />}
    </div>
  )
}
