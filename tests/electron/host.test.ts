import { mkdtempSync, rmSync } from 'node:fs'
import { createServer } from 'node:http'
import type { AddressInfo } from 'node:net'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { readDevices } from '../../db/devices.ts'
import { openDatabase } from '../../db/open-database.ts'
import { startHost, type HostOptions } from '../../electron/host.ts'
import { createTestPhoto } from '../support/images.ts'
import { PLAIN_HOST } from '../support/plain-host.ts'

let dataDir: string
const running: (() => Promise<void>)[] = []
beforeEach(() => {
  dataDir = mkdtempSync(join(tmpdir(), 'panelwright-host-'))
})
afterEach(async () => {
  for (const close of running.splice(0)) await close()
  rmSync(dataDir, { recursive: true, force: true })
})

async function start(options: Partial<HostOptions> = {}) {
  const host = await startHost({
    dataDir,
    ...PLAIN_HOST,
    log: (line) => {
      throw new Error(line)
    },
    ...options,
  })
  running.push(host.close)
  return host
}

/** Ends a host that `start` has started. */
async function stop(host: Awaited<ReturnType<typeof start>>) {
  running.splice(running.indexOf(host.close), 1)
  await host.close()
}

async function enter(windowUrl: string): Promise<Response> {
  return fetch(windowUrl, { redirect: 'manual' })
}

async function cookieFrom(windowUrl: string): Promise<string> {
  return (await enter(windowUrl)).headers.get('set-cookie')?.split(';')[0] ?? ''
}

const setUp = {
  id: 'command-setup',
  kind: 'setUpWorkshop',
  carId: null,
  seen: null,
  by: null,
  code: null,
  second: null,
  happened: null,
  made: '2026-11-25T09:00:00+01:00',
  payload: {
    name: 'Fell Lane Bodyworks',
    zone: 'Europe/Berlin',
    currency: 'EUR',
    managerId: 'person-manager',
    manager: { name: 'Mona Reed', phone: '', email: '', address: '' },
    code: '314159',
    skills: [],
    withCatalogue: false,
  },
}

const post = (url: string, path: string, cookie: string, body: unknown) =>
  fetch(new URL(path, url), {
    method: 'POST',
    headers: { cookie, origin: new URL(url).origin, 'content-type': 'application/json' },
    body: JSON.stringify(body),
  })

