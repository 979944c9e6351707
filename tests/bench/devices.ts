import { mkdtempSync, rmSync } from 'node:fs'
import { cpus, loadavg, tmpdir } from 'node:os'
import { join } from 'node:path'
import { parseArgs } from 'node:util'
import { createTRPCClient, httpLink } from '@trpc/client'
import { photosFolder } from '../../db/data-paths.ts'
import { fillDemo } from '../../db/demo/fill-demo.ts'
import { openDatabase } from '../../db/open-database.ts'
import { inspectPhoto } from '../../db/photos/inspect-photo.ts'
import { openPhotoStore } from '../../db/photos/photo-store.ts'
import type { AppRouter } from '../../electron/api/router.ts'
import { drawPicture, MEGAPIXELS, withComment } from './camera-photos.ts'
import { startMeasuredHost, type MeasuredHost } from './measured-host.ts'
import type { LoopDelay } from './loop-watch.ts'
import { isInNetwork, pairTablets, type SendPhoto } from './paired-tablets.ts'

export interface DevicesFigures {
  readonly devices: number
  /** 'tls': as paired tablets of the network send; 'loopback': where this computer has no private address. */
  readonly over: 'tls' | 'loopback'
  readonly photos: number
  readonly megapixels: number
  readonly photoMb: string
  /** From the first byte to the last answer, that its photo is stored. */
  readonly uploadS: number
  /** Answers to other screens while the photos come in, and before. Milliseconds. */
  readonly meanwhile: Times
  readonly before: Times
  readonly slowest: string
  readonly rssMb: number
  readonly rssBeforeMb: number
  readonly loopDelay: LoopDelay
  readonly cores: number
  /** Of the machine, over the last minute: what others did on it stands in the figures. */
  readonly loadBefore: number
  readonly loadAfter: number
}

interface Times {
  readonly answers: number
  readonly medianMs: number
  readonly p95Ms: number
  readonly maxMs: number
}

const KINDS = 4
const SCREENS = 4
/** Between two questions of one screen, which asks again when it hears of a change. */
const PAUSE_MS = 100
const QUIET_MS = 8_000

/**
 * Ten devices send photos of 24 megapixels at once while other screens ask for their views; the host is a process of its own on
 * the demo workshop. Options: --devices N, --each N (photos of a device).
 */
export async function benchDevices(args: readonly string[]): Promise<DevicesFigures> {
  const { values } = parseArgs({
    args: [...args],
    options: { devices: { type: 'string', default: '10' }, each: { type: 'string', default: '3' } },
  })
  const [devices, each] = [Number(values.devices), Number(values.each)]
  const loadBefore = loadavg()[0] ?? 0
  const dataDir = mkdtempSync(join(tmpdir(), 'bench-devices-'))
  try {
    await fillWorkshop(dataDir)
    const photos = await takePhotos(devices * each)
    const host = await startMeasuredHost(dataDir)
    try {
      return { devices, ...(await measure(host, photos, devices)), loadBefore, loadAfter: loadavg()[0] ?? 0 }
    } finally {
      await host.end()
    }
  } finally {
    rmSync(dataDir, { recursive: true })
  }
}

async function measure(host: MeasuredHost, photos: readonly Uint8Array<ArrayBuffer>[], devices: number) {
  const over: DevicesFigures['over'] = isInNetwork() ? 'tls' : 'loopback'
  const tablets = over === 'tls' ? await pairTablets(host, devices) : sendersOf(host, devices)
  const asks = await viewsOf(host)
  // Once round before it counts: a workshop's screens have been looked at before.
  for (const { ask } of asks) await ask()
  const quiet = askViews(asks)
  await new Promise((resolve) => setTimeout(resolve, QUIET_MS))
  const before = await quiet.stop()
  const rssBeforeMb = host.rssPeakMb()
  await host.loopDelay()
  const busy = askViews(asks)
  const begun = performance.now()
  await Promise.all(
    tablets.map(async (send, device) => {
      for (let at = device; at < photos.length; at += devices) await send(photos[at] ?? new Uint8Array())
    }),
  )
  const uploadS = (performance.now() - begun) / 1_000
  const loopDelay = await host.loopDelay()
  const meanwhile = await busy.stop()
  const sizes = photos.map(({ byteLength }) => byteLength / 1e6)
  return {
    over,
    photos: photos.length,
    megapixels: MEGAPIXELS,
    photoMb: `${Math.min(...sizes).toFixed(1)} to ${Math.max(...sizes).toFixed(1)}`,
    uploadS: Math.round(uploadS * 10) / 10,
    meanwhile: timesOf(meanwhile),
    before: timesOf(before),
    slowest: slowestOf(meanwhile),
    rssMb: host.rssPeakMb(),
    rssBeforeMb,
    loopDelay,
    cores: cpus().length,
  }
}

