import { useState, type KeyboardEvent, type ReactNode } from 'react'
import type { PhotoView } from '../../domain/views/shared-views.ts'
import { photoUrl } from '../client.ts'
import { Button } from './button.tsx'
import { Dialog } from './dialog.tsx'
import { useWhen } from './when.tsx'

/** One photo with its caption; a tap shows it large. */
export function Photo({
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
        <img
          src={photoUrl(photo.sha256, 'thumb')}
          alt={words}
          loading="lazy"
          decoding="async"
          width={400}
          height={300}
        />
      </button>
      <figcaption>
        {below ?? (
          <>
            {words}
            <span className="quiet">, {when.day(photo.taken)}</span>
          </>
        )}
      </figcaption>
    </figure>
  )
}

/** Many photos; the arrow keys go from one to the next while one is shown large. */
export function PhotoGrid<P extends PhotoView>({
  photos,
  below,
}: {
  readonly photos: readonly P[]
  /** What stands below each, large ones too, where their captions alone do not say enough. */
  readonly below?: (photo: P) => ReactNode
}) {
  const [open, setOpen] = useState<number | null>(null)
  const shown = open === null ? undefined : photos[open]
  return (
    <>
      <div className="photo-grid">
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
          about={below?.(shown)}
          count={`${open + 1} of ${photos.length}`}
          onStep={(step) => setOpen((open + step + photos.length) % photos.length)}
          onClose={() => setOpen(null)}
        />
      )}
    </>
  )
}

function LargePhoto({
  photo,
  about,
  count,
  onStep,
  onClose,
}: {
  readonly photo: PhotoView
  readonly about: ReactNode
  readonly count: string
  readonly onStep: (step: 1 | -1) => void
  readonly onClose: () => void
}) {
  const when = useWhen()
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.key === 'ArrowRight') onStep(1)
    if (event.key === 'ArrowLeft') onStep(-1)
  }
  return (
    <Dialog title={photo.caption || servesWords(photo)} isOpen onClose={onClose} size="wide">
      {/* oxlint-disable-next-line jsx-a11y/no-static-element-interactions -- the arrow keys repeat the two buttons */}
      <div className="stack" onKeyDown={onKeyDown}>
        <img
          className="photo-large"
          src={photoUrl(photo.sha256, 'screen')}
          alt={photo.caption || servesWords(photo)}
        />
        <div className="spread">
          <div className="small">
            {about}
            <p>
              {when.dayAndTime(photo.taken)}
              {!photo.cameraDated && ' (when it was added: the photo carries no camera date)'}, by {photo.by}
            </p>
            {photo.serves.map((served) => (
              <p key={`${served.repairName}${served.gate}${served.layerId}${served.shows}`} className="quiet">
                {[served.repairName, served.gate, served.shows].filter(Boolean).join(', ')}
              </p>
            ))}
            <a href={photoUrl(photo.sha256, 'original')} target="_blank" rel="noreferrer">
              the original file
            </a>
          </div>
          <div className="button-row">
            <Button onClick={() => onStep(-1)}>Back</Button>
            <span className="small quiet">{count}</span>
            <Button onClick={() => onStep(1)}>Next</Button>
          </div>
        </div>
      </div>
    </Dialog>
  )
}

function servesWords({ serves }: PhotoView): string {
  const first = serves[0]
  if (first === undefined) return 'photo'
  return [first.shows, first.gate, first.repairName].filter(Boolean).join(', ')
}
