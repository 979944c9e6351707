import { execFileSync } from 'node:child_process'
import { once } from 'node:events'
import { mkdtempSync, readFileSync, rmSync } from 'node:fs'
import type { IncomingMessage, ServerResponse } from 'node:http'
import { createServer, type Server } from 'node:https'
import type { AddressInfo } from 'node:net'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, beforeEach, describe, expect, onTestFinished, test } from 'vitest'
import { PROGRAM_VERSION } from '../../../domain/program-version.ts'
import { readFeed } from '../../../electron/updates/read-feed.ts'
import { createTestHost, refusalOf } from '../../support/host.ts'
import { manager } from '../../support/workshop.ts'

const page = 'https://versions.example/news'
const feed = (version: string) => JSON.stringify({ version, page })

let folder: string
let server: Server
let address: string
/** What the server's certificate is signed with: itself. */
let ca: string
let asked: IncomingMessage[]
let answer: (response: ServerResponse) => void
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'panelwright-feed-'))
  const [key, cert] = [join(folder, 'key.pem'), join(folder, 'cert.pem')]
  const kind = ['-newkey', 'ec', '-pkeyopt', 'ec_paramgen_curve:prime256v1', '-nodes', '-days', '2']
  const names = ['-subj', '/CN=127.0.0.1', '-addext', 'subjectAltName=IP:127.0.0.1']
  execFileSync('openssl', ['req', '-x509', ...kind, ...names, '-keyout', key, '-out', cert], {
    stdio: 'ignore',
  })
  ca = readFileSync(cert, 'utf8')
  server = createServer({ key: readFileSync(key), cert: ca }, (request, response) => {
    asked.push(request)
    answer(response)
  }).listen(0, '127.0.0.1')
  await once(server, 'listening')
  address = `https://127.0.0.1:${(server.address() as AddressInfo).port}/versions.json`
})
beforeEach(() => {
  asked = []
  answer = (response) => response.end(feed('99.0.0'))
})
afterAll(() => {
  server.closeAllConnections()
  server.close()
  rmSync(folder, { recursive: true })
})

const read = (more = {}) => readFeed(address, { ca, ...more })
const refusedWith = (words: string) => ({
  ok: false,
  refusal: { message: expect.stringContaining(words) as string },
})

describe('a version feed', () => {
  test('is read over an encrypted connection, and learns nothing of the workshop', async () => {
    expect(await read()).toEqual({ ok: true, value: { version: '99.0.0', page } })
    expect(asked).toHaveLength(1)
    const [{ method, url, headers }] = asked as [IncomingMessage]
    expect({ method, url }).toEqual({ method: 'GET', url: '/versions.json' })
    expect(Object.keys(headers).toSorted()).toEqual(['accept', 'connection', 'host', 'user-agent'])
    expect(headers['user-agent']).toBe('Panelwright')
  })

  test('of an address without encryption is not asked for', async () => {
    expect(await readFeed(address.replace('https:', 'http:'))).toMatchObject(
      refusedWith('begins with https://'),
    )
    expect(asked).toEqual([])
  })

  test('of an address that nobody vouches for is not read', async () => {
    expect(await readFeed(address)).toMatchObject(refusedWith('could not prove that it is the right one'))
    expect(asked).toEqual([])
  })

  test('whose certificate is for another name is not read', async () => {
    const other = address.replace('127.0.0.1', 'localhost')
    expect(await readFeed(other, { ca })).toMatchObject(
      refusedWith('could not prove that it is the right one'),
    )
    expect(asked).toEqual([])
  })

  test('is not looked for at another address, wherever it sends on to', async () => {
    for (const location of ['https://elsewhere.invalid/', '/other.json', 'http://127.0.0.1/']) {
      answer = (response) => response.writeHead(302, { location }).end()
      expect(await read()).toMatchObject(refusedWith('sends on to another one, which is not followed'))
    }
    expect(asked).toHaveLength(3)
  })

  test('that is long is given up, whatever length it states', async () => {
    let isBroken = false
    answer = (response) => {
      response.on('close', () => (isBroken = !response.writableFinished))
      const more = () =>
        response.write(' '.repeat(4_096), () => void (response.destroyed || setImmediate(more)))
      more()
    }
    expect(await read()).toMatchObject(refusedWith('does not say which version is there'))
    await expect.poll(() => isBroken).toBe(true)
  })

  test('that says nothing, or drips, is given up in time', async () => {
    answer = () => {}
    expect(await read({ mostMs: 200 })).toMatchObject(refusedWith('did not answer in time'))
    answer = (response) => {
      const drip = setInterval(() => response.write(' '), 20)
      response.on('close', () => clearInterval(drip))
    }
    expect(await read({ mostMs: 300 })).toMatchObject(refusedWith('did not answer in time'))
  })

  test('that is no feed, or not there, says so', async () => {
    for (const text of [
      '',
      '<html>',
      '{"version":"99.0.0"}',
      '{"version":"new","page":"https://x.example/"}',
    ]) {
      answer = (response) => response.end(text)
      expect(await read()).toMatchObject(refusedWith('does not say which version is there'))
    }
    answer = (response) => response.writeHead(404).end()
    expect(await read()).toMatchObject(refusedWith('answered with 404'))
    expect(await readFeed('https://127.0.0.1:1/', { ca })).toMatchObject(refusedWith('Nothing could be read'))
  })
})

