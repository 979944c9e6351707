import { useEffect, useRef, useState } from 'react'
import type { PhotoServes } from '../../domain/facts/work-facts.ts'
import type { AttachmentId, CarId, CommandId } from '../../domain/ids.ts'
import type { Refusal } from '../../domain/refusal.ts'
import type { PhotoInOutbox } from '../outbox/create-outbox.ts'
import { outbox, useOutbox } from '../outbox/outbox.ts'
import { useActor } from './actor.tsx'
import { Button, WordButton } from './button.tsx'
import { newId } from './new-id.ts'
import { RefusalNote } from './notice.tsx'

/** What a host takes in; some phones name HEIC files by nothing but their ending. */
export const PHOTO_TYPES = 'image/jpeg,image/png,image/webp,image/heic,image/heif,.heic,.heif'

/**
 * Takes photos with the camera or from the gallery, many at once. They are kept on this device at once and sent in the
 * background; leaving the screen does no harm.
 */
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
  const { askPerson } = useActor()
  const camera = useRef<HTMLInputElement>(null)
  const gallery = useRef<HTMLInputElement>(null)
  const [refusal, setRefusal] = useState<Refusal | null>(null)
  const hasCamera = matchMedia('(pointer: coarse)').matches

  const take = async (input: HTMLInputElement) => {
    const files = [...(input.files ?? [])]
    // Chosen again after a removal, the same file must count as a change.
    input.value = ''
    if (files.length === 0) return
    const by = await askPerson()
    if (by === null) return
    const made = new Date().toISOString()
    setRefusal(
      await outbox.addPhotos(
        files.map((file) => ({
          attachmentId: newId<AttachmentId>(),
          commandId: newId<CommandId>(),
          carId,
          by,
          made,
          name: file.name,
          caption,
          serves,
          bytes: file,
        })),
      ),
    )
  }

  return (
    <div className="stack-tight">
      <div className="button-row">
        {hasCamera && (
          <Button kind={kind} onClick={() => camera.current?.click()}>
            {label}
          </Button>
        )}
        <Button kind={hasCamera ? 'plain' : kind} onClick={() => gallery.current?.click()}>
          {hasCamera ? 'From the gallery' : label}
        </Button>
      </div>
      <input
        ref={camera}
        hidden
        type="file"
        accept="image/*"
        capture="environment"
        aria-label={label}
        onChange={(event) => void take(event.currentTarget)}
      />
      <input
        ref={gallery}
        hidden
        type="file"
        accept={PHOTO_TYPES}
        multiple
        aria-label={`${label}, from the gallery`}
        onChange={(event) => void take(event.currentTarget)}
      />
      <RefusalNote refusal={refusal} />
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
  return <img className="photo-preview" src={url} alt="" width={64} height={48} />
}
