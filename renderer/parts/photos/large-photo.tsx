import { useState, type KeyboardEvent, type ReactNode } from 'react'
import type { CarId } from '../../../domain/ids.ts'
import { NO_MARKS } from '../../../domain/photo-marks/photo-marks.ts'
import type { PhotoView } from '../../../domain/views/shared-views.ts'
import { photoUrl } from '../../client.ts'
import { Button } from '../form/button.tsx'
import { Dialog } from '../form/dialog.tsx'
import { isSettled } from '../form/settled.ts'
import { useCommand } from '../form/use-command.ts'
import { onDemand } from '../frame/on-demand.tsx'
import { useWhen } from '../frame/when.tsx'
import { MarkedPhoto } from './marked-photo.tsx'
import { servesWords } from './serves-words.ts'

const MarkDialog = onDemand(async () => (await import('./mark-dialog.tsx')).MarkDialog)

/** One of many photos by itself, with all that is known of it and the way to draw on it. */
export function LargePhoto({
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
              <a
                className="reaching"
                href={photoUrl(photo.sha256, 'original')}
                target="_blank"
                rel="noreferrer"
              >
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
