import { useState } from 'react'
import type { AttachmentId, CarId, RepairId } from '../../../domain/ids.ts'
import { marksWords } from '../../../domain/photo-marks/marks-words.ts'
import { plural } from '../../../domain/text/words.ts'
import { outbox } from '../../outbox/outbox.ts'
import { WordButton } from '../form/button.tsx'
import { justTaken, type StripPhoto, useTakenPhotos } from './just-taken.ts'
import { MarkedPhoto } from './marked-photo.tsx'
import { RefusalNote } from '../form/notice.tsx'
import { SayOfPhoto } from './say-of-photo.tsx'
import type { ShownRepair } from './shown-words.ts'
import { useBlobUrl } from './use-blob-url.ts'
import styles from './taken-strip.module.css'

/**
 * The photos that were just taken or still wait on this device: how far each is, and what is to be said of it. Nothing
 * has to be said.
 */
export function TakenStrip({
  carId,
  repair = null,
}: {
  readonly carId: CarId
  /** The repair that one stands at: only its photos are shown. */
  readonly repair?: ShownRepair | null
}) {
  const all = useTakenPhotos(carId)
  const photos = repair === null ? all : all.filter((photo) => isOf(photo, repair.repairId))
  const [picked, setPicked] = useState<Picked | null>(null)
  const last = photos.at(-1)
  if (last === undefined) return null
  const chosen =
    photos.find(({ attachmentId }) => picked?.last === last.attachmentId && attachmentId === picked.id) ??
    last
  const refused = photos.filter(({ way }) => way?.state === 'refused')
  return (
    <section className={styles.strip} aria-label="Photos just taken">
      <div className="spread">
        <span className="small strong">{headOf(photos)}</span>
        {photos.some(({ way }) => way === null) && (
          <WordButton
            className="small"
            onClick={() => justTaken.putAway(photos.map(({ attachmentId }) => attachmentId))}
          >
            put away
          </WordButton>
        )}
      </div>
      <ul className={styles.tiles}>
        {photos.map((photo, index) => (
          <li key={photo.attachmentId}>
            <Tile
              photo={photo}
              words={`Photo ${index + 1} of ${photos.length}`}
              isChosen={photo === chosen}
              onChoose={() => setPicked({ id: photo.attachmentId, last: last.attachmentId })}
            />
          </li>
        ))}
      </ul>
      <SayOfPhoto key={chosen.attachmentId} photo={chosen} all={photos} repair={repair} />
      {refused.length > 0 && (
        <ul className="lines">
          {refused.map((photo) => (
            <li key={photo.attachmentId}>
              <RefusedPhoto photo={photo} />
            </li>
          ))}
        </ul>
      )}
    </section>
  )
}

/** Until the next photo is taken: then that one is looked at. */
interface Picked {
  readonly id: AttachmentId
  readonly last: AttachmentId
}

const isOf = ({ serves }: StripPhoto, repairId: RepairId): boolean =>
  serves.some((each) => each.what === 'gate' && each.repairId === repairId)

function headOf(photos: readonly StripPhoto[]): string {
  const waiting = photos.filter(({ way }) => way?.state === 'waiting' || way?.state === 'sending').length
  const taken = `${plural('photo', photos.length)} just taken`
  return waiting === 0 ? taken : `${taken}, ${waiting} ${waiting === 1 ? 'waits' : 'wait'} to be sent`
}

function Tile({
  photo,
  words,
  isChosen,
  onChoose,
}: {
  readonly photo: StripPhoto
  readonly words: string
  readonly isChosen: boolean
  readonly onChoose: () => void
}) {
  const url = useBlobUrl(photo.bytes)
  const [isUnseen, setIsUnseen] = useState(false)
  const { way } = photo
  return (
    <button
      type="button"
      className={styles.tile}
      aria-pressed={isChosen}
      aria-label={[words, photo.caption, marksWords(photo.marks), wayWords(photo)].filter(Boolean).join(', ')}
      onClick={onChoose}
    >
      {url === undefined || isUnseen ? (
        <span className={styles.unseen}>no preview</span>
      ) : (
        <MarkedPhoto
          src={url}
          alt=""
          marks={photo.marks}
          loading="lazy"
          decoding="async"
          onError={() => setIsUnseen(true)}
        />
      )}
      <span className={styles.way} data-way={way?.state ?? 'sent'}>
        {SHORT_WAYS[way?.state ?? 'sent'] ?? `${Math.round((way?.sent ?? 0) * 100)} %`}
      </span>
    </button>
  )
}

const SHORT_WAYS: Readonly<Record<string, string>> = { sent: 'sent', waiting: 'waits', refused: 'refused' }

/** 'waits to be sent' */
function wayWords({ way }: StripPhoto): string {
  if (way === null) return 'sent'
  switch (way.state) {
    case 'waiting':
      return 'waits to be sent'
    case 'sending':
      return `${Math.round(way.sent * 100)} % sent`
    case 'refused':
      return 'not taken in'
  }
}

/** What was said of it waits with it, and is tried again or put aside with it. */
function RefusedPhoto({
  photo: { attachmentId, name, caption, marks, way },
}: {
  readonly photo: StripPhoto
}) {
  if (way === null) return null
  const said = [caption === '' ? '' : `its caption ‘${caption}’`, marks.length === 0 ? '' : `its marks`]
    .filter(Boolean)
    .join(' and ')
  return (
    <div className="stack-tight">
      <p className="small">
        {name} was not taken in{said !== '' && `; ${said} wait with it`}.
      </p>
      <RefusalNote refusal={way.refusal} />
      <div className="row">
        <WordButton onClick={() => void outbox.retryPhoto(attachmentId)}>try again</WordButton>
        <WordButton
          onClick={() => {
            justTaken.putAway([attachmentId])
            void outbox.dismissPhoto(attachmentId)
          }}
        >
          leave it out
        </WordButton>
      </div>
    </div>
  )
}
