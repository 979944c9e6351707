import type { Command } from '../../domain/commands/command-shapes.ts'
import type { AttachmentId, CommandId } from '../../domain/ids.ts'
import type { Refusal } from '../../domain/refusal.ts'
import type { UploadAnswer } from '../client.ts'
import type { Kept, KeptCommand, KeptPhoto } from './kept.ts'

/** What became of a command. */
export type Outcome =
  | { readonly is: 'done'; readonly revision: number; readonly numbers: readonly number[] }
  | { readonly is: 'refused'; readonly refusal: Refusal }
  /** The host cannot be reached: the command stays on this device and goes out as soon as it can. */
  | { readonly is: 'kept' }
  | { readonly is: 'cancelled' }

export type CommandAnswer =
  | { readonly ok: true; readonly revision: number; readonly numbers: readonly number[] }
  | { readonly ok: false; readonly refusal: Refusal }

export interface OutboxPorts {
  readonly kept: Kept
  readonly post: (command: Command) => Promise<CommandAnswer>
  readonly upload: (photo: Blob, onProgress: (share: number) => void) => Promise<UploadAnswer>
  /** True for the errors of `post` and `upload` that mean: no answer came. */
  readonly isAway: (error: unknown) => boolean
  /** Called after each accepted command, so that screens read again. */
  readonly onAccepted: (command: Command) => void
}

export type NewPhoto = Omit<KeptPhoto, 'refusal'>

export interface PhotoInOutbox extends Omit<KeptPhoto, 'bytes'> {
  readonly bytes: Blob
  readonly state: 'waiting' | 'sending' | 'refused'
  /** Share sent, 0 to 1. */
  readonly sent: number
}

export interface OutboxState {
  /** The host did not answer the last time. */
  readonly away: boolean
  readonly waiting: number
  readonly refused: readonly { readonly command: Command; readonly refusal: Refusal }[]
  readonly photos: readonly PhotoInOutbox[]
}

export interface Outbox {
  readonly send: (command: Command) => Promise<Outcome>
  readonly addPhotos: (photos: readonly NewPhoto[]) => Promise<Refusal | null>
  /** Sends what is kept; call it at the start and whenever the host may be back. */
  readonly flush: () => Promise<void>
  readonly retryPhoto: (id: AttachmentId) => Promise<void>
  readonly dismissCommand: (id: CommandId) => Promise<void>
  readonly dismissPhoto: (id: AttachmentId) => Promise<void>
  readonly subscribe: (listener: () => void) => () => void
  readonly state: () => OutboxState
}

/**
 * The way of every command from this device: kept first, then sent in order, dropped only when answered. What carries a
 * code is never kept: it waits in memory, and is given back as not sent when the host is away.
 */
