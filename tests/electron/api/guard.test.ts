import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { createTestHost, type TestHost, type TestScreen } from '../../support/host.ts'
import { createEntrySecret } from '../../../electron/api/entry-secret.ts'

let host: TestHost
let screen: TestScreen
beforeAll(async () => {
  host = await createTestHost({
    readScreen: (path) =>
      ({
        '/index.html': {
          type: 'text/html; charset=utf-8',
          bytes: new TextEncoder().encode('<head></head><p>screens'),
        },
        '/assets/index-Ab12.js': { type: 'text/javascript', bytes: new TextEncoder().encode('run()') },
        '/service-worker.js': { type: 'text/javascript', bytes: new TextEncoder().encode('serve()') },
        '/manifest.webmanifest': { type: 'application/manifest+json', bytes: new TextEncoder().encode('{}') },
        '/mark.svg': { type: 'image/svg+xml', bytes: new TextEncoder().encode('<svg/>') },
      })[path] ?? null,
  })
  screen = await host.openScreen()
})
afterAll(() => host.close())

const ask = (path: string, headers: Record<string, string> = {}, method = 'GET') =>
  host.handler(new Request(`http://${host.authority}${path}`, { method, headers }))

describe('a request', () => {
  test('of a paired screen is answered', async () => {
    const answer = await screen.request('/trpc/session')
    expect(answer.status).toBe(200)
  })

  test.each([
    ['another name that leads here', 'workshop.example:47831'],
    ['another port', '127.0.0.1:47832'],
    ['another name of this computer', 'localhost:47831'],
    ['no port', '127.0.0.1'],
  ])('for %s in its Host header is refused, paired or not', async (_what, hostHeader) => {
    const answer = await ask('/trpc/session', { cookie: screen.cookie, host: hostHeader })
    expect(answer.status).toBe(421)
    expect(await answer.json()).toMatchObject({ ok: false, refusal: { code: 'not-allowed' } })
  })

  test('whose address itself names another host is refused', async () => {
    const answer = await host.handler(new Request('http://workshop.example/trpc/session'))
    expect(answer.status).toBe(421)
  })

  test.each([
    ['another page', 'http://elsewhere.example'],
    ['a page on another port of this computer', 'http://127.0.0.1:8080'],
    ['a page of the same name by https', 'https://127.0.0.1:47831'],
    ['a page without an origin of its own', 'null'],
  ])('from %s is refused, also one that only reads', async (_what, origin) => {
    const cookie = screen.cookie
    expect((await ask('/trpc/session', { cookie, origin })).status).toBe(403)
    expect((await ask('/trpc/signOut', { cookie, origin }, 'POST')).status).toBe(403)
    expect((await ask('/trpc/revisions', { cookie, origin })).status).toBe(403)
  })

  test('that changes something and does not say where it comes from is refused', async () => {
    const answer = await ask('/trpc/signOut', { cookie: screen.cookie }, 'POST')
    expect(answer.status).toBe(403)
  })

  test.each(['cross-site', 'same-site'])('that the browser marks as %s is refused', async (site) => {
    const answer = await ask('/trpc/session', { cookie: screen.cookie, 'sec-fetch-site': site })
    expect(answer.status).toBe(403)
  })

  test('larger than any command or file is refused before it is read', async () => {
    const answer = await screen.request('/trpc/importPreview', {
      method: 'POST',
      headers: { 'content-type': 'application/json', 'content-length': String(17 * 1024 * 1024) },
      body: '{}',
    })
    expect(answer.status).toBe(413)
  })
})

describe('what opens the screens without the host', () => {
  test('may fetch from this host and do nothing else, and is asked for each time', async () => {
    const { headers } = await screen.request('/service-worker.js')
    expect(headers.get('content-security-policy')).toBe("default-src 'none'; connect-src 'self'")
    expect(headers.get('cache-control')).toBe('no-cache')
  })

  test('is allowed by the page’s policy, which stays without inline and eval', async () => {
    const { headers } = await screen.request('/')
    const policy = headers.get('content-security-policy') ?? ''
    expect(policy).toContain("worker-src 'self'; ")
    expect(policy).toContain("manifest-src 'self'; ")
    expect(policy).not.toMatch(/unsafe/)
  })

  test.each(['/service-worker.js', '/manifest.webmanifest'])(
    '%s is for paired screens only',
    async (path) => {
      expect((await ask(path)).status).toBe(401)
    },
  )
})

