import { useOutbox } from '../outbox/outbox.ts'
import { Button, WordButton } from '../parts/button.tsx'
import { RefusalNote } from '../parts/notice.tsx'
import { PhotosOnTheirWay } from '../parts/photo-pick.tsx'
import type { PhotoAim } from '../parts/use-photo-inputs.tsx'
import type { RepairView } from '../../domain/views/view-shapes.ts'
import { askAim, askShows, gatePhoto, nextPhotoAsk, ownPhotos } from './asks.ts'
import { ClockStrip } from './clock-strip.tsx'
import { useRepair } from './repair-context.ts'
import styles from './repair.module.css'

/** At the bottom, in reach of the thumb: who is on it, take photos, sign off the gate. */
export function ActionBar() {
  const { view, open, photos } = useRepair()
  const sending = useOutbox().photos
  const onTheirWay = ownPhotos(view, sending)
  const ask = nextPhotoAsk(view, sending)
  const aim = photoAim(view, ask)
  const mayPass = view.next?.mayPass === true
  return (
    <>
      <RefusalNote refusal={photos.refusal} />
      {onTheirWay.length > 0 && <PhotosOnTheirWay carId={view.car.carId} />}
      <div className={styles.bar}>
        <ClockStrip />
        {!view.repair.retired && (
          <div className={styles.actions}>
            <Button kind={mayPass ? 'plain' : 'main'} onClick={() => photos.take(aim)}>
              Take photos
              <span className={styles.aim}>{aimWords(view, ask)}</span>
            </Button>
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
          {photos.hasCamera && <WordButton onClick={() => photos.choose(aim)}>from the gallery</WordButton>}
          <WordButton onClick={() => open({ kind: 'photos' })}>a photo of something else</WordButton>
          <WordButton onClick={() => open({ kind: 'finding' })}>add a finding</WordButton>
        </div>
      </div>
    </>
  )
}

/** Without an ask: the work at the next gate, or at the last one when all are done. */
function photoAim(view: RepairView, ask: ReturnType<typeof nextPhotoAsk>): PhotoAim {
  const gate = view.next?.gate ?? 'painted'
  if (ask !== null) return askAim(view, ask, gate)
  return { serves: [gatePhoto(view, gate, gate === 'opened' ? 'after' : 'work')], caption: '' }
}

function aimWords(view: RepairView, ask: ReturnType<typeof nextPhotoAsk>): string {
  const gate = view.next?.gate ?? 'painted'
  if (ask === null) return `of the work at ${gate}`
  const layer = view.section.layers.find(({ id }) => id === ask.layerId)
  if (layer !== undefined) return layer.name
  return SHOWS_WORDS[askShows(ask, gate)]
}

const SHOWS_WORDS = {
  before: 'before cutting',
  after: 'after cutting',
  layer: 'a layer',
  work: 'of the work',
  prepared: 'the prepared surface',
  'as left': 'as left',
} as const
