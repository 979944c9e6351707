import { useEffect, useState, type ReactNode } from 'react'
import type { CarId } from '../../../domain/ids.ts'
import type { PhotoView } from '../../../domain/views/shared-views.ts'
import { photoUrl } from '../../client.ts'
import type { OutboxState } from '../../outbox/board.ts'
import { useOutbox } from '../../outbox/outbox.ts'
import { LargePhoto } from './large-photo.tsx'
import { MarkedPhoto } from './marked-photo.tsx'
import { servesWords } from './serves-words.ts'
import { waitingChange } from '../../outbox/waiting-change.ts'
import { useWhen } from '../frame/when.tsx'

/** One photo with its caption; a tap shows it large. */
function Photo({
  photo,
  below,
  onOpen,
}: {
  readonly photo: PhotoView
  /** What stands below it in place of its caption. */
  readonly below?: ReactNode
  readonly onOpen: () => void
}) {
  const when = useWhen()
  const words = photo.caption || servesWords(photo)
  return (
    <figure className="photo">
      <button type="button" onClick={onOpen}>
        <MarkedPhoto
          src={photoUrl(photo.sha256, 'thumb')}
          alt={words}
          marks={photo.marks}
          loading="lazy"
          decoding="async"
          width={400}
          height={300}
        />
      </button>
      <figcaption>
        {below ?? (
          <>
            {words}, <span className="quiet unbroken">{when.day(photo.taken)}</span>
          </>
        )}
      </figcaption>
    </figure>
  )
}

/** A photo that the address of the screen names, and how it is taken out of there. */
export interface NamedPhoto {
  readonly attachmentId: string
  readonly onClose: () => void
}

/** Many photos; the arrow keys go from one to the next while one is shown large. */
export function PhotoGrid<P extends PhotoView>({
  photos: stored,
  below,
  carId,
  named = null,
}: {
  readonly photos: readonly P[]
  /** The one that the address names is shown large at once. */
  readonly named?: NamedPhoto | null
  /** The car that they are of, so that marks can be drawn on them. */
  readonly carId?: CarId
  /** What stands below each, large ones too, where their captions alone do not say enough. */
  readonly below?: (photo: P) => ReactNode
}) {
  const { commands } = useOutbox()
  const photos = commands.length === 0 ? stored : stored.map((photo) => withWaiting(photo, commands))
  const [open, setOpen] = useState<number | null>(null)
  const shown = open === null ? undefined : photos[open]
  const namedAt = photos.findIndex(({ attachmentId }) => attachmentId === named?.attachmentId)
  useEffect(() => {
    if (namedAt >= 0) setOpen(namedAt)
  }, [namedAt])
  const close = () => {
    setOpen(null)
    if (namedAt >= 0) named?.onClose()
  }
  return (
    <>
      <div className="photo-thumbs photo-grid">
        {photos.map((photo, index) => (
          <Photo
            key={photo.attachmentId}
            photo={photo}
            below={below?.(photo)}
            onOpen={() => setOpen(index)}
          />
        ))}
      </div>
      {shown !== undefined && open !== null && (
        <LargePhoto
          photo={shown}
          carId={carId ?? null}
          about={below?.(shown)}
          count={`${open + 1} of ${photos.length}`}
          onStep={(step) => setOpen((open + step + photos.length) % photos.length)}
          onClose={close}
        />
      )}
    </>
  )
}

/** A photo with the caption and the marks that are on their way to the host. */
function withWaiting<P extends PhotoView>(photo: P, commands: OutboxState['commands']): P {
  const { serves: _, ...said } = waitingChange(commands, photo.attachmentId)
  return { ...photo, ...said }
}
