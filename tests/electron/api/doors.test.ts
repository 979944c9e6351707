import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import type { Door } from '../../../electron/api/door.ts'
import { createTestHost, type TestHost } from '../../support/host.ts'

const secure: Door = {
  origins: ['https://192.168.7.20:47832', 'https://panelwright-1a2b3c4d.local:47832'],
  isNetwork: true,
}
const plain: Door = { origins: ['http://192.168.7.20:47832'], isNetwork: true }
const tablet = { address: '192.168.7.31' }

let host: TestHost
let cookie: string
beforeAll(async () => {
  host = await createTestHost()
  ;({ cookie } = await host.openScreen())
})
afterAll(() => host.close())

function ask(door: Door, url: string, headers: Record<string, string> = {}, method = 'GET') {
  return host.handler(new Request(url, { method, headers }), tablet, door)
}

describe('a request over the workshop network', () => {
  test.each([
    ['the address', 'https://192.168.7.20:47832/'],
    ['the name', 'https://panelwright-1a2b3c4d.local:47832/'],
  ])('to %s of the host is answered, with how to pair', async (_what, url) => {
    expect((await ask(secure, url)).status).toBe(401)
  })

  test.each([
    ['a name that somebody pointed here', secure, 'https://workshop.example:47832/'],
    ['the loopback address', secure, 'https://127.0.0.1:47832/'],
    ['the loopback address on its own port', plain, `http://127.0.0.1:47831/`],
    ['another address of the host', secure, 'https://192.168.7.21:47832/'],
    ['another port', secure, 'https://192.168.7.20/'],
    ['the same address without HTTPS', secure, 'http://192.168.7.20:47832/'],
    ['the same address with HTTPS that is not there', plain, 'https://192.168.7.20:47832/'],
  ])('to %s is refused', async (_what, door, url) => {
    expect((await ask(door, url)).status).toBe(421)
  })

  test('whose Host header names another host than its address is refused', async () => {
    const answer = await ask(secure, 'https://192.168.7.20:47832/', { host: 'workshop.example' })
    expect(answer.status).toBe(421)
  })

  test.each([
    'https://panelwright-1a2b3c4d.local:47832',
    'http://192.168.7.20:47832',
    'http://127.0.0.1:47831',
    'null',
  ])('from a page of %s is refused: that is another page, whoever serves it', async (origin) => {
    for (const method of ['GET', 'POST'])
      expect((await ask(secure, 'https://192.168.7.20:47832/trpc/signOut', { origin }, method)).status).toBe(
        403,
      )
  })

  test('cannot use the secret of the host’s own screens', async () => {
    const answer = await ask(secure, `https://192.168.7.20:47832${host.entryPath}`)
    expect(answer.status).toBe(403)
    expect(answer.headers.get('set-cookie')).toBeNull()
  })

  test('is not let in over HTTPS by a cookie that a plain page could have set', async () => {
    const url = 'https://192.168.7.20:47832/trpc/session'
    expect((await ask(secure, url, { cookie })).status).toBe(401)
    expect((await ask(secure, url, { cookie: `__Host-${cookie}` })).status).toBe(200)
  })

  test('tells browsers to keep to HTTPS only where it came by HTTPS', async () => {
    const told = async (door: Door, url: string) =>
      (await ask(door, url)).headers.get('strict-transport-security')
    expect(await told(secure, 'https://192.168.7.20:47832/')).toBe('max-age=86400')
    expect(await told(plain, 'http://192.168.7.20:47832/')).toBeNull()
    const own = await host.handler(new Request(`http://${host.authority}/`))
    expect(own.headers.get('strict-transport-security')).toBeNull()
  })
})
