import { hashKey, type Query, type QueryKey } from '@tanstack/react-query'
import { openDB, type DBSchema, type IDBPDatabase } from 'idb'
import { api, isHostAway, queryClient, type SessionView } from '../client.ts'

/** What a technician needs to go on working; none of it shows money. */
const KEPT = ['session', 'daySheet', 'repair', 'car']
/** Of one shop's day on one device; the ones read last. */
const MOST_VIEWS = 60
const WRITE_AFTER_MS = 500
/** A shift: what was read stays at hand in a page that stays open, however long ago it was shown. */
const AT_HAND_MS = 12 * 3_600_000
/** A host that takes longer to answer at the start counts as away. */
const ANSWER_WAIT_MS = 3_000

interface KeptView {
  readonly queryKey: QueryKey
  readonly data: unknown
  /** When it was read, by this device's clock, in milliseconds. */
  readonly at: number
}

interface Shape extends DBSchema {
  views: { key: string; value: KeptView; indexes: { at: number } }
}

let opened: Promise<IDBPDatabase<Shape>> | undefined

const database = () => (opened ??= openStore())

function openStore(): Promise<IDBPDatabase<Shape>> {
  const opening = openDB<Shape>('panelwright-views', 1, {
    upgrade: (created) => {
      created.createObjectStore('views').createIndex('at', 'at')
    },
  })
  // What could not be opened once may be opened the next time.
  opening.catch(() => (opened = undefined))
  return opening
}

/** Keeps the last answers on this device, and brings them back when the host is away as the app is opened. */
export function startKeepingViews(): void {
  for (const name of KEPT) queryClient.setQueryDefaults([[name]], { gcTime: AT_HAND_MS })
  const changed = new Map<string, Query>()
  let timer: number | undefined
  const write = () => {
    timer = undefined
    const queries = [...changed.values()]
    changed.clear()
    // A device that can keep nothing says so when something is entered.
    void writeViews(queries).catch(() => undefined)
  }
  queryClient.getQueryCache().subscribe((event) => {
    if (event.type !== 'updated' || !KEPT.includes(nameOf(event.query.queryKey))) return
    if (event.action.type === 'success' && event.action.manual !== true) {
      changed.set(event.query.queryHash, event.query)
      timer ??= window.setTimeout(write, WRITE_AFTER_MS)
    }
    const { error, fetchFailureReason } = event.query.state
    if (isHostAway(error ?? fetchFailureReason)) void restoreViews()
  })
  window.setTimeout(() => void restoreViews(), ANSWER_WAIT_MS)
}

/** Once, and only while the host has said nothing yet. */
async function restoreViews(): Promise<void> {
  if (hasSession()) return
  const views = await readViews().catch(() => [])
  if (hasSession()) return
  for (const { queryKey, data, at } of views)
    if (queryClient.getQueryData(queryKey) === undefined)
      queryClient.setQueryData(queryKey, data, { updatedAt: at })
}

const readViews = async () => (await database()).getAll('views')

const hasSession = (): boolean => queryClient.getQueryData(api.session.queryKey()) !== undefined

/** To be called when this device is shut out, and when the host goes on from a copy. */
export async function forgetViews(): Promise<void> {
  await (await database()).clear('views')
}

/** Day sheets of people who work here no longer are nobody's business on this device. */
export async function forgetPeopleGone(people: SessionView['people']): Promise<void> {
  const here = new Set<string>(people.filter(({ active }) => active).map(({ id }) => id))
  const store = (await database()).transaction('views', 'readwrite').store
  for (let each = await store.openCursor(); each; each = await each.continue()) {
    const { queryKey } = each.value
    if (nameOf(queryKey) === 'daySheet' && !here.has(personOf(queryKey))) await each.delete()
  }
}

/** When the newest of what the screens show was read, by this device's clock. */
export function lastRead(): number {
  const times = queryClient.getQueryCache().getAll()
  return Math.max(0, ...times.map(({ state }) => state.dataUpdatedAt))
}

async function writeViews(queries: readonly Query[]): Promise<void> {
  const transaction = (await database()).transaction('views', 'readwrite')
  const { store } = transaction
  for (const { queryKey, state } of queries)
    await store.put({ queryKey, data: forTheFloor(state.data), at: state.dataUpdatedAt }, hashKey(queryKey))
  const tooMany = (await store.count()) - MOST_VIEWS
  let oldest = tooMany > 0 ? await store.index('at').openCursor() : null
  for (let left = tooMany; left > 0 && oldest !== null; left -= 1) {
    await oldest.delete()
    oldest = await oldest.continue()
  }
  await transaction.done
}

/** Whoever opens the app without the host is signed in as nobody, and amounts of money are for managers. */
function forTheFloor(data: unknown): unknown {
  const view = data as { readonly signedIn?: unknown; readonly variations?: readonly object[] }
  if (view.signedIn !== undefined) return { ...view, signedIn: null, isHostsOwn: false }
  if (view.variations === undefined) return view
  return { ...view, variations: view.variations.map((variation) => ({ ...variation, costs: null })) }
}

const nameOf = (queryKey: QueryKey): string => (queryKey as readonly [readonly string[]])[0][0] ?? ''

const personOf = (queryKey: QueryKey): string =>
  (queryKey as readonly [unknown, { readonly input?: { readonly personId?: string } }?])[1]?.input
    ?.personId ?? ''
