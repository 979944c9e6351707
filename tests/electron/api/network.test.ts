import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { createTestHost, refusalOf, type TestHost, type TestScreen } from '../../support/host.ts'
import { manager, welder } from '../../support/workshop.ts'

const lan = { address: '192.168.1.31' }
const secure = { origins: ['https://192.168.1.20:47832'], isNetwork: true }
const plain = { origins: ['http://192.168.1.20:47832'], isNetwork: true }

let host: TestHost
let screen: TestScreen
beforeAll(async () => {
  host = await createTestHost()
  screen = await host.openScreen()
})
afterAll(() => host.close())

const openNetwork = () => screen.client.openNetwork.mutate({ scheme: 'https' })
const closeNetwork = () => screen.client.closeNetwork.mutate()

/** The same device as if its cookie were taken to the network. */
async function overNetwork(call: string, body: string) {
  const url = `${secure.origins[0]}/trpc/${call}`
  const headers = {
    cookie: `__Host-${screen.cookie}`,
    origin: secure.origins[0]!,
    'content-type': 'application/json',
  }
  const answer = await host.handler(new Request(url, { method: 'POST', headers, body }), lan, secure)
  return answer.text()
}

describe('the switch of the workshop network', () => {
  test('is not for whoever has not given a manager’s code', async () => {
    expect((await refusalOf(openNetwork())).code).toBe('not-allowed')
    await screen.signIn(welder)
    expect((await refusalOf(openNetwork())).code).toBe('not-allowed')
    expect((await refusalOf(closeNetwork())).code).toBe('not-allowed')
    expect((await refusalOf(screen.client.network.query())).code).toBe('not-allowed')
  })

  test('is the manager’s in the host’s own window', async () => {
    await screen.signIn(manager)
    expect(await screen.client.network.query()).toEqual({ kind: 'closed' })
    expect(await openNetwork()).toEqual({ ok: true, value: true })
    expect(await screen.client.network.query()).toMatchObject({
      kind: 'open',
      origins: ['https://192.168.1.20:47832'],
    })
    expect(await closeNetwork()).toEqual({ ok: true, value: true })
    expect(await screen.client.network.query()).toEqual({ kind: 'closed' })
  })

  test('is nobody’s over the network, a signed-in manager’s neither', async () => {
    await screen.signIn(manager)
    await openNetwork()
    expect(await overNetwork('openNetwork', '{"scheme":"http"}')).toContain('"code":"not-allowed"')
    expect(await overNetwork('closeNetwork', '')).toContain('"code":"not-allowed"')
    expect(await screen.client.network.query()).toMatchObject({ kind: 'open', scheme: 'https' })
  })
})

describe('the certificate of the authority', () => {
  const path = '/workshop-certificate.crt'
  const fetched = (door: typeof secure) => host.handler(new Request(`${door.origins[0]}${path}`), lan, door)

  test('is had from the window and over HTTPS, before a device is paired', async () => {
    await screen.signIn(manager)
    await openNetwork()
    for (const answer of [await screen.request(path), await fetched(secure)]) {
      expect(answer.status).toBe(200)
      expect(answer.headers.get('content-type')).toBe('application/x-x509-ca-cert')
      expect(await answer.bytes()).toEqual(Uint8Array.of(1, 2, 3))
    }
  })

  test('is not had by plain HTTP, where anybody on the way could exchange it', async () => {
    await screen.signIn(manager)
    await openNetwork()
    expect((await fetched(plain)).status).toBe(404)
  })

  test('is not there before there is an authority', async () => {
    await screen.signIn(manager)
    await closeNetwork()
    expect((await screen.request(path)).status).toBe(404)
  })
})
