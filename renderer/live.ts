import { useSubscription } from '@trpc/tanstack-react-query'
import { useEffect, useRef, useState, useSyncExternalStore } from 'react'
import { sayAloud } from './aloud.ts'
import { api, queryClient } from './client.ts'
import { createFollowed, useFollowed } from './followed.ts'
import { readAgainWhere } from './read-again.ts'

/** Views of one car; all other views may show any car. */
const OF_ONE_CAR = ['car', 'repair', 'record']

/** What a plan that has moved changes, when nothing else has. */
const OF_THE_PLAN = ['plan', 'planHistory', 'daySheet', 'shopFloor']

const CONNECT_AGAIN_MS = 2_000

type QueryKeyOfApi = readonly [
  readonly [string],
  { readonly input?: { readonly carId?: string } } | undefined,
]

/** Reads again what the screens show of these cars. */
export async function readAgain(carIds: readonly string[]): Promise<void> {
  await readAgainWhere(({ queryKey }) => {
    const [path, asked] = queryKey as QueryKeyOfApi
    return !OF_ONE_CAR.includes(path[0]) || carIds.includes(asked?.input?.carId ?? '')
  })
}

/** Reads the plan again where it is shown. */
async function readPlanAgain(): Promise<void> {
  await readAgainWhere(({ queryKey }) => OF_THE_PLAN.includes((queryKey as QueryKeyOfApi)[0][0]))
}

/**
 * Keeps every open view in step with the host: it goes on from the revision of the session's first answer, and after a
 * break from the last one that was heard.
 */
export function useLive(revision: number): Connection {
  const [from] = useState({ lastEventId: String(revision) })
  const revisions = useSubscription(
    api.revisions.subscriptionOptions(from, {
      onData: ({ data }) => {
        const isPlanAlone = data.plan && !data.workshop && data.carIds.length === 0
        void (isPlanAlone ? readPlanAgain() : readAgain(data.carIds))
        tellOfOthers(data.carIds)
      },
    }),
  )
  const { status, error, reset } = revisions
  // The host has ended the connection, or refused it without saying why: the session says whether this device is shut out.
  const isOver = status === 'idle' || status === 'error'
  useEffect(() => {
    if (!isOver) return
    void queryClient.invalidateQueries({ queryKey: api.session.queryKey() })
    const timer = window.setTimeout(reset, CONNECT_AGAIN_MS)
    return () => window.clearTimeout(timer)
  }, [isOver, reset])
  const connection = connectionOf(status, error)
  const wasAway = useRef(false)
  useEffect(() => {
    tellConnection(connection)
    if (connection === 'away') wasAway.current = true
    if (connection !== 'live' || !wasAway.current) return
    wasAway.current = false
    // What could not be read meanwhile is asked for again, and so is what was brought back from this device.
    void readAgainWhere()
  }, [connection])
  return connection
}

/** When this page last changed a car, and when it was last told that others did: by this device's clock, in milliseconds. */
const ownAt = new Map<string, number>()
const toldAt = new Map<string, number>()

/** A change may be heard of before the answer to the command that made it. */
const ANSWER_MS = 1_500
/** Several changes of one act, and of one person at work, are told once. */
const TOGETHER_MS = 15_000

/** To be called when a command or photo of this page is taken in, so that nobody is told of it as of another's. */
export function noteOwn(carId: string): void {
  ownAt.set(carId, Date.now())
}

/** Has it said when somebody else changes the car that is looked at: what is on the screen is another now. */
function tellOfOthers(carIds: readonly string[]): void {
  window.setTimeout(() => {
    const shown = /^\/cars\/([^/]+)/.exec(window.location.pathname)?.[1]
    if (shown === undefined || !carIds.includes(shown)) return
    const now = Date.now()
    const last = Math.max(ownAt.get(shown) ?? 0, toldAt.get(shown) ?? 0)
    if (now - last < TOGETHER_MS) return
    toldAt.set(shown, now)
    sayAloud('This car was changed on another screen. You see it as it is now.')
  }, ANSWER_MS)
}

export type Connection = 'live' | 'connecting' | 'away'

function connectionOf(status: string, error: unknown): Connection {
  if (status === 'pending') return 'live'
  return status === 'idle' || (status === 'connecting' && error === null) ? 'connecting' : 'away'
}

const latest = createFollowed<Connection>('connecting')
/** When the host was heard last, by this device's clock, in milliseconds; null while it is heard and before. */
const lostAt = createFollowed<number | null>(null)

function tellConnection(connection: Connection): void {
  if (connection === 'live') lostAt.set(null)
  else if (latest.now() === 'live') lostAt.set(Date.now())
  sayConnection(connection)
  latest.set(connection)
}

let isSaidAway = false

function sayConnection(connection: Connection): void {
  if (connection === 'connecting' || isSaidAway === (connection === 'away')) return
  isSaidAway = connection === 'away'
  sayAloud(
    isSaidAway
      ? 'No connection to the host. What you enter is kept on this device and sent later.'
      : 'The host is reached again.',
  )
}

/** True while the live connection to the host is broken. */
export const useIsAway = (): boolean => useSyncExternalStore(latest.subscribe, () => latest.now() === 'away')

/** When the connection was lost, by this device's clock; null when there has been none since the page was opened. */
export const useLostAt = (): number | null => useFollowed(lostAt)
