import { useEffect, useState, type KeyboardEvent, type ReactNode } from 'react'
import type { CarId } from '../../../domain/ids.ts'
import { NO_MARKS } from '../../../domain/photo-marks/photo-marks.ts'
import type { PhotoView } from '../../../domain/views/shared-views.ts'
import { photoUrl } from '../../client.ts'
import type { OutboxState } from '../../outbox/board.ts'
import { useOutbox } from '../../outbox/outbox.ts'
import { Button } from '../form/button.tsx'
import { Dialog } from '../form/dialog.tsx'
import { MarkedPhoto } from './marked-photo.tsx'
import { onDemand } from '../frame/on-demand.tsx'
import { isSettled } from '../form/settled.ts'
import { useCommand } from '../form/use-command.ts'
import { waitingChange } from '../../outbox/waiting-change.ts'
import { useWhen } from '../frame/when.tsx'

const MarkDialog = onDemand(async () => (await import('./mark-dialog.tsx')).MarkDialog)

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
            {words}
            <span className="quiet">, {when.day(photo.taken)}</span>
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

function LargePhoto({
  photo,
  carId,
  about,
  count,
  onStep,
  onClose,
}: {
  readonly photo: PhotoView
  /** Null where nothing is to be drawn. */
  readonly carId: CarId | null
  readonly about: ReactNode
  readonly count: string
  readonly onStep: (step: 1 | -1) => void
  readonly onClose: () => void
}) {
  const when = useWhen()
  const [isPlain, setIsPlain] = useState(false)
  const [isDrawing, setIsDrawing] = useState(false)
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.key === 'ArrowRight') onStep(1)
    if (event.key === 'ArrowLeft') onStep(-1)
  }
  return (
    <>
      <Dialog title={photo.caption || servesWords(photo)} isOpen onClose={onClose} size="wide">
        {/* oxlint-disable-next-line jsx-a11y/no-static-element-interactions -- the arrow keys repeat the two buttons */}
        <div className="stack" onKeyDown={onKeyDown}>
          <MarkedPhoto
            className="photo-large"
            src={photoUrl(photo.sha256, 'screen')}
            alt={photo.caption || servesWords(photo)}
            marks={isPlain ? NO_MARKS : photo.marks}
            line="large"
            fit="contain"
          />
          <div className="spread">
            <div className="small">
              {about}
              <p>
                {when.dayAndTime(photo.taken)}
                {!photo.cameraDated && ' (when it was added: the photo carries no camera date)'}, by{' '}
                {photo.by}
              </p>
              {photo.serves.map((served) => (
                <p
                  key={`${served.repairName}${served.gate}${served.layerId}${served.shows}`}
                  className="quiet"
                >
                  {[served.repairName, served.gate, served.shows].filter(Boolean).join(', ')}
                </p>
              ))}
              <a href={photoUrl(photo.sha256, 'original')} target="_blank" rel="noreferrer">
                the original file
              </a>
            </div>
            <div className="stack-tight">
              <div className="button-row">
                <Button onClick={() => onStep(-1)}>Back</Button>
                <span className="small quiet">{count}</span>
                <Button onClick={() => onStep(1)}>Next</Button>
              </div>
              <div className="button-row">
                {carId !== null && <Button onClick={() => setIsDrawing(true)}>Draw on it</Button>}
                {photo.marks.length > 0 && (
                  <Button onClick={() => setIsPlain(!isPlain)}>
                    {isPlain ? 'With marks' : 'Without marks'}
                  </Button>
                )}
              </div>
            </div>
          </div>
        </div>
      </Dialog>
      {isDrawing && carId !== null && (
        <PhotoMarking photo={photo} carId={carId} onClose={() => setIsDrawing(false)} />
      )}
    </>
  )
}

/** Draws on a photo that the host has. */
function PhotoMarking({
  photo,
  carId,
  onClose,
}: {
  readonly photo: PhotoView
  readonly carId: CarId
  readonly onClose: () => void
}) {
  const command = useCommand()
  return (
    <MarkDialog
      src={photoUrl(photo.sha256, 'screen')}
      words={photo.caption || servesWords(photo)}
      marks={photo.marks}
      refusal={command.refusal}
      isBusy={command.isBusy}
      onClose={onClose}
      onSave={async (marks) => {
        const payload = { attachmentId: photo.attachmentId, marks }
        if (isSettled(await command.send({ kind: 'markPhoto', carId, payload }))) onClose()
      }}
    />
  )
}

function servesWords({ serves }: PhotoView): string {
  const first = serves[0]
  if (first === undefined) return 'photo'
  return [first.shows, first.gate, first.repairName].filter(Boolean).join(', ')
}
