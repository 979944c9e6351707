import { useSending } from '../parts/photos/use-sending.ts'
import { Button, WordButton } from '../parts/form/button.tsx'
import { RefusalNote } from '../parts/form/notice.tsx'
import { nextPhoto } from '../parts/photos/photo-aim.ts'
import { TakenStrip } from '../parts/photos/taken-strip.tsx'
import { photoWork } from './asks.ts'
import { ClockStrip } from './clock-strip.tsx'
import { useRepair } from './repair-context.ts'
import styles from './repair.module.css'

/** At the bottom, in reach of the thumb: who is on it, take photos, sign off the gate. */
export function ActionBar() {
  const { view, open, photos } = useRepair()
  const sending = useSending()
  const { aim, words } = nextPhoto(photoWork(view), sending)
  const mayPass = view.next?.mayPass === true
  return (
    <>
      <RefusalNote refusal={photos.refusal} />
      <div className={styles.bar}>
        <TakenStrip carId={view.car.carId} repair={photoWork(view)} />
        <ClockStrip />
        {!view.repair.retired && (
          <div className={styles.actions}>
            <div className={styles.photos}>
              <Button kind={mayPass ? 'plain' : 'main'} onClick={() => photos.take(aim)}>
                Take photos
                <span className={styles.aim}>{words}</span>
              </Button>
              {photos.hasCamera && <Button onClick={() => photos.choose(aim)}>Gallery</Button>}
            </div>
            {view.next !== null && (
              <Button
                kind={mayPass ? 'main' : 'plain'}
                className={mayPass ? '' : `${styles.notYet}`}
                onClick={() => open({ kind: 'sign' })}
              >
                Sign off gate
                <span className={styles.aim}>{mayPass ? view.next.gate : 'not yet'}</span>
              </Button>
            )}
          </div>
        )}
        <div className={styles.lesser}>
          <WordButton onClick={() => open({ kind: 'photos' })}>a photo of something else</WordButton>
          <WordButton onClick={() => open({ kind: 'finding' })}>add a finding</WordButton>
        </div>
      </div>
    </>
  )
}
