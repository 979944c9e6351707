import type { Command } from '../../domain/commands/command-shapes.ts'
import type { AttachmentId } from '../../domain/ids.ts'
import type { Refusal } from '../../domain/refusal.ts'
import type { UploadAnswer } from '../client.ts'
import type { CommandPorts } from './command-queue.ts'
import type { Kept, KeptPhoto } from './kept.ts'
import { brokenAnswer, cannotKeep } from './outcome.ts'
import { singleFlight } from './single-flight.ts'

export interface PhotoPorts extends Pick<CommandPorts, 'post' | 'isAway' | 'onAccepted'> {
  readonly kept: Pick<Kept, 'photos' | 'putPhoto' | 'dropPhoto'>
  readonly upload: (photo: Blob, onProgress: (share: number) => void) => Promise<UploadAnswer>
  /** Told how far a photo is, 0 to 1; null when it is no longer being sent. */
  readonly onProgress: (id: AttachmentId, share: number | null) => void
}

export type NewPhoto = Omit<KeptPhoto, 'refusal'>

export interface PhotoQueue {
  /** Null when all are kept. */
  readonly add: (photos: readonly NewPhoto[]) => Promise<Refusal | null>
  /** Sends what is kept, in order; false when the host is away. Rejects when this device's store cannot be read. */
  readonly flush: () => Promise<boolean>
  readonly retry: (id: AttachmentId) => Promise<void>
}

/** Photos are kept with their bytes, sent, attached by a command of their own, and only then dropped. */
export function createPhotoQueue(ports: PhotoPorts): PhotoQueue {
  const { kept } = ports
  return {
    add: async (photos) => {
      try {
        for (const photo of photos) await kept.putPhoto({ ...photo, refusal: null })
        return null
      } catch (error) {
        return cannotKeep(error)
      }
    },
    flush: singleFlight(async () => {
      for (let next = await firstWaiting(kept); next !== undefined; next = await firstWaiting(kept)) {
        if ((await sendOnce(ports, next)) === 'away') return false
      }
      return true
    }),
    retry: async (id) => {
      const photo = (await kept.photos()).find((each) => each.attachmentId === id)
      if (photo !== undefined) await kept.putPhoto({ ...photo, refusal: null })
    },
  }
}

async function sendOnce(ports: PhotoPorts, photo: KeptPhoto): Promise<'answered' | 'away'> {
  const { kept, onProgress } = ports
  const { attachmentId } = photo
  try {
    const refusal = await uploadAndAttach(ports, photo)
    if (refusal === null) await kept.dropPhoto(attachmentId)
    else await kept.putPhoto({ ...photo, refusal })
    return 'answered'
  } catch (error) {
    if (ports.isAway(error)) return 'away'
    await kept.putPhoto({ ...photo, refusal: brokenAnswer(error) })
    return 'answered'
  } finally {
    onProgress(attachmentId, null)
  }
}

async function uploadAndAttach(ports: PhotoPorts, photo: KeptPhoto): Promise<Refusal | null> {
  const show = (share: number) => ports.onProgress(photo.attachmentId, share)
  show(0)
  const stored = await ports.upload(photo.bytes, show)
  if (!stored.ok) return stored.refusal
  const command = attachCommand(photo, stored.value.sha256, stored.value.taken)
  const answer = await ports.post(command)
  if (!answer.ok) return answer.refusal
  ports.onAccepted(command)
  return null
}

async function firstWaiting(kept: PhotoPorts['kept']): Promise<KeptPhoto | undefined> {
  return (await kept.photos()).find(({ refusal }) => refusal === null)
}

function attachCommand(photo: KeptPhoto, sha256: string, taken: string | null): Command {
  const { attachmentId, caption, serves } = photo
  return {
    id: photo.commandId,
    kind: 'attachPhoto',
    carId: photo.carId,
    seen: null,
    by: photo.by,
    code: null,
    second: null,
    happened: null,
    made: photo.made,
    payload: { attachmentId, sha256, taken, caption, serves },
  }
}