describe('a host', () => {
  test('listens on this computer alone', async () => {
    const { url } = await start()
    expect(url).toMatch(/^http:\/\/127\.0\.0\.1:\d+\/$/)
    expect((await fetch(url)).status).toBe(401)
  })

  test('keeps what was recorded and who is paired when it is started anew', async () => {
    const first = await start()
    const cookie = await cookieFrom(first.windowUrl)
    expect(await (await post(first.url, '/trpc/command', cookie, setUp)).json()).toMatchObject({
      result: { data: { ok: true } },
    })
    await stop(first)
    const second = await start()
    const session = await fetch(new URL('/trpc/session', second.url), { headers: { cookie } })
    expect(await session.json()).toMatchObject({
      // Signing in does not outlast the run, and the cookie alone is not the host's own screen of this run.
      result: { data: { setUp: true, workshop: 'Fell Lane Bodyworks', signedIn: null, isHostsOwn: false } },
    })
  })

  test('lets a screen that did not enter in this run set nothing up', async () => {
    const first = await start()
    const cookie = await cookieFrom(first.windowUrl)
    await stop(first)
    const second = await start()
    const answer = await post(second.url, '/trpc/command', cookie, setUp)
    expect(await answer.json()).toMatchObject({
      result: { data: { ok: false, refusal: { code: 'not-allowed' } } },
    })
  })

  test('refuses to share a folder with another one, and says so', async () => {
    const first = await start()
    await expect(start()).rejects.toThrow('running on this data folder already')
    await stop(first)
    await expect(start()).resolves.toHaveProperty('url')
  })

  test('puts no demo into a folder that holds somebody’s own workshop', async () => {
    const first = await start()
    await post(first.url, '/trpc/command', await cookieFrom(first.windowUrl), setUp)
    await stop(first)
    await expect(start({ demo: true })).rejects.toThrow('holds a workshop of its own')
  })

  test('with a window lets in once, without one as often as its address is opened', async () => {
    const withWindow = await start({ window: true })
    expect((await enter(withWindow.windowUrl)).status).toBe(303)
    expect((await enter(withWindow.windowUrl)).status).toBe(403)
    await stop(withWindow)
    const without = await start()
    expect((await enter(without.windowUrl)).status).toBe(303)
    expect((await enter(without.windowUrl)).status).toBe(303)
  })

  test('knows its own window as one device, also where that has lost its cookie', async () => {
    const cookies: string[] = []
    for (let run = 0; run < 3; run += 1) {
      const host = await start({ window: true })
      cookies.push(await cookieFrom(host.windowUrl))
      await stop(host)
    }
    expect(new Set(cookies).size).toBe(3)
    const db = openDatabase(dataDir)
    expect(readDevices(db)).toMatchObject([{ name: "The host's own screen" }])
    db.close()
    const { url } = await start()
    const statuses = await Promise.all(
      cookies.map(
        async (cookie) => (await fetch(new URL('/trpc/session', url), { headers: { cookie } })).status,
      ),
    )
    expect(statuses).toEqual([401, 401, 200])
  })

  test('says what to do when its port is taken', async () => {
    const other = createServer()
    await new Promise<void>((resolve) => other.listen(0, '127.0.0.1', resolve))
    const { port } = other.address() as AddressInfo
    await expect(start({ port })).rejects.toThrow(/another program has it.*--port/)
    await new Promise((resolve) => other.close(resolve))
    // The folder is free again after the failed start.
    await expect(start()).resolves.toHaveProperty('url')
  })

  test('answers an upload that is too large instead of breaking the connection', async () => {
    const { url, windowUrl } = await start()
    const answer = await fetch(new URL('/photos', url), {
      method: 'PUT',
      headers: { cookie: await cookieFrom(windowUrl), origin: new URL(url).origin },
      body: new Uint8Array(60 * 1024 * 1024),
    })
    expect(answer.status).toBe(413)
    expect(await answer.json()).toMatchObject({ refusal: { message: expect.stringContaining('50 MB') } })
  })

  test('takes a photo through its workers and gives it back', async () => {
    const { url, windowUrl } = await start()
    const cookie = await cookieFrom(windowUrl)
    const put = await fetch(new URL('/photos', url), {
      method: 'PUT',
      headers: { cookie, origin: new URL(url).origin },
      body: new Uint8Array(await createTestPhoto({ width: 64, height: 48, color: '#357' })),
    })
    const { sha256 } = (await put.json()) as { sha256: string }
    const thumb = await fetch(new URL(`/photos/${sha256}/thumb`, url), { headers: { cookie } })
    expect(thumb.headers.get('content-type')).toBe('image/webp')
  })

  test('ends live connections when it closes, and its address answers no more', async () => {
    const host = await start()
    const live = await fetch(new URL('/trpc/revisions', host.url), {
      headers: { cookie: await cookieFrom(host.windowUrl), accept: 'text/event-stream' },
    })
    const heard = live.text()
    await stop(host)
    await expect(heard).resolves.toContain('event: connected')
    await expect(fetch(host.url)).rejects.toThrow('fetch failed')
  })

  test('closes everything though one of its parts fails at it, and gives its folder free', async () => {
    let isBroken = false
    const clock = () => {
      if (isBroken) throw new Error('The clock has stopped.')
      return Date.now()
    }
    const host = await start({ clock })
    isBroken = true
    await expect(stop(host)).rejects.toThrow('The clock has stopped.')
    isBroken = false
    await start({ clock })
  })
})
