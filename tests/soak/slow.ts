import { fork } from 'node:child_process'
import { once } from 'node:events'
import { rmSync } from 'node:fs'
import type { IncomingMessage } from 'node:http'
import { Agent, request } from 'node:https'
import process from 'node:process'
import { checkServerIdentity } from 'node:tls'
import { fileURLToPath } from 'node:url'
import { MOST_CONNECTIONS } from '../../electron/network/connection-count.ts'
import { startHost } from '../../electron/host.ts'
import { PLAIN_HOST } from '../support/plain-host.ts'
import { codes, createWorkshop, manager } from '../support/workshop.ts'
import type { FloodFigures, SlowFlood } from './slow-flood.ts'

export interface SlowFigures extends FloodFigures {
  /** Answers while the slow ones were held: to the host's own window, and to a tablet by connections of its own. Milliseconds. */
  readonly own: Times
  readonly tablet: Times
  /** Resident memory of the host's process, MB of 10^6 bytes. */
  readonly rssBeforeMb: number
  readonly rssPeakMb: number
  /** Whatever is not as it must be; empty when all is well. */
  readonly problems: readonly string[]
}

interface Times {
  readonly answers: number
  readonly medianMs: number
  readonly maxMs: number
}

export interface SlowRun extends Pick<SlowFlood, 'attempts' | 'wave' | 'sources'> {
  /** Of this computer's loopback, where no other test listens. */
  readonly bound: string
}

/** As the host's window and certificate name it. */
const ADDRESS = '192.168.7.23'
const TABLET = '127.0.200.9'

/** Holds on to the network door by slow connections from many addresses, and asks as its window and as an honest tablet meanwhile. */
export async function runSlow(run: SlowRun, tell: (line: string) => void = () => {}): Promise<SlowFigures> {
  const { host, dataDir, problems } = await openHost(run.bound)
  try {
    const asks = await letBothIn(host, run.bound)
    const rssBeforeMb = rssMb()
    let rssPeakMb = rssBeforeMb
    const times = { own: [] as number[], tablet: [] as number[] }
    const figures = await flood(
      {
        host: run.bound,
        port: asks.port,
        authority: `${ADDRESS}:${asks.port}`,
        most: MOST_CONNECTIONS.inAll,
        ...run,
      },
      async (held) => {
        for (const who of ['own', 'tablet'] as const) times[who].push(await timed(asks[who]))
        rssPeakMb = Math.max(rssPeakMb, rssMb())
        tell(`${held} held, answered in ${times.own.at(-1)} and ${times.tablet.at(-1)} ms`)
      },
    )
    if (figures.mostHeld > MOST_CONNECTIONS.inAll)
      problems.push(`${figures.mostHeld} connections were held, more than the door lets in`)
    await asks.own()
    await asks.tablet()
    if (!asks.isLive()) problems.push('the tablet has lost its live connection')
    const memory = { rssBeforeMb, rssPeakMb }
    return { ...figures, own: timesOf(times.own), tablet: timesOf(times.tablet), ...memory, problems }
  } finally {
    await host.close()
    rmSync(dataDir, { recursive: true, force: true })
  }
}

async function openHost(bound: string) {
  const workshop = createWorkshop({ keptIn: 'folder', now: Date.now() })
  workshop.db.close()
  const dataDir = workshop.dataDir ?? ''
  const problems: string[] = []
  const host = await startHost({
    dataDir,
    ...PLAIN_HOST,
    log: (line) => problems.push(line),
    interfaces: () => ({ wired: [{ address: ADDRESS, internal: false }] }),
    bindAt: () => bound,
  })
  return { host, dataDir, problems }
}

interface Asks {
  readonly port: number
  /** The host's own window asks. */
  readonly own: () => Promise<void>
  /** The tablet asks, as a screen that is opened anew: by a new connection. */
  readonly tablet: () => Promise<void>
  /** Whether the live connection is open that the tablet had before. */
  readonly isLive: () => boolean
}

