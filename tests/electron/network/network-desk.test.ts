import { once } from 'node:events'
import { rmSync } from 'node:fs'
import { connect as connectPlain, createServer, type Socket } from 'node:net'
import { request } from 'node:https'
import { checkServerIdentity, connect } from 'node:tls'
import { afterEach, beforeEach, describe, expect } from 'vitest'
import { authorityKeyPath } from '../../../db/data-paths.ts'
import type { Handler } from '../../../electron/api/app.ts'
import type { NetworkState } from '../../../electron/api/network-desk.ts'
import { openNetworkDesk, type RunningNetwork } from '../../../electron/network/network-desk.ts'
import { loopbacksTest } from '../../support/loopbacks.ts'
import { createWorkshop, type Workshop } from '../../support/workshop.ts'

/** Addresses of a workshop's network stand for themselves in certificates and are listened at on this computer. */
const here: Readonly<Record<string, string>> = { '192.168.7.20': '127.0.0.2', '10.7.0.9': '127.0.0.3' }
const DAY_MS = 24 * 3_600_000

let workshop: Workshop
let dataDir: string
let addresses: readonly string[]
let now: number
const desks: RunningNetwork[] = []
beforeEach(() => {
  workshop = createWorkshop({ keptIn: 'folder', setUp: false })
  dataDir = workshop.dataDir ?? ''
  addresses = ['192.168.7.20']
  now = Date.now()
})
afterEach(async () => {
  for (const desk of desks.splice(0)) await desk.shut()
  workshop.close()
  rmSync(dataDir, { recursive: true, force: true })
})

const told: Handler = async (request, peer, door) =>
  Response.json({ url: request.url, from: peer.address, ...door })

function createDesk(handler: Handler = told): RunningNetwork {
  const bindAt = (address: string) => here[address] ?? address
  const desk = openNetworkDesk({
    db: workshop.db,
    dataDir,
    handler,
    addresses: () => addresses,
    bindAt,
    clock: () => now,
  })
  desks.push(desk)
  return desk
}

type Open = NetworkState & { readonly kind: 'open' }
function openState(desk: RunningNetwork): Open {
  const state = desk.state()
  if (state.kind !== 'open') throw new Error('The network is closed.')
  return state
}

/** Asks as a tablet that trusts the authority, for the address that it was told to type. */
function ask(desk: RunningNetwork, address = '192.168.7.20') {
  const { port } = openState(desk)
  return new Promise<{ readonly body: string; readonly until: string }>((resolve, reject) => {
    request(
      {
        host: here[address],
        port,
        agent: false,
        ca: pemOf(desk.certificate()),
        headers: { host: `${address}:${port}` },
        checkServerIdentity: (_host, certificate) => checkServerIdentity(address, certificate),
      },
      (answer) => {
        const until = (answer.socket as ReturnType<typeof connect>).getPeerCertificate().valid_to
        answer.toArray().then((chunks) => resolve({ body: Buffer.concat(chunks).toString(), until }), reject)
      },
    )
      .once('error', reject)
      .end()
  })
}

function pemOf(der: Uint8Array | null): string {
  const text = Buffer.from(der ?? []).toString('base64')
  return `-----BEGIN CERTIFICATE-----\n${text}\n-----END CERTIFICATE-----\n`
}