const DAY_MS = 24 * 3_600_000

async function workshop() {
  const host = await createTestHost({ updates: { feed: { ca } } })
  onTestFinished(() => host.close())
  const screen = await host.openScreen()
  await screen.signIn(manager)
  const { client } = screen
  return { host, client, state: () => client.updates.query() }
}

describe('looking for newer versions', () => {
  test('is off until a manager sets an address: nobody is asked', async () => {
    const { host, client, state } = await workshop()
    await host.tick()
    expect(await state()).toEqual({ version: PROGRAM_VERSION, address: null, tried: null, newer: null })
    expect(await client.lookForUpdate.mutate()).toMatchObject(refusedWith('No address is set'))
    expect(asked).toEqual([])
  })

  test('is done once a week, and what is found is told and nothing more', async () => {
    const { host, client, state } = await workshop()
    expect(await client.setUpdates.mutate({ address })).toEqual({ ok: true, value: true })
    await host.tick()
    expect(await state()).toMatchObject({
      address,
      newer: { version: '99.0.0', page },
      tried: { problem: null },
    })
    host.workshop.now += 6 * DAY_MS
    await host.tick()
    expect(asked).toHaveLength(1)
    host.workshop.now += 2 * DAY_MS
    await host.tick()
    expect(asked).toHaveLength(2)
  })

  test('says nothing of the version that runs, or of an older one', async () => {
    const { client, state } = await workshop()
    await client.setUpdates.mutate({ address })
    for (const version of [PROGRAM_VERSION, '0.0.1']) {
      answer = (response) => response.end(feed(version))
      expect(await client.lookForUpdate.mutate()).toEqual({ ok: true, value: true })
      expect(await state()).toMatchObject({ newer: null, tried: { problem: null } })
    }
  })

  test('says why nothing was found out, and keeps what was found before', async () => {
    const { host, client, state } = await workshop()
    await client.setUpdates.mutate({ address })
    await host.tick()
    answer = (response) => response.writeHead(503).end()
    expect(await client.lookForUpdate.mutate()).toMatchObject(refusedWith('answered with 503'))
    const { tried, newer } = await state()
    expect(tried?.problem).toMatch(/^The address answered with 503\. /)
    expect(newer?.version).toBe('99.0.0')
    host.workshop.now += DAY_MS
    await host.tick()
    expect(asked).toHaveLength(3)
    expect(host.log).toEqual([])
  })

  test('ends when it is switched off, and what was found is forgotten', async () => {
    const { host, client, state } = await workshop()
    await client.setUpdates.mutate({ address })
    await host.tick()
    await client.setUpdates.mutate({ address: null })
    expect(await state()).toMatchObject({ address: null, newer: null })
    host.workshop.now += 30 * DAY_MS
    await host.tick()
    expect(asked).toHaveLength(1)
  })

  test('takes no address that is not encrypted', async () => {
    const { client } = await workshop()
    for (const other of ['http://versions.example/', 'https://a:b@versions.example/'])
      expect(await refusalOf(client.setUpdates.mutate({ address: other }))).toMatchObject({
        code: 'bad-input',
      })
  })
})
