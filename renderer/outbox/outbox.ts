import { useSyncExternalStore } from 'react'
import type { Command } from '../../domain/commands/command-shapes.ts'
import { instantToIso } from '../../domain/time/zone.ts'
import { sayAloud } from '../aloud.ts'
import { api, client, isHostAway, notPaired, queryClient, refusalOf, uploadPhoto } from '../client.ts'
import { noteOwn, readAgain, useIsAway } from '../live.ts'
import type { OutboxState } from './board.ts'
import { createOutbox } from './create-outbox.ts'
import { createKept } from './kept.ts'
import { tellDone } from './just-done.ts'
import { followOutbox } from './outbox-aloud.ts'
import { askForPersistence } from './persistence.ts'
import { tellCommand } from './tell.ts'
import type { Told } from './told.ts'

/** Commands are small: a network that takes longer is none. */
const POST_WAIT_MS = 20_000

export const outbox = createOutbox({
  kept: createKept(),
  post: (command: Command) => client.command.mutate(command, { signal: AbortSignal.timeout(POST_WAIT_MS) }),
  upload: uploadPhoto,
  // What a device enters before it is known to be shut out waits until it is let in again.
  isAway: (error) => isHostAway(error) || notPaired(error) !== null,
  refusalOf,
  onAccepted: async ({ carId }) => {
    if (carId !== null) noteOwn(carId)
    await readAgain(carId === null ? [] : [carId])
  },
  hostNow: () => {
    const { now, zone } = hostTime()
    return instantToIso(now, zone)
  },
  tell: toldNow,
  onDone: (command, numbers) => {
    tellDone(command, numbers, () => toldNow(command))
    // Photos are told of as they leave the device, those of an earlier hour too.
    if (command.kind !== 'attachPhoto') sayAloud(doneWords(toldNow(command)))
  },
  alone: aloneOnThisDevice,
  space: async () => {
    const { usage = 0, quota = Number.MAX_SAFE_INTEGER } = (await navigator.storage?.estimate?.()) ?? {}
    return { usage, quota }
  },
  onKept: askOnce(),
})

function toldNow(command: Command): Told {
  return tellCommand(command, viewsRead(), hostTime())
}

const doneWords = ({ what, where }: Told): string =>
  `Done: ${[what, where].filter((words) => words !== '').join(', ')}.`

/** What is still on this device. */
export function useOutbox(): OutboxState {
  return useSyncExternalStore(outbox.subscribe, outbox.state)
}

/** True once anything has shown that the host is away: what was sent has, before the live connection is known to be broken. */
export function useHostAway(): boolean {
  const isLost = useIsAway()
  return useOutbox().away || isLost
}

const TRY_AGAIN_MS = 5_000

/** Sends what an earlier visit left, and tries again whenever the host may be back. */
export function startOutbox(): void {
  const flush = () => void outbox.flush()
  flush()
  const follow = followOutbox()
  outbox.subscribe(() => follow(outbox.state()).forEach(sayAloud))
  window.addEventListener('online', flush)
  document.addEventListener('visibilitychange', () => void outbox.look())
  window.setInterval(() => {
    const { away, waiting, photos } = outbox.state()
    if (away || waiting > 0 || photos.some((photo) => photo.state === 'waiting')) flush()
  }, TRY_AGAIN_MS)
}

/** The host's clock by this device's, as the session told it last; the device's own before the first one. */
function hostTime(): { readonly now: number; readonly zone: string } {
  const { data, dataUpdatedAt } = queryClient.getQueryState(api.session.queryKey()) ?? {}
  if (data === undefined || dataUpdatedAt === undefined) return { now: Date.now(), zone: 'UTC' }
  return { now: Date.now() + data.now - dataUpdatedAt, zone: data.zone }
}

/** Names stand in these. */
const TELLING = ['session', 'daySheet', 'car', 'repair', 'shopFloor', 'cars']

function viewsRead(): readonly unknown[] {
  const queries = queryClient.getQueryCache().getAll()
  return queries
    .filter(({ queryKey }) => TELLING.includes((queryKey as readonly [readonly string[]])[0][0] ?? ''))
    .map(({ state }) => state.data)
}

/** A page that sleeps may hold the turn: after this long another one sends all the same, which does no harm. */
const TURN_WAIT_MS = { commands: 10_000, photos: 60_000 }

/** Browsers have such turns in secure contexts only. */
async function aloneOnThisDevice<Result>(
  of: 'commands' | 'photos',
  run: () => Promise<Result>,
): Promise<Result> {
  if (!('locks' in navigator)) return run()
  const turn = { isMine: false }
  try {
    return (await navigator.locks.request(
      `panelwright-${of}`,
      { signal: AbortSignal.timeout(TURN_WAIT_MS[of]) },
      () => {
        turn.isMine = true
        return run()
      },
    )) as Result
  } catch (error) {
    if (turn.isMine) throw error
    return run()
  }
}

function askOnce(): () => void {
  let isAsked = false
  return () => {
    if (!isAsked) void askForPersistence()
    isAsked = true
  }
}
