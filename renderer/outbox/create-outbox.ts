import type { Command } from '../../domain/commands/command-shapes.ts'
import type { AttachmentId, CommandId } from '../../domain/ids.ts'
import type { Refusal } from '../../domain/refusal.ts'
import { createCommandQueue, type CommandPorts } from './command-queue.ts'
import type { Kept, KeptCommand, KeptPhoto } from './kept.ts'
import { cannotKeep, type Outcome } from './outcome.ts'
import { createPhotoQueue, type NewPhoto, type PhotoPorts } from './photo-queue.ts'

export interface OutboxPorts extends Omit<CommandPorts, 'kept'>, Pick<PhotoPorts, 'upload'> {
  readonly kept: Kept
}

export interface PhotoInOutbox extends KeptPhoto {
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
  /** Why this device can keep nothing; null when it can. */
  readonly broken: Refusal | null
}

export interface Outbox {
  /** Never rejects. */
  readonly send: (command: Command) => Promise<Outcome>
  /** Null when all are kept on this device; they are sent in the background. */
  readonly addPhotos: (photos: readonly NewPhoto[]) => Promise<Refusal | null>
  /** Sends what is kept; call it at the start and whenever the host may be back. Never rejects. */
  readonly flush: () => Promise<void>
  readonly retryPhoto: (id: AttachmentId) => Promise<void>
  readonly dismissCommand: (id: CommandId) => Promise<void>
  readonly dismissPhoto: (id: AttachmentId) => Promise<void>
  readonly subscribe: (listener: () => void) => () => void
  readonly state: () => OutboxState
}

/** What leaves this device, and what screens show of it. */
export function createOutbox(ports: OutboxPorts): Outbox {
  const { kept } = ports
  const board = createBoard(kept)
  const commands = createCommandQueue(ports)
  const photos = createPhotoQueue({ ...ports, onProgress: board.show })

  const flush = () =>
    board.watch(async () => {
      const reached = await Promise.all([commands.flush(), photos.flush()])
      return !reached.includes(false)
    })
  return {
    send: async (command) => {
      const outcome = await commands.send(command)
      await board.watch(() => Promise.resolve(!isUnreached(outcome)))
      return outcome
    },
    addPhotos: async (added) => {
      const refusal = await photos.add(added)
      if (refusal === null) void flush()
      return refusal
    },
    flush,
    retryPhoto: async (id) => {
      await board.change(() => photos.retry(id))
      await flush()
    },
    dismissCommand: (id) => board.change(() => kept.dropCommand(id)),
    dismissPhoto: (id) => board.change(() => kept.dropPhoto(id)),
    subscribe: board.subscribe,
    state: board.state,
  }
}

const isUnreached = (outcome: Outcome): boolean =>
  outcome.is === 'kept' || (outcome.is === 'refused' && outcome.refusal.code === 'not-now')

/** The state that screens follow, read from the store after every change. */
function createBoard(kept: Kept) {
  const listeners = new Set<() => void>()
  const progress = new Map<AttachmentId, number>()
  let state: OutboxState = { away: false, waiting: 0, refused: [], photos: [], broken: null }

  const tell = (change: Partial<OutboxState>) => {
    state = { ...state, ...change }
    for (const listener of listeners) listener()
  }
  const refresh = async () => {
    const [commands, photos] = await Promise.all([kept.commands(), kept.photos()])
    tell({
      waiting: commands.filter(({ refusal }) => refusal === null).length,
      refused: commands.flatMap(refusedOnly),
      photos: photos.map((photo) => photoState(photo, progress.get(photo.attachmentId))),
      broken: null,
    })
  }
  const change = async (act: () => Promise<void>) => {
    try {
      await act()
      await refresh()
    } catch (error) {
      tell({ broken: cannotKeep(error) })
    }
  }
  return {
    change,
    state: () => state,
    subscribe: (listener: () => void) => {
      listeners.add(listener)
      return () => listeners.delete(listener)
    },
    show: (id: AttachmentId, share: number | null) => {
      if (share === null) {
        progress.delete(id)
        void change(() => Promise.resolve())
        return
      }
      progress.set(id, share)
      const photos = state.photos.map((photo) =>
        photo.attachmentId === id ? photoState(photo, share) : photo,
      )
      tell({ photos })
    },
    /** Shows what waits before and after a run that says whether the host was reached. */
    watch: (run: () => Promise<boolean>) =>
      change(async () => {
        await refresh()
        tell({ away: !(await run()) })
      }),
  }
}

const refusedOnly = ({ command, refusal }: KeptCommand) => (refusal === null ? [] : [{ command, refusal }])

function photoState(photo: KeptPhoto, sent: number | undefined): PhotoInOutbox {
  const state = photo.refusal !== null ? 'refused' : sent === undefined ? 'waiting' : 'sending'
  return { ...photo, state, sent: sent ?? 0 }
}
