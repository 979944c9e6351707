import { useEffect, useState } from 'react'
import type { PhotoServes } from '../../domain/facts/work-facts.ts'
import type { CarId } from '../../domain/ids.ts'
import type { PhotoInOutbox } from '../outbox/board.ts'
import { outbox, useOutbox } from '../outbox/outbox.ts'
import { Button, WordButton } from './button.tsx'
import { RefusalNote } from './notice.tsx'
import { usePhotoInputs } from './use-photo-inputs.tsx'

/** Takes photos with the camera or from the gallery, and shows how far they are on their way. */
export function PhotoPick({
  carId,
  serves,
  caption = '',
  label = 'Take photos',
  kind = 'main',
}: {
  readonly carId: CarId
  readonly serves: readonly PhotoServes[]
  readonly caption?: string
  readonly label?: string
  readonly kind?: 'main' | 'plain'
}) {
  const aim = { serves, caption }
  const photos = usePhotoInputs(carId, undefined, aim)
  return (
    <div className="stack-tight">
      <div className="button-row">
        <Button kind={kind} onClick={() => photos.take(aim)}>
          {label}
        </Button>
        {photos.hasCamera && <Button onClick={() => photos.choose(aim)}>From the gallery</Button>}
      </div>
      {photos.inputs}
      <RefusalNote refusal={photos.refusal} />
      <PhotosOnTheirWay carId={carId} />
    </div>
  )
}

/** The photos of a car that are still on this device: how far each is, or why it was refused. */
export function PhotosOnTheirWay({ carId }: { readonly carId: CarId }) {
  const photos = useOutbox().photos.filter((photo) => photo.carId === carId)
  if (photos.length === 0) return null
  return (
    <ul className="lines">
      {photos.map((photo) => (
        <li key={photo.attachmentId}>
          <OnItsWay photo={photo} />
        </li>
      ))}
    </ul>
  )
}

function OnItsWay({ photo }: { readonly photo: PhotoInOutbox }) {
  return (
    <div className="photo-way">
      <Preview bytes={photo.bytes} />
      <div className="stack-tight">
        <div className="small">{photo.caption || photo.name}</div>
        {photo.state === 'refused' ? (
          <>
            <RefusalNote refusal={photo.refusal} />
            <div className="row">
              <WordButton onClick={() => void outbox.retryPhoto(photo.attachmentId)}>try again</WordButton>
              <WordButton onClick={() => void outbox.dismissPhoto(photo.attachmentId)}>
                leave it out
              </WordButton>
            </div>
          </>
        ) : (
          <>
            <progress className="progress" max={1} value={photo.sent} aria-label={`${photo.name} sent`} />
            <div className="small quiet">
              {photo.state === 'waiting' ? 'waits to be sent' : `${Math.round(photo.sent * 100)} % sent`}
            </div>
          </>
        )}
      </div>
    </div>
  )
}

function Preview({ bytes }: { readonly bytes: Blob }) {
  const [url, setUrl] = useState<string>()
  useEffect(() => {
    const made = URL.createObjectURL(bytes)
    setUrl(made)
    return () => URL.revokeObjectURL(made)
  }, [bytes])
  return (
    <img
      className="photo-preview"
      src={url}
      alt=""
      width={64}
      height={48}
      onError={() => setUrl(undefined)}
    />
  )
}