export function createOutbox(ports: OutboxPorts): Outbox {
  const { kept } = ports
  const signed: Command[] = []
  const waiters = new Map<CommandId, (outcome: Outcome) => void>()
  const progress = new Map<AttachmentId, number>()
  const listeners = new Set<() => void>()
  let state: OutboxState = { away: false, waiting: 0, refused: [], photos: [] }

  const tell = (change: Partial<OutboxState>) => {
    state = { ...state, ...change }
    for (const listener of listeners) listener()
  }
  const refresh = async (change: Partial<OutboxState> = {}) => {
    const [commands, photos] = await Promise.all([kept.commands(), kept.photos()])
    tell({
      ...change,
      waiting: commands.filter((each) => each.refusal === null).length,
      refused: commands.flatMap(refusedOnly),
      photos: photos.map((photo) => photoState(photo, progress.get(photo.attachmentId))),
    })
  }

  const answered = async (command: Command, outcome: Outcome) => {
    const waiter = waiters.get(command.id)
    waiters.delete(command.id)
    if (outcome.is === 'done') ports.onAccepted(command)
    if (!isSigned(command)) {
      if (outcome.is === 'refused' && waiter === undefined) {
        await kept.putCommand({ command, refusal: outcome.refusal })
      } else await kept.dropCommand(command.id)
    }
    waiter?.(outcome)
  }

  const giveUpForNow = () => {
    signed.length = 0
    for (const [id, waiter] of waiters) {
      waiter(unsigned.has(id) ? { is: 'kept' } : { is: 'refused', refusal: notSigned })
    }
    waiters.clear()
  }
  const unsigned = new Set<CommandId>()

  const nextCommand = async (): Promise<Command | undefined> => {
    const waiting = (await kept.commands()).find((each) => each.refusal === null)
    return waiting?.command ?? signed.shift()
  }

  /** False when the host is away. */
  const sendCommands = async (): Promise<boolean> => {
    for (let command = await nextCommand(); command !== undefined; command = await nextCommand()) {
      try {
        await answered(command, answerToOutcome(await ports.post(command)))
      } catch (error) {
        if (!ports.isAway(error)) await answered(command, { is: 'refused', refusal: brokenAnswer(error) })
        else {
          giveUpForNow()
          return false
        }
      }
      unsigned.delete(command.id)
    }
    return true
  }

  const sendPhoto = async (photo: KeptPhoto): Promise<void> => {
    const show = (share: number) => {
      progress.set(photo.attachmentId, share)
      tell({
        photos: state.photos.map((each) =>
          each.attachmentId === photo.attachmentId ? { ...each, state: 'sending', sent: share } : each,
        ),
      })
    }
    show(0)
    const stored = await ports.upload(photo.bytes, show)
    if (!stored.ok) return kept.putPhoto({ ...photo, refusal: stored.refusal })
    const command = attachCommand(photo, stored.value.sha256, stored.value.taken)
    const answer = await ports.post(command)
    if (!answer.ok) return kept.putPhoto({ ...photo, refusal: answer.refusal })
    ports.onAccepted(command)
    await kept.dropPhoto(photo.attachmentId)
  }

  /** False when the host is away. */
  const sendPhotos = async (): Promise<boolean> => {
    const next = async () => (await kept.photos()).find((photo) => photo.refusal === null)
    for (let photo = await next(); photo !== undefined; photo = await next()) {
      try {
        await sendPhoto(photo)
      } catch (error) {
        if (ports.isAway(error)) return false
        await kept.putPhoto({ ...photo, refusal: brokenAnswer(error) })
      } finally {
        progress.delete(photo.attachmentId)
      }
      await refresh()
    }
    return true
  }

  const commandRun = singleFlight(sendCommands)
  const photoRun = singleFlight(sendPhotos)
  const flush = async () => {
    const reached = await Promise.all([commandRun(), photoRun()])
    await refresh({ away: reached.includes(false) })
  }

  return {
    send: async (command) => {
      try {
        if (isSigned(command)) signed.push(command)
        else {
          await kept.putCommand({ command, refusal: null })
          unsigned.add(command.id)
        }
      } catch (error) {
        return { is: 'refused', refusal: cannotKeep(error) }
      }
      const outcome = new Promise<Outcome>((resolve) => waiters.set(command.id, resolve))
      const reached = await commandRun()
      await refresh({ away: !reached })
      return outcome
    },
    addPhotos: async (photos) => {
      try {
        for (const photo of photos) await kept.putPhoto({ ...photo, refusal: null })
      } catch (error) {
        return cannotKeep(error)
      }
      await refresh()
      void flush()
      return null
    },
    flush,
    retryPhoto: async (id) => {
      const photo = (await kept.photos()).find((each) => each.attachmentId === id)
      if (photo === undefined) return
      await kept.putPhoto({ ...photo, refusal: null })
      await refresh()
      await flush()
    },
    dismissCommand: async (id) => {
      await kept.dropCommand(id)
      await refresh()
    },
    dismissPhoto: async (id) => {
      await kept.dropPhoto(id)
      await refresh()
    },
    subscribe: (listener) => {
      listeners.add(listener)
      return () => listeners.delete(listener)
    },
    state: () => state,
  }
}

const isSigned = (command: Command): boolean => command.code !== null || command.second !== null

/** One run at a time; a call during a run gets a run of its own after it, shared with the other callers that wait. */
function singleFlight(run: () => Promise<boolean>): () => Promise<boolean> {
  let running: Promise<boolean> | null = null
  let next: Promise<boolean> | null = null
  const start = () => {
    running = run().finally(() => {
      running = null
    })
    return running
  }
  return () => {
    if (running === null) return start()
    next ??= running.then(() => {
      next = null
      return start()
    })
    return next
  }
}

const refusedOnly = ({ command, refusal }: KeptCommand) => (refusal === null ? [] : [{ command, refusal }])

function photoState(photo: KeptPhoto, sent: number | undefined): PhotoInOutbox {
  const state = photo.refusal !== null ? 'refused' : sent === undefined ? 'waiting' : 'sending'
  return { ...photo, state, sent: sent ?? 0 }
}

function answerToOutcome(answer: CommandAnswer): Outcome {
  return answer.ok
    ? { is: 'done', revision: answer.revision, numbers: answer.numbers }
    : { is: 'refused', refusal: answer.refusal }
}

function attachCommand(photo: KeptPhoto, sha256: string, taken: string | null): Command {
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
    payload: {
      attachmentId: photo.attachmentId,
      sha256,
      taken,
      caption: photo.caption,
      serves: photo.serves,
    },
  }
}

const notSigned: Refusal = {
  code: 'not-now',
  message: 'The host cannot be reached, so this may not have been signed.',
  next: 'No code is kept on this device: sign again when the connection is back. Signing twice does no harm.',
}

const brokenAnswer = (error: unknown): Refusal => ({
  code: 'storage',
  message: `The host gave an answer that this screen does not understand${error instanceof Error ? `: ${error.message}` : '.'}`,
  next: 'Reload the page and try again; if it stays so, look at the window where Panelwright was started.',
})

const cannotKeep = (error: unknown): Refusal => ({
  code: 'storage',
  message: `This device cannot keep what you enter${error instanceof Error ? ` (${error.message})` : ''}.`,
  next: 'Free some space on it, or allow this address to store data, and try again.',
})
