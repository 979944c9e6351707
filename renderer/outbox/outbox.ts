import { useSyncExternalStore } from 'react'
import type { Command } from '../../domain/commands/command-shapes.ts'
import { client, isHostAway, notPaired, uploadPhoto } from '../client.ts'
import { readAgain } from '../live.ts'
import { createKept } from './kept.ts'
import type { OutboxState } from './board.ts'
import { createOutbox } from './create-outbox.ts'

export const outbox = createOutbox({
  kept: createKept(),
  post: (command: Command) => client.command.mutate(command),
  upload: uploadPhoto,
  // What a device enters before it is known to be shut out waits until it is let in again.
  isAway: (error) => isHostAway(error) || notPaired(error) !== null,
  onAccepted: (command) => void readAgain(command.carId === null ? [] : [command.carId]),
})

/** What is still on this device. */
export function useOutbox(): OutboxState {
  return useSyncExternalStore(outbox.subscribe, outbox.state)
}

const TRY_AGAIN_MS = 5_000

/** Sends what an earlier visit left, and tries again whenever the host may be back. */
export function startOutbox(): void {
  const flush = () => void outbox.flush()
  flush()
  window.addEventListener('online', flush)
  window.setInterval(() => {
    const { away, waiting, photos } = outbox.state()
    if (away || waiting > 0 || photos.some((photo) => photo.state === 'waiting')) flush()
  }, TRY_AGAIN_MS)
}
