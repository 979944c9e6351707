import type { Refusal } from '../../domain/refusal.ts'

export interface SendPorts {
  readonly send: (photo: Blob) => Promise<SentAnswer>
  /** True for the errors of `send` that mean: no answer came. */
  readonly isAway: (error: unknown) => boolean
  /** Resolves when it is worth trying again. */
  readonly pause: () => Promise<void>
  readonly isStopped: () => boolean
  readonly onAnswer: (file: File, answer: SentAnswer) => void
  readonly onAway: (away: boolean) => void
}

export type SentAnswer =
  | { readonly ok: true; readonly sha256: string }
  | { readonly ok: false; readonly refusal: Refusal }

/** Two at a time keep the line busy while the host looks into a photo. */
const AT_A_TIME = 2

/** Sends photos in their order until all are answered or it is stopped; waits out a host that is away. */
export async function sendPhotos(files: readonly File[], ports: SendPorts): Promise<void> {
  const waiting = files.values()
  const sendOnOneLine = async () => {
    for (const file of waiting) {
      const answer = await sendOne(file, ports)
      if (answer === null) return
      ports.onAnswer(file, answer)
    }
  }
  await Promise.all(Array.from({ length: AT_A_TIME }, sendOnOneLine))
}

/** Null when it was stopped before an answer came. */
async function sendOne(file: File, ports: SendPorts): Promise<SentAnswer | null> {
  while (!ports.isStopped()) {
    try {
      const answer = await ports.send(file)
      ports.onAway(false)
      return answer
    } catch (error) {
      if (!ports.isAway(error)) return { ok: false, refusal: cannotRead }
      // A file that was taken away with its card looks like a host that is away.
      if (!(await isReadable(file))) return { ok: false, refusal: cannotRead }
      ports.onAway(true)
      await ports.pause()
    }
  }
  return null
}

async function isReadable(file: File): Promise<boolean> {
  try {
    await file.slice(0, 1).arrayBuffer()
    return true
  } catch {
    return false
  }
}

const cannotRead: Refusal = {
  code: 'photo',
  message: 'This file could not be read.',
  next: 'Check that the card is still in, and choose the photos again.',
}