describe('a screen that is not paired', () => {
  test.each([
    ['/trpc/session', 'GET'],
    ['/trpc/command', 'POST'],
    ['/trpc/revisions', 'GET'],
    ['/photos', 'PUT'],
    [`/photos/${'a'.repeat(64)}/thumb`, 'GET'],
  ])('gets 401 and why from %s', async (path, method) => {
    const origin: Record<string, string> = method === 'GET' ? {} : { origin: `http://${host.authority}` }
    const answer = await ask(path, origin, method)
    expect(answer.status).toBe(401)
    expect(await answer.text()).toContain('"code":"not-paired"')
  })

  test.each(['/', '/cars/car-one', '/assets/index-Ab12.js'])(
    'is shown how to pair, and nothing else, at %s',
    async (path) => {
      const answer = await ask(path)
      expect(answer.status).toBe(401)
      const page = await answer.text()
      expect(page).toContain('This screen is not paired')
      expect(page).not.toContain('<p>screens')
      expect(page).not.toContain('<script')
    },
  )

  test('is not let in by a cookie of its own making', async () => {
    const answer = await ask('/trpc/session', { cookie: 'panelwright-test=made-up' })
    expect(answer.status).toBe(401)
  })

  test('is not let in by a wrong secret', async () => {
    const answer = await ask(`/?enter=${'0'.repeat(64)}`)
    expect(answer.status).toBe(403)
    expect(answer.headers.get('set-cookie')).toBeNull()
  })
})

describe('pairing', () => {
  test('turns the secret into a cookie that scripts cannot read, and the address loses it', async () => {
    const answer = await ask(host.entryPath)
    expect(answer.status).toBe(303)
    expect(answer.headers.get('location')).toBe('/')
    const cookie = answer.headers.get('set-cookie') ?? ''
    expect(cookie).toMatch(/^panelwright-test=[\w-]{43};/)
    for (const part of ['HttpOnly', 'SameSite=Strict', 'Path=/']) expect(cookie).toContain(part)
    expect(cookie).not.toContain('Domain')
  })

  test('again keeps the device that is known already', async () => {
    const before = await screen.client.session.query()
    const answer = await screen.request(host.entryPath)
    expect(answer.status).toBe(303)
    expect(answer.headers.get('set-cookie')).toBeNull()
    expect((await screen.client.session.query()).device).toEqual(before.device)
  })

  test('with a secret for one use works once', () => {
    const secret = createEntrySecret('once')
    expect(secret.use('')).toBe(false)
    expect(secret.use(`${secret.text}0`)).toBe(false)
    expect(secret.use(secret.text)).toBe(true)
    expect(secret.use(secret.text)).toBe(false)
  })

  test('by a printed address serves every screen of that run', () => {
    const secret = createEntrySecret('this run')
    expect(secret.text).toMatch(/^[0-9a-f]{64}$/)
    expect(secret.use(secret.text)).toBe(true)
    expect(secret.use(secret.text)).toBe(true)
  })
})

describe('the screens', () => {
  test('are served under a policy that lets only their own files run', async () => {
    const answer = await screen.request('/')
    const nonce = /<meta property="csp-nonce" nonce="([0-9a-f-]{36})">/.exec(await answer.text())?.[1]
    const policy = answer.headers.get('content-security-policy') ?? ''
    expect(policy).toContain("default-src 'none'")
    expect(policy).toContain("script-src 'self'")
    expect(policy).toContain(`style-src 'self' 'nonce-${nonce}';`)
    expect(policy).toContain("frame-ancestors 'none'")
    expect(policy).not.toContain('unsafe')
    expect(answer.headers.get('cache-control')).toBe('no-cache')
  })

  test('get another nonce with every answer', async () => {
    const policies = [await screen.request('/'), await screen.request('/')].map((answer) =>
      answer.headers.get('content-security-policy'),
    )
    expect(policies[0]).not.toBe(policies[1])
  })

  test.each([
    ['x-content-type-options', 'nosniff'],
    ['referrer-policy', 'no-referrer'],
    ['cross-origin-opener-policy', 'same-origin'],
    ['cross-origin-resource-policy', 'same-origin'],
    ['permissions-policy', expect.stringContaining('camera=(self), microphone=()')],
  ])('say %s', async (name, value) => {
    expect((await screen.request('/')).headers.get(name)).toEqual(value)
    expect((await screen.request('/trpc/session')).headers.get(name)).toEqual(value)
  })

  test('are one page at every address without a file name', async () => {
    expect(await (await screen.request('/cars/car-one/repairs/repair-two')).text()).toContain('<p>screens')
  })

  test('have files that are kept for good when a digest names them, and looked for each time when not', async () => {
    const hashed = await screen.request('/assets/index-Ab12.js')
    expect(hashed.headers.get('content-type')).toBe('text/javascript')
    expect(hashed.headers.get('cache-control')).toContain('immutable')
    expect((await screen.request('/mark.svg')).headers.get('cache-control')).toBe('no-cache')
  })

  test.each([
    '/assets/none.js',
    '/../package.json',
    '/%2e%2e/package.json',
    '/assets/..%2f..%2fpackage.json',
  ])('have no file at %s', async (path) => {
    expect((await screen.request(path)).status).toBe(404)
  })
})
