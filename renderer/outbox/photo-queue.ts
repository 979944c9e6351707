import type { Command } from '../../domain/commands/command-shapes.ts'
import type { AttachmentId } from '../../domain/ids.ts'
import type { Refusal } from '../../domain/refusal.ts'
import { plural } from '../../domain/text/words.ts'
import type { StoredPhoto, UploadAnswer } from '../client.ts'
import { FRESH_MS, type CommandPorts } from './command-queue.ts'
import type { Kept, KeptPhoto } from './kept.ts'
import { brokenAnswer, cannotKeep } from './outcome.ts'
import { singleFlight } from './single-flight.ts'

export interface PhotoPorts extends Pick<
  CommandPorts,
  'post' | 'isAway' | 'onAccepted' | 'refusalOf' | 'hostNow' | 'tell' | 'alone'
> {
  readonly kept: Pick<Kept, 'nextPhoto' | 'putPhoto' | 'changePhoto' | 'photoSent'>
  readonly upload: (photo: Blob, onProgress: (share: number) => void) => Promise<UploadAnswer>
  /** Told how far a photo is, 0 to 1; null when it is no longer being sent. */
  readonly onProgress: (id: AttachmentId, share: number | null) => void
  /** Told of a photo that was taken a moment ago and is attached now. */
  readonly onDone?: (command: Command, numbers: readonly number[]) => void
  /** Told of a photo that the host has taken in; `shown` settles once the screens show it. */
  readonly onSent: (photo: KeptPhoto, shown: Promise<void>) => void
  readonly onRefused: (id: AttachmentId, refusal: Refusal) => Promise<void>
  /** Makes room by what was sent already; false when nothing was left to go. */
  readonly makeRoom: () => Promise<boolean>
}

export type NewPhoto = Omit<KeptPhoto, 'refusal' | 'stated' | 'told'>

export interface PhotoQueue {
  /** Null when all are kept. */
  readonly add: (photos: readonly NewPhoto[]) => Promise<Refusal | null>
  /** Sends what is kept, in order; false when the host is away. Rejects when this device's store cannot be read. */
  readonly flush: () => Promise<boolean>
}

/** Photos are kept with their bytes, sent, attached by a command of their own, and only then no longer waiting. */
export function createPhotoQueue(ports: PhotoPorts): PhotoQueue {
  const { kept } = ports
  const alone = ports.alone ?? ((_turn, run) => run())
  const entered = new Map<AttachmentId, number>()
  const isFresh = (id: AttachmentId): boolean => Date.now() - (entered.get(id) ?? 0) < FRESH_MS
  const sendWaiting = async (): Promise<boolean> => {
    for (let next = await kept.nextPhoto(); next !== undefined; next = await kept.nextPhoto()) {
      if ((await sendOnce(ports, next, isFresh)) === 'away') return false
    }
    return true
  }
  return {
    add: async (photos) => {
      let added = 0
      try {
        for (const photo of photos) {
          await putWithRoom(ports, newlyKept(photo, ports))
          entered.set(photo.attachmentId, Date.now())
          added += 1
        }
        return null
      } catch (error) {
        return added === 0 ? cannotKeep(error) : onlySome(added, photos.length, cannotKeep(error))
      }
    },
    flush: singleFlight(() => alone('photos', sendWaiting)),
  }
}

function newlyKept(photo: NewPhoto, { hostNow, tell }: PhotoPorts): KeptPhoto {
  const stated = hostNow?.() ?? new Date().toISOString()
  const told = tell?.(attachCommand(photo, { sha256: '', taken: null }, stated)) ?? null
  return { ...photo, stated, told, refusal: null }
}

async function putWithRoom({ kept, makeRoom }: PhotoPorts, photo: KeptPhoto): Promise<void> {
  try {
    await kept.putPhoto(photo)
  } catch (error) {
    if (!(await makeRoom())) throw error
    await kept.putPhoto(photo)
  }
}

const onlySome = (added: number, wanted: number, { code, message, next }: Refusal): Refusal => ({
  code,
  message: `${added} of ${plural('photo', wanted)} kept, the rest not. ${message}`,
  next,
})

type IsFresh = (id: AttachmentId) => boolean

async function sendOnce(ports: PhotoPorts, photo: KeptPhoto, isFresh: IsFresh): Promise<'answered' | 'away'> {
  const { attachmentId } = photo
  try {
    const refusal = await uploadAndAttach(ports, photo, isFresh)
    if (refusal !== null) await refuse(ports, attachmentId, refusal)
    return 'answered'
  } catch (error) {
    if (ports.isAway(error)) return 'away'
    await refuse(ports, attachmentId, ports.refusalOf?.(error) ?? brokenAnswer(error))
    return 'answered'
  } finally {
    ports.onProgress(attachmentId, null)
  }
}

async function refuse({ kept, onRefused }: PhotoPorts, id: AttachmentId, refusal: Refusal): Promise<void> {
  await kept.changePhoto(id, { refusal })
  await onRefused(id, refusal)
}

async function uploadAndAttach(
  ports: PhotoPorts,
  photo: KeptPhoto,
  isFresh: IsFresh,
): Promise<Refusal | null> {
  const { attachmentId } = photo
  const show = (share: number) => ports.onProgress(attachmentId, share)
  show(0)
  const stored = await ports.upload(photo.bytes, show)
  if (!stored.ok) return stored.refusal
  // Its caption may have been changed while it was on its way.
  const latest = (await ports.kept.changePhoto(attachmentId, {})) ?? photo
  const command = attachCommand(latest, stored.value, isFresh(attachmentId) ? null : latest.stated)
  const answer = await ports.post(command)
  if (!answer.ok) return answer.refusal
  await ports.kept.photoSent(attachmentId, { number: answer.revision, at: Date.now() })
  ports.onSent(latest, ports.onAccepted(command))
  if (command.happened === null) ports.onDone?.(command, answer.numbers)
  return null
}

function attachCommand(
  photo: NewPhoto,
  { sha256, taken }: Pick<StoredPhoto, 'sha256' | 'taken'>,
  happened: string | null,
): Command {
  const { attachmentId, caption, serves } = photo
  return {
    id: photo.commandId,
    kind: 'attachPhoto',
    carId: photo.carId,
    seen: null,
    by: photo.by,
    code: null,
    second: null,
    happened,
    made: photo.made,
    payload: { attachmentId, sha256, taken, caption, serves },
  }
}
