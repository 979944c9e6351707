import type { AttachmentId } from '../../domain/ids.ts'
import type { Refusal } from '../../domain/refusal.ts'
import { createFollowed } from '../followed.ts'
import type { Kept, KeptCommand, KeptPhoto } from './kept.ts'
import { cannotKeep } from './outcome.ts'
import type { PreparedGate } from './prepared-gate.ts'

export interface PhotoInOutbox extends KeptPhoto {
  readonly state: 'waiting' | 'sending' | 'refused'
  /** Share sent, 0 to 1. */
  readonly sent: number
}

export type RefusedCommand = KeptCommand & { readonly refusal: Refusal }

export interface OutboxState {
  /** The host did not answer the last time. */
  readonly away: boolean
  /** How many commands wait. */
  readonly waiting: number
  /** Those that wait, in the order in which they go out. */
  readonly commands: readonly KeptCommand[]
  readonly refused: readonly RefusedCommand[]
  readonly photos: readonly PhotoInOutbox[]
  /** The host has taken them in, and what the screens show does not count them yet. */
  readonly arriving: readonly PhotoInOutbox[]
  readonly prepared: readonly PreparedGate[]
  /** Why this device can keep nothing; null when it can. */
  readonly broken: Refusal | null
}

/** The state that screens follow, read from the store after every change. */
export function createBoard(kept: Kept) {
  const progress = new Map<AttachmentId, number>()
  const state = createFollowed<OutboxState>({
    away: false,
    waiting: 0,
    commands: [],
    refused: [],
    photos: [],
    arriving: [],
    prepared: [],
    broken: null,
  })

  const tell = (change: Partial<OutboxState>) => state.set({ ...state.now(), ...change })
  const refresh = async () => {
    const [all, photos, prepared] = await Promise.all([kept.commands(), kept.photos(), kept.prepared()])
    const commands = all.filter(({ refusal }) => refusal === null)
    tell({
      waiting: commands.length,
      commands,
      refused: all.filter(isRefused),
      photos: photos.map((photo) => photoState(photo, progress.get(photo.attachmentId))),
      prepared,
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
  const look = () => change(() => Promise.resolve())
  return {
    change,
    look,
    state: state.now,
    subscribe: state.subscribe,
    show: (id: AttachmentId, share: number | null) => {
      if (share === null) {
        progress.delete(id)
        void look()
        return
      }
      progress.set(id, share)
      const photos = state
        .now()
        .photos.map((photo) => (photo.attachmentId === id ? photoState(photo, share) : photo))
      tell({ photos })
    },
    arrive: (photo: KeptPhoto, shown: Promise<void>) => {
      tell({ arriving: [...state.now().arriving, { ...photo, state: 'sending', sent: 1 }] })
      const isOther = ({ attachmentId }: KeptPhoto) => attachmentId !== photo.attachmentId
      void shown.finally(() => tell({ arriving: state.now().arriving.filter(isOther) }))
    },
    /** Shows what waits before and after a run that says whether the host was reached. */
    watch: (run: () => Promise<boolean>) =>
      change(async () => {
        await refresh()
        tell({ away: !(await run()) })
      }),
  }
}

const isRefused = (kept: KeptCommand): kept is RefusedCommand => kept.refusal !== null

function photoState(photo: KeptPhoto, sent: number | undefined): PhotoInOutbox {
  const state = photo.refusal !== null ? 'refused' : sent === undefined ? 'waiting' : 'sending'
  return { ...photo, state, sent: sent ?? 0 }
}
