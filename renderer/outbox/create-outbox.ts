import type { Command } from '../../domain/commands/command-shapes.ts'
import type { AttachmentId, CommandId } from '../../domain/ids.ts'
import type { Refusal } from '../../domain/refusal.ts'
import { createBoard, type OutboxState } from './board.ts'
import { createCommandQueue, type CommandPorts } from './command-queue.ts'
import type { Kept } from './kept.ts'
import { cannotKeep, type Outcome } from './outcome.ts'
import { createPhotoQueue, type NewPhoto, type PhotoPorts } from './photo-queue.ts'
import type { PreparedGate } from './prepared-gate.ts'
import { oldestOf, whatMayGo, type Space } from './sent-rules.ts'

export interface OutboxPorts extends Omit<CommandPorts, 'kept'>, Pick<PhotoPorts, 'upload'> {
  readonly kept: Kept
  /** What the browser gives and has given; unknown unless given. */
  readonly space?: () => Promise<Space>
  /** Told of what was entered a moment ago and is taken in now. */
  readonly onDone?: (command: Command, numbers: readonly number[]) => void
  /** Told once something was kept. */
  readonly onKept?: () => void
}

/** What the host says with every session of what it holds. */
export interface HostHolds {
  readonly epoch: string
  /** The journal number up to which a verified copy holds everything; null without one. */
  readonly copiedTo: number | null
}

export interface Outbox {
  /** Never rejects. */
  readonly send: (command: Command) => Promise<Outcome>
  /** Null when all are kept on this device; they are sent in the background. */
  readonly addPhotos: (photos: readonly NewPhoto[]) => Promise<Refusal | null>
  /** Sends what is kept; call it at the start and whenever the host may be back. Never rejects. */
  readonly flush: () => Promise<void>
  /** Shows what other pages of this device have kept meanwhile. */
  readonly look: () => Promise<void>
  readonly retryCommand: (id: CommandId) => Promise<void>
  readonly retryPhoto: (id: AttachmentId) => Promise<void>
  /** Puts it aside for good, with what was refused together with it. */
  readonly dismissCommand: (id: CommandId) => Promise<void>
  readonly dismissPhoto: (id: AttachmentId) => Promise<void>
  /** Keeps what will be signed later; null when it is kept. */
  readonly prepare: (gate: Omit<PreparedGate, 'told' | 'refusal'>) => Promise<Refusal | null>
  /** Sends it with a signature. It stays readable until it is taken in or put aside. Never rejects. */
  readonly signPrepared: (
    gate: PreparedGate,
    signature: Pick<Command, 'by' | 'code' | 'second'>,
  ) => Promise<Outcome>
  readonly dismissPrepared: (id: CommandId) => Promise<void>
  /**
   * Drops what was sent once it need not stay here. In another epoch the host goes on from a copy: all that was sent waits
   * again. True then: what the screens have read is of no use.
   */
  readonly obey: (holds: HostHolds) => Promise<boolean>
  readonly subscribe: (listener: () => void) => () => void
  readonly state: () => OutboxState
}

/** What leaves this device, and what screens show of it. */
export function createOutbox(ports: OutboxPorts): Outbox {
  const { kept } = ports
  const board = createBoard(kept)
  const commands = createCommandQueue(ports)
  const photos = createPhotoQueue({
    ...ports,
    onProgress: board.show,
    onSent: board.arrive,
    onRefused: (id, refusal) => commands.refuseWith([id], id, refusal),
    makeRoom: () => makeRoom(kept),
  })

  const flush = () =>
    board.watch(async () => {
      const reached = await Promise.all([commands.flush(), photos.flush()])
      // What was about a photo waited for it.
      return !reached.includes(false) && commands.flush()
    })
  return {
    send: async (command) => {
      const outcome = await commands.send(command)
      if (outcome.is === 'kept') ports.onKept?.()
      if (outcome.is === 'done') ports.onDone?.(command, outcome.numbers)
      await board.watch(() => Promise.resolve(commands.reached()))
      return outcome
    },
    addPhotos: async (added) => {
      const refusal = await photos.add(added)
      ports.onKept?.()
      void flush()
      return refusal
    },
    flush,
    look: board.look,
    retryCommand: async (id) => {
      await board.change(() => commands.retry(id))
      await flush()
    },
    retryPhoto: async (id) => {
      await board.change(async () => {
        await kept.changePhoto(id, { refusal: null })
        await commands.retry(id)
      })
      await flush()
    },
    dismissCommand: (id) => board.change(() => commands.dismiss(id)),
    dismissPhoto: (id) =>
      board.change(async () => {
        await kept.dropPhoto(id)
        await commands.dismiss(id)
      }),
    prepare: async (gate) => {
      try {
        await kept.putPrepared({ ...gate, told: ports.tell?.(gate.command) ?? null, refusal: null })
        ports.onKept?.()
        await board.look()
        return null
      } catch (error) {
        return cannotKeep(error)
      }
    },
    signPrepared: async (gate, signature) => {
      const outcome = await commands.send({ ...gate.command, ...signature })
      if (outcome.is === 'done') await board.change(() => kept.dropPrepared(gate.command.id))
      if (outcome.is === 'refused' && commands.reached() && !isToBeTriedAgain(outcome.refusal))
        await board.change(() => kept.putPrepared({ ...gate, refusal: outcome.refusal }))
      await board.watch(() => Promise.resolve(commands.reached()))
      return outcome
    },
    dismissPrepared: (id) => board.change(() => kept.dropPrepared(id)),
    obey: async ({ epoch, copiedTo }) => {
      const known = await kept.epoch().catch(() => epoch)
      if (known !== epoch) {
        await board.change(() => kept.startEpoch(epoch))
        void flush()
        return known !== null
      }
      await board.change(async () => {
        const space = (await ports.space?.()) ?? UNKNOWN_SPACE
        const going = whatMayGo(await kept.sent(), { copiedTo, now: Date.now(), space })
        if (going.length > 0) await kept.dropSent(going)
      })
      return false
    },
    subscribe: board.subscribe,
    state: board.state,
  }
}

const UNKNOWN_SPACE: Space = { usage: 0, quota: Number.MAX_SAFE_INTEGER }

/** Several photos' worth, so that not every photo has to ask. */
const ROOM_BYTES = 100e6

async function makeRoom(kept: Kept): Promise<boolean> {
  const going = oldestOf(await kept.sent(), ROOM_BYTES)
  await kept.dropSent(going)
  return going.length > 0
}

/** A wrong code or no connection says nothing about the gate. */
const isToBeTriedAgain = ({ code }: Refusal): boolean => ['wrong-code', 'locked', 'not-paired'].includes(code)
