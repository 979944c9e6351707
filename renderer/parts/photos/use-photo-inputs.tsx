import { useRef, useState, type ReactNode } from 'react'
import type { PhotoServes } from '../../../domain/facts/work-facts.ts'
import type { AttachmentId, CarId, CommandId } from '../../../domain/ids.ts'
import type { Refusal } from '../../../domain/refusal.ts'
import { outbox } from '../../outbox/outbox.ts'
import { useActor } from '../sign/actor.tsx'
import { justTaken } from './just-taken.ts'
import { newId } from '../form/new-id.ts'

/** What a host takes in; some phones name HEIC files by nothing but their ending. */
export const PHOTO_TYPES = 'image/jpeg,image/png,image/webp,image/heic,image/heif,.heic,.heif'

/** What the photos that are about to be chosen will show. */
export interface PhotoAim {
  readonly serves: readonly PhotoServes[]
  readonly caption: string
}

/** The same where photos of several cars are taken. */
export interface CarPhotoAim extends PhotoAim {
  readonly carId: CarId
}

export interface PhotoInputs<Aim extends PhotoAim = PhotoAim> {
  /** The device has a camera to take photos with; else only files can be chosen. */
  readonly hasCamera: boolean
  /** Opens the camera where there is one, else the choice of files. */
  readonly take: (aim: Aim) => void
  readonly choose: (aim: Aim) => void
  /** Put this anywhere into the page. */
  readonly inputs: ReactNode
  readonly refusal: Refusal | null
}

/** Photos of one car, from the camera or from files. */
export function usePhotoInputs(
  carId: CarId,
  onTaken?: (ids: readonly AttachmentId[]) => void,
  /** What photos show that come in without a button, as by a file that is dropped on the input. */
  usual: PhotoAim = OF_THE_CAR,
): PhotoInputs {
  const { take, choose, ...inputs } = usePhotoInputsOfCars(onTaken, { ...usual, carId })
  return {
    ...inputs,
    take: (aim) => take({ ...aim, carId }),
    choose: (aim) => choose({ ...aim, carId }),
  }
}

/**
 * Photos from the camera or from files, many at once. They are kept on this device at once and sent in the background;
 * leaving the screen does no harm.
 */
export function usePhotoInputsOfCars(
  onTaken?: (ids: readonly AttachmentId[]) => void,
  usual: CarPhotoAim | null = null,
): PhotoInputs<CarPhotoAim> {
  const { askPerson } = useActor()
  const camera = useRef<HTMLInputElement>(null)
  const files = useRef<HTMLInputElement>(null)
  const aimed = useRef<CarPhotoAim | null>(null)
  const [refusal, setRefusal] = useState<Refusal | null>(null)
  const hasCamera = matchMedia('(pointer: coarse)').matches

  const keep = async (input: HTMLInputElement) => {
    const chosen = [...(input.files ?? [])]
    // Chosen again after a removal, the same file must count as a change.
    input.value = ''
    const aim = aimed.current ?? usual
    if (chosen.length === 0 || aim === null) return
    const by = await askPerson()
    if (by === null) return
    const made = new Date().toISOString()
    const photos = chosen.map((file) => ({
      attachmentId: newId<AttachmentId>(),
      commandId: newId<CommandId>(),
      by,
      made,
      name: file.name,
      ...aim,
      bytes: file,
    }))
    const refused = await outbox.addPhotos(photos)
    setRefusal(refused)
    if (refused !== null) return
    justTaken.add(photos)
    onTaken?.(photos.map((photo) => photo.attachmentId))
  }
  const open = (input: HTMLInputElement | null, aim: CarPhotoAim) => {
    aimed.current = aim
    input?.click()
  }

  return {
    hasCamera,
    take: (aim) => open(hasCamera ? camera.current : files.current, aim),
    choose: (aim) => open(files.current, aim),
    refusal,
    inputs: (
      <>
        <input
          ref={camera}
          hidden
          type="file"
          accept="image/*"
          capture="environment"
          aria-label="Photo from the camera"
          onChange={(event) => void keep(event.currentTarget)}
        />
        <input
          ref={files}
          hidden
          type="file"
          accept={PHOTO_TYPES}
          multiple
          aria-label="Photos from files"
          onChange={(event) => void keep(event.currentTarget)}
        />
      </>
    ),
  }
}

const OF_THE_CAR: PhotoAim = { serves: [{ what: 'car' }], caption: '' }