describe('the workshop network', () => {
  loopbacksTest('is closed, and nothing is made for it, until somebody opens it', async () => {
    const desk = createDesk()
    await desk.look()
    expect(desk.state()).toEqual({ kind: 'closed' })
    expect(desk.certificate()).toBeNull()
  })

  loopbacksTest(
    'is reached by HTTPS by whoever trusts its authority, at the address that it tells',
    async () => {
      const desk = createDesk()
      expect(await desk.open('https')).toEqual({ ok: true, value: true })
      const { port, origins, trust, problem } = openState(desk)
      expect(origins).toEqual([`https://192.168.7.20:${port}`])
      expect(problem).toBeNull()
      const answer: unknown = JSON.parse((await ask(desk)).body)
      expect(answer).toEqual({
        url: `https://192.168.7.20:${port}/`,
        from: '127.0.0.1',
        isNetwork: true,
        origins: [origins[0], expect.stringMatching(/^https:\/\/panelwright-[0-9a-f]{8}\.local:\d+$/)],
      })
      expect(trust?.title).toMatch(/^Panelwright workshop [0-9a-f]{8}$/)
    },
  )

  loopbacksTest('is not trusted by a device that does not know its authority', async () => {
    const desk = createDesk()
    await desk.open('https')
    const socket = connect({ host: '127.0.0.2', port: openState(desk).port })
    const [error] = await once(socket, 'error')
    expect(error).toMatchObject({ code: 'UNABLE_TO_VERIFY_LEAF_SIGNATURE' })
  })

  loopbacksTest(
    'takes in an address that comes, with a certificate for it, and lets go of one that goes',
    async () => {
      const desk = createDesk()
      await desk.open('https')
      addresses = ['10.7.0.9', '192.168.7.20']
      await desk.look()
      const { port, origins } = openState(desk)
      expect(origins).toEqual([`https://10.7.0.9:${port}`, `https://192.168.7.20:${port}`])
      for (const address of addresses) expect((await ask(desk, address)).body).toContain(address)
      addresses = ['10.7.0.9']
      await desk.look()
      await expect(ask(desk, '192.168.7.20')).rejects.toMatchObject({ code: 'ECONNREFUSED' })
    },
  )

  loopbacksTest('says so where this computer is in no network, and opens when it is in one', async () => {
    addresses = []
    const desk = createDesk()
    await desk.open('https')
    expect(openState(desk)).toMatchObject({ origins: [], problem: { code: 'not-now' } })
    addresses = ['192.168.7.20']
    await desk.look()
    expect(openState(desk).problem).toBeNull()
    await ask(desk)
  })

  loopbacksTest('shows another certificate 30 days before its end, without being closed', async () => {
    const desk = createDesk()
    now -= 370 * DAY_MS
    await desk.open('https')
    const before = await ask(desk)
    now += 370 * DAY_MS
    await desk.look()
    const after = await ask(desk)
    expect(Date.parse(after.until) - Date.parse(before.until)).toBeCloseTo(370 * DAY_MS, -5)
  })

  loopbacksTest('closes at once with what is under way', async () => {
    let isAsked = () => {}
    const asked = new Promise<void>((resolve) => (isAsked = resolve))
    const desk = createDesk(() => {
      isAsked()
      return new Promise(() => {})
    })
    await desk.open('https')
    const hanging = ask(desk)
    const silent = connectPlain({ host: '127.0.0.2', port: openState(desk).port })
    await Promise.all([asked, once(silent, 'connect')])
    const { port } = openState(desk)
    const ended = Promise.all([hanging.catch((error: unknown) => error), once(silent, 'close')])
    await desk.close()
    expect((await ended)[0]).toMatchObject({ code: 'ECONNRESET' })
    expect(desk.state()).toEqual({ kind: 'closed' })
    const [error] = await once(connectPlain({ host: '127.0.0.2', port }), 'error')
    expect(error).toMatchObject({ code: 'ECONNREFUSED' })
  })

  loopbacksTest(
    'opens again with the host that ended with it open, at the same port and under the same authority',
    async () => {
      const first = createDesk()
      await first.open('https')
      const before = openState(first)
      await first.shut()
      const second = createDesk()
      await second.look()
      expect(openState(second)).toEqual(before)
      await second.close()
      const third = createDesk()
      await third.look()
      expect(third.state()).toEqual({ kind: 'closed' })
      await third.open('http')
      expect(openState(third)).toMatchObject({ scheme: 'http', port: before.port, trust: null })
    },
  )

  loopbacksTest(
    'stays closed on another computer, where a copy of the database has come without the authority',
    async () => {
      const first = createDesk()
      await first.open('https')
      await first.shut()
      rmSync(authorityKeyPath(dataDir))
      const second = createDesk()
      await second.look()
      expect(second.state()).toEqual({ kind: 'closed' })
    },
  )

  loopbacksTest('takes the next port where another program has the usual one', async () => {
    const first = createDesk()
    await first.open('http')
    const { port } = openState(first)
    await first.close()
    const other = createServer().listen(port, '127.0.0.2')
    await once(other, 'listening')
    const second = createDesk()
    await second.open('http')
    expect(openState(second).port).not.toBe(port)
    await new Promise((resolve) => other.close(resolve))
  })

  loopbacksTest('is held by one device to 32 connections, and others come in all the same', async () => {
    const desk = createDesk()
    await desk.open('http')
    const { port } = openState(desk)
    const slow = Array.from({ length: 300 }, () => openSlowly(port, '127.0.0.1'))
    await expect.poll(() => slow.filter((socket) => !socket.closed).length).toBe(32)
    const other = openSlowly(port, '127.0.0.5')
    other.write('\r\n\r\n')
    const [answer] = (await once(other, 'data')) as [Buffer]
    expect(answer.toString()).toContain('200 OK')
    for (const socket of [...slow, other]) socket.destroy()
  })
})

/** A request that does not end: a device that sends it byte by byte, or wants to fill the host. */
function openSlowly(port: number, localAddress: string): Socket {
  const socket = connectPlain({ host: '127.0.0.2', port, localAddress })
  socket.on('error', () => {})
  socket.write('GET / HTTP/1.1\r\nHost: 192.168.7.20')
  return socket
}
