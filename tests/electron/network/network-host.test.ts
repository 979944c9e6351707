import { once } from 'node:events'
import { rmSync } from 'node:fs'
import type { IncomingMessage } from 'node:http'
import { request } from 'node:https'
import { checkServerIdentity } from 'node:tls'
import { afterAll, beforeAll, describe, expect } from 'vitest'
import { startHost } from '../../../electron/host.ts'
import { loopbacksTest } from '../../support/loopbacks.ts'
import { PLAIN_HOST } from '../../support/plain-host.ts'
import { createWorkshop, codes, manager } from '../../support/workshop.ts'

const address = '192.168.7.21'
const bound = '127.0.0.4'

let dataDir: string
let host: Awaited<ReturnType<typeof startHost>>
let cookie: string
let origin: string
let authority: string
beforeAll(async () => {
  const workshop = createWorkshop({ keptIn: 'folder' })
  dataDir = workshop.dataDir ?? ''
  workshop.db.close()
  host = await startHost({
    dataDir,
    ...PLAIN_HOST,
    log: (line) => {
      throw new Error(line)
    },
    clock: () => workshop.now,
    interfaces: () => ({ wired: [{ address, internal: false }] }),
    bindAt: () => bound,
  })
  const entered = await fetch(host.windowUrl, { redirect: 'manual' })
  cookie = entered.headers.get('set-cookie')?.split(';')[0] ?? ''
  await call('signIn', { personId: manager, code: codes[manager] })
  await call('openNetwork', { scheme: 'https' })
  const { result } = (await call('network')) as { result: { data: { origins: string[] } } }
  origin = result.data.origins[0] ?? ''
  const der = await fetch(`${host.url}workshop-certificate.crt`, { headers: { cookie } })
  const base64 = Buffer.from(await der.bytes()).toString('base64')
  authority = `-----BEGIN CERTIFICATE-----\n${base64}\n-----END CERTIFICATE-----\n`
})
afterAll(async () => {
  await host.close()
  rmSync(dataDir, { recursive: true, force: true })
})

/** From the host's own window. */
async function call(name: string, input?: unknown): Promise<unknown> {
  const isQuery = input === undefined
  const answer = await fetch(`${host.url}trpc/${name}`, {
    method: isQuery ? 'GET' : 'POST',
    headers: { cookie, origin: new URL(host.url).origin, 'content-type': 'application/json' },
    ...(!isQuery && { body: JSON.stringify(input) }),
  })
  return answer.json()
}

/** Over the network, trusting the authority that the window has handed out and nothing else. */
async function askOverNetwork(path: string, headers: Record<string, string> = {}): Promise<IncomingMessage> {
  const asked = request({
    host: bound,
    port: new URL(origin).port,
    path,
    agent: false,
    ca: authority,
    headers: { host: new URL(origin).host, ...headers },
    checkServerIdentity: (_host, certificate) => checkServerIdentity(address, certificate),
  }).end()
  const [answer] = (await once(asked, 'response')) as [IncomingMessage]
  return answer
}

describe('a host that is open to the network', () => {
  loopbacksTest('answers there by HTTPS, with its own cookie alone', async () => {
    const session = '/trpc/session'
    const statusOf = async (headers: Record<string, string>) =>
      (await askOverNetwork(session, headers)).resume().statusCode
    expect(await statusOf({})).toBe(401)
    expect(await statusOf({ cookie })).toBe(401)
    expect(await statusOf({ cookie: `__Host-${cookie}` })).toBe(200)
    expect(await statusOf({ cookie: `__Host-${cookie}`, host: new URL(host.url).host })).toBe(421)
  })

  loopbacksTest(
    'ends live connections of the network at once when it is closed, and not its own',
    async () => {
      const live = await askOverNetwork('/trpc/revisions', { cookie: `__Host-${cookie}` })
      expect(live.headers['content-type']).toContain('text/event-stream')
      const own = await fetch(`${host.url}trpc/revisions`, { headers: { cookie } })
      live.resume().on('error', () => {})
      const ended = new Promise<void>((resolve) => live.once('close', () => resolve()))
      expect(await call('closeNetwork', null)).toMatchObject({ result: { data: { ok: true } } })
      await ended
      await expect(askOverNetwork('/')).rejects.toMatchObject({ code: 'ECONNREFUSED' })
      const reader = own.body?.getReader()
      expect((await reader?.read())?.done).toBe(false)
      await reader?.cancel()
    },
  )
})