async function letBothIn(
  { url, windowUrl }: Awaited<ReturnType<typeof startHost>>,
  bound: string,
): Promise<Asks> {
  const entered = await fetch(windowUrl, { redirect: 'manual' })
  const cookie = entered.headers.get('set-cookie')?.split(';')[0] ?? ''
  const { origin } = new URL(url)
  const call = async <T>(name: string, input: unknown): Promise<T> => {
    const headers = { cookie, origin, 'content-type': 'application/json' }
    const answer = await fetch(`${url}trpc/${name}`, { method: 'POST', headers, body: JSON.stringify(input) })
    return ((await answer.json()) as { readonly result: { readonly data: T } }).result.data
  }
  await call('signIn', { personId: manager, code: codes[manager] })
  await call('openNetwork', { scheme: 'https' })
  const { links } = await call<{ readonly links: readonly string[] }>('pairingCode', null)
  const der = await fetch(`${url}workshop-certificate.crt`, { headers: { cookie } })
  const link = new URL(links[0] ?? '')
  const tablet = await pairTablet(link, bound, Buffer.from(await der.bytes()))
  return {
    port: Number(link.port),
    own: async () => {
      const answer = await fetch(`${url}trpc/session`, { headers: { cookie } })
      if (!answer.ok) throw new Error(`The window was answered with ${answer.status}.`)
      await answer.json()
    },
    ...tablet,
  }
}

async function pairTablet(
  link: URL,
  bound: string,
  authority: Buffer,
): Promise<Pick<Asks, 'tablet' | 'isLive'>> {
  const ca = `-----BEGIN CERTIFICATE-----\n${authority.toString('base64')}\n-----END CERTIFICATE-----\n`
  const ask = async (
    path: string,
    headers: Record<string, string>,
    body?: string,
  ): Promise<IncomingMessage> => {
    const asked = request({
      host: bound,
      port: link.port,
      path,
      method: body === undefined ? 'GET' : 'POST',
      localAddress: TABLET,
      agent: new Agent({ keepAlive: false }),
      ca,
      headers: { host: link.host, ...headers },
      checkServerIdentity: (_host, certificate) => checkServerIdentity(ADDRESS, certificate),
    }).end(body)
    const [answer] = (await once(asked, 'response')) as [IncomingMessage]
    answer.resume()
    return answer
  }
  const form = new URLSearchParams({ code: link.searchParams.get('code') ?? '', name: 'Tablet' })
  const type = 'application/x-www-form-urlencoded'
  const paired = await ask('/pair', { origin: link.origin, 'content-type': type }, form.toString())
  const cookie = paired.headers['set-cookie']?.[0]?.split(';')[0]
  if (cookie === undefined) throw new Error(`The tablet was not let in (${paired.statusCode}).`)
  let isLive = true
  const live = await ask('/trpc/revisions', { cookie })
  live.on('error', () => {}).once('close', () => (isLive = false))
  return {
    isLive: () => isLive,
    tablet: async () => {
      const { statusCode } = await ask('/trpc/session', { cookie })
      if (statusCode !== 200) throw new Error(`The tablet was answered with ${statusCode}.`)
    },
  }
}

async function flood(slow: SlowFlood, meanwhile: (held: number) => Promise<void>): Promise<FloodFigures> {
  const flooder = fork(fileURLToPath(new URL('./slow-flooder.ts', import.meta.url)), [JSON.stringify(slow)])
  const { promise, resolve, reject } = Promise.withResolvers<FloodFigures>()
  flooder.on('message', (said: { readonly held?: number; readonly figures?: FloodFigures }) => {
    if (said.figures !== undefined) return resolve(said.figures)
    meanwhile(said.held ?? 0).then(() => flooder.send('go on'), reject)
    return undefined
  })
  flooder.once('exit', (code) => reject(new Error(`The flood ended by itself (${code}).`)))
  try {
    return await promise
  } finally {
    flooder.kill()
  }
}

async function timed(ask: () => Promise<void>): Promise<number> {
  const begun = performance.now()
  await ask()
  return Math.round(performance.now() - begun)
}

function timesOf(ms: readonly number[]): Times {
  const sorted = ms.toSorted((a, b) => a - b)
  return {
    answers: sorted.length,
    medianMs: sorted[Math.floor(sorted.length / 2)] ?? 0,
    maxMs: sorted.at(-1) ?? 0,
  }
}

const rssMb = (): number => Math.round(process.memoryUsage.rss() / 1e6)
