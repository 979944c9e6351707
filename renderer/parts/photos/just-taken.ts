import type { PhotoServes } from '../../../domain/facts/work-facts.ts'
import type { AttachmentId, CarId } from '../../../domain/ids.ts'
import { NO_MARKS, type PhotoMarks } from '../../../domain/photo-marks/photo-marks.ts'
import { createFollowed, useFollowed } from '../../followed.ts'
import type { KeptCommand } from '../../outbox/kept.ts'
import type { PhotoInOutbox } from '../../outbox/board.ts'
import { useOutbox } from '../../outbox/outbox.ts'
import { type PhotoChange, waitingChange } from '../../outbox/waiting-change.ts'

/** A photo that was taken on this device a moment ago, as the person has it in mind: sent or not. */
export interface TakenPhoto {
  readonly attachmentId: AttachmentId
  readonly carId: CarId
  readonly name: string
  readonly bytes: Blob
  readonly serves: readonly PhotoServes[]
  readonly caption: string
  readonly marks: PhotoMarks
}

const photos = createFollowed<readonly TakenPhoto[]>([])

/** Photos of this page's life, so that captions and marks can follow at leisure; gone with the page or when put away. */
export const justTaken = {
  add: (added: readonly Omit<TakenPhoto, 'marks'>[]) =>
    photos.set([...photos.now(), ...added.map((photo) => ({ ...photo, marks: NO_MARKS }))]),
  change: (id: AttachmentId, change: PhotoChange) =>
    photos.set(photos.now().map((photo) => (photo.attachmentId === id ? { ...photo, ...change } : photo))),
  putAway: (ids: readonly AttachmentId[]) =>
    photos.set(photos.now().filter(({ attachmentId }) => !ids.includes(attachmentId))),
}

export interface StripPhoto extends TakenPhoto {
  /** Null once the host has it. */
  readonly way: PhotoInOutbox | null
}

/** Photos of a car that were just taken, and those that an earlier visit to this page has left in the outbox. */
export function useTakenPhotos(carId: CarId): readonly StripPhoto[] {
  const isOf = (photo: { readonly carId: CarId }) => photo.carId === carId
  const taken = useFollowed(photos).filter(isOf)
  const { photos: sending, commands } = useOutbox()
  const ways = new Map(sending.map((way) => [way.attachmentId, way]))
  const known = new Set(taken.map(({ attachmentId }) => attachmentId))
  return [
    ...sending
      .filter((way) => isOf(way) && !known.has(way.attachmentId))
      .map((way) => ({ ...withWaiting(way, commands), way })),
    ...taken.map((photo) => ({ ...photo, way: ways.get(photo.attachmentId) ?? null })),
  ]
}

/** A photo with what waits behind it to be said of it. */
function withWaiting(
  { attachmentId, carId, name, bytes, serves, caption }: PhotoInOutbox,
  commands: readonly KeptCommand[],
): TakenPhoto {
  const photo: TakenPhoto = { attachmentId, carId, name, bytes, serves, caption, marks: NO_MARKS }
  return { ...photo, ...waitingChange(commands, attachmentId) }
}