async function fillWorkshop(dataDir: string): Promise<void> {
  const db = openDatabase(dataDir)
  const photoStore = await openPhotoStore(photosFolder(dataDir), { inspect: inspectPhoto })
  if (!photoStore.ok) throw new Error(photoStore.problem.message)
  const today = new Date().toISOString().slice(0, 10)
  await fillDemo({ db, photoStore: photoStore.value, today, seed: 'bench', photos: 'tiny' })
  db.close()
}

/** A few pictures, again and again as other files. */
async function takePhotos(count: number): Promise<readonly Uint8Array<ArrayBuffer>[]> {
  const pictures: Buffer[] = []
  for (let kind = 0; kind < KINDS; kind += 1)
    pictures.push(await drawPicture(kind * 80, { share: 3 / 4, sigma: 36 + 4 * kind, quality: 92 }))
  return Array.from({ length: count }, (_, at) => withComment(pictures[at % KINDS] ?? Buffer.alloc(0)))
}

/** Each with the cookie of the host's own screen. */
function sendersOf({ origin, cookie }: MeasuredHost, devices: number): readonly SendPhoto[] {
  return Array.from({ length: devices }, () => async (photo) => {
    const headers = { cookie, origin }
    const answer = await fetch(`${origin}/photos`, { method: 'PUT', headers, body: photo })
    if (!answer.ok) throw new Error(`A photo was refused (${answer.status}): ${await answer.text()}`)
    await answer.body?.cancel()
  })
}

interface Asked {
  readonly name: string
  readonly ask: () => Promise<unknown>
}

/** What people look at in a workshop: the same again and again. */
async function viewsOf({ origin, cookie }: MeasuredHost): Promise<readonly Asked[]> {
  const client = createTRPCClient<AppRouter>({
    links: [httpLink({ url: `${origin}/trpc`, headers: { cookie } })],
  })
  const { people } = await client.session.query()
  const { cars } = await client.cars.query()
  const repairs = (await Promise.all(cars.map(({ carId }) => client.car.query({ carId })))).flatMap(
    ({ header, repairs: all }) => all.map(({ id }) => ({ carId: header.carId, repairId: id })),
  )
  return [
    { name: 'shopFloor', ask: () => client.shopFloor.query() },
    { name: 'plan', ask: () => client.plan.query() },
    { name: 'cars', ask: () => client.cars.query() },
    ...people.map(({ id: personId }) => ({
      name: 'daySheet',
      ask: () => client.daySheet.query({ personId }),
    })),
    ...cars.map(({ carId }) => ({ name: 'car', ask: () => client.car.query({ carId }) })),
    ...repairs.map((repair) => ({ name: 'repair', ask: () => client.repair.query(repair) })),
  ]
}

interface Answered {
  readonly name: string
  readonly ms: number
}

/** Several screens, each of which asks one thing after the other until it is stopped. */
function askViews(asks: readonly Asked[]): { readonly stop: () => Promise<readonly Answered[]> } {
  const answers: Answered[] = []
  let isOver = false
  const screens = Array.from({ length: SCREENS }, async (_, screen) => {
    for (let at = screen; !isOver; at += SCREENS) {
      const { name, ask } = asks[(at * 7) % asks.length] ?? { name: '', ask: async () => {} }
      const begun = performance.now()
      await ask()
      answers.push({ name, ms: performance.now() - begun })
      await new Promise((resolve) => setTimeout(resolve, PAUSE_MS))
    }
  })
  return {
    stop: async () => {
      isOver = true
      await Promise.all(screens)
      return answers
    },
  }
}

function timesOf(answers: readonly Answered[]): Times {
  const sorted = answers.map(({ ms }) => ms).toSorted((a, b) => a - b)
  const at = (share: number) =>
    Math.round(sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? 0)
  return { answers: sorted.length, medianMs: at(0.5), p95Ms: at(0.95), maxMs: at(1) }
}

function slowestOf(answers: readonly Answered[]): string {
  const byName = Map.groupBy(answers, ({ name }) => name)
  const p95s = [...byName].map(([name, all]) => ({ name, ms: timesOf(all).p95Ms }))
  const [worst] = p95s.toSorted((a, b) => b.ms - a.ms)
  return worst === undefined ? '' : `${worst.name}: ${worst.ms} ms at p95`
}
