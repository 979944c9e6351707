import { useEffect, useState } from 'react'
import { type JustDone, justDone, useJustDone } from '../../outbox/just-done.ts'
import { WordButton } from '../form/button.tsx'
import { onDemand } from './on-demand.tsx'
import styles from '../../outbox/outbox-sheet.module.css'
import type { TakeBackProps } from './take-back.tsx'

const TakeBackDialog = onDemand<TakeBackProps>(async () => (await import('./take-back.tsx')).TakeBack)

/** Long enough to see the slip and reach for it with a glove; afterwards the record of the car takes it back. */
const SHOWN_MS = 12_000

/** At the lower edge, where nothing moves for it: what was just recorded, and the way to take it back. */
export function JustDoneStrip() {
  const done = useJustDone()
  const [taking, setTaking] = useState<JustDone | null>(null)
  const [isHeld, setIsHeld] = useState(false)
  useEffect(() => {
    if (done === null || isHeld || taking !== null) return
    const timer = window.setTimeout(justDone.putAway, SHOWN_MS)
    return () => window.clearTimeout(timer)
  }, [done, isHeld, taking])
  return (
    <>
      {done !== null && taking === null && (
        <p className={`strip ${styles.strip}`}>
          <span>Done: {[done.told.what, done.told.where].filter((words) => words !== '').join(' · ')}</span>
          <WordButton
            className={styles.show}
            onPointerEnter={() => setIsHeld(true)}
            onPointerLeave={() => setIsHeld(false)}
            onFocus={() => setIsHeld(true)}
            onBlur={() => setIsHeld(false)}
            onClick={() => setTaking(done)}
          >
            {done.back.is === 'start again' ? 'start it again' : 'take it back'}
          </WordButton>
        </p>
      )}
      {taking !== null && (
        <TakeBackDialog
          done={taking}
          onClose={() => {
            setTaking(null)
            setIsHeld(false)
            justDone.putAway()
          }}
        />
      )}
    </>
  )
}
