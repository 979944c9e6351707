import { useState } from 'react'
import { clockCorrection, correctionWords } from '../../domain/import/photo-clock.ts'
import type { Refusal } from '../../domain/refusal.ts'
import { dayWords } from '../../domain/text/words.ts'
import { isLocalDate } from '../../domain/time/local-date.ts'
import { photoUrl } from '../client.ts'
import { useActor } from '../parts/sign/actor.tsx'
import { Button } from '../parts/form/button.tsx'
import { Dialog } from '../parts/form/dialog.tsx'
import { TextInput } from '../parts/form/inputs.tsx'
import { RefusalNote } from '../parts/form/notice.tsx'
import { useWhen } from '../parts/frame/when.tsx'
import styles from './card-dialogs.module.css'
import type { PlacedPhoto } from './places.ts'
import type { Card } from './use-card.ts'

/** One photo whose true time is known puts all of its camera right: a photo of the workshop's clock, best of all. */
export function ClockDialog({
  card,
  photos,
  onClose,
}: {
  readonly card: Card
  readonly photos: readonly PlacedPhoto[]
  readonly onClose: () => void
}) {
  const { hostNow } = useActor()
  const when = useWhen()
  const dated = photos.filter(({ camera }) => camera !== null)
  const [sha256, setSha256] = useState(card.reference?.sha256 ?? null)
  const chosen = dated.find((photo) => photo.sha256 === sha256)
  const [date, setDate] = useState(card.reference?.date ?? '')
  const [time, setTime] = useState(card.reference?.time ?? '')
  const [refusal, setRefusal] = useState<Refusal | null>(null)

  const camera = chosen?.camera ?? null
  const isTold = isLocalDate(date) && /^\d{2}:\d{2}(:\d{2})?$/.test(time)
  const found =
    isTold && camera !== null ? clockCorrection({ camera, date, time }, when.zone, hostNow()) : null
  const choose = (photo: PlacedPhoto) => {
    setSha256(photo.sha256)
    // Most clocks are off by minutes: the day is right already.
    if (date === '' && photo.camera !== null) setDate(photo.camera.local.slice(0, 10))
  }
  const correct = async () => {
    if (sha256 === null) return
    const refused = await card.correct({ sha256, date, time })
    setRefusal(refused)
    if (refused === null) onClose()
  }
  return (
    <Dialog title="Put the camera’s clock right" isOpen onClose={onClose} size="wide">
      <div className="form">
        <p className="quiet">
          Choose one photo of which you know when it was taken: best a photo of the workshop’s clock. All
          photos are moved by as much. Bring in one camera at a time.
        </p>
        <fieldset className="field">
          <legend>Which photo</legend>
          <div className={`photo-thumbs ${styles.references}`}>
            {dated.map((photo) => (
              <label key={photo.sha256} className={styles.reference}>
                <input
                  type="radio"
                  name="reference"
                  checked={photo.sha256 === sha256}
                  onChange={() => choose(photo)}
                />
                <img src={photoUrl(photo.sha256, 'thumb')} alt="" loading="lazy" width={320} height={240} />
                <span className="small">{photo.camera === null ? '' : shownWords(photo.camera.local)}</span>
              </label>
            ))}
          </div>
        </fieldset>
        {chosen !== undefined && (
          <div className={styles.truth}>
            <img
              className={styles.large}
              src={photoUrl(chosen.sha256, 'screen')}
              alt="The chosen one, large"
            />
            <div className="stack">
              <p>
                The camera says{' '}
                <span className="strong">{camera === null ? '' : shownWords(camera.local)}</span>. When was it
                really?
              </p>
              <div className="field-row">
                <TextInput label="Day" type="date" max={when.today} value={date} onChange={setDate} />
                <TextInput
                  label="Time"
                  hint="as the workshop’s clock shows it"
                  type="time"
                  value={time}
                  onChange={setTime}
                />
              </div>
              <p role="status" className="strong">
                {found === null
                  ? ' '
                  : found.ok
                    ? correctionWords(found.value)
                    : `${found.refusal.message} ${found.refusal.next}`}
              </p>
            </div>
          </div>
        )}
        <RefusalNote refusal={refusal} />
        <div className="button-row end">
          <Button onClick={onClose}>Cancel</Button>
          <Button kind="main" disabled={found?.ok !== true} onClick={() => void correct()}>
            Move all photos
          </Button>
        </div>
      </div>
    </Dialog>
  )
}

/** 'Tue 24 Nov 2026, 14:32:10', as the camera's clock showed it. */
const shownWords = (shown: string): string => `${dayWords(shown.slice(0, 10), 0)}, ${shown.slice(11)}`
