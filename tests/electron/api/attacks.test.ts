import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest'
import { createTestHost, type TestHost, type TestScreen } from '../../support/host.ts'
import { createTestPhoto } from '../../support/images.ts'
import { askWith, pairWith, showPairingCode } from '../../support/pair.ts'
import { manager, welder } from '../../support/workshop.ts'

const SCREENS = '<p>screens'

let host: TestHost
let desk: TestScreen
let carId: string
let sha256: string
beforeAll(async () => {
  host = await createTestHost({
    readScreen: (path) =>
      path === '/index.html' ? { type: 'text/html', bytes: new TextEncoder().encode(SCREENS) } : null,
  })
  desk = await host.openScreen()
  await desk.signIn(manager)
  carId = host.workshop.addCar('Larkspur 4', 'S-101')
  const photo = await createTestPhoto({ width: 64, height: 48, color: '#357' })
  sha256 = ((await (await desk.upload(photo)).json()) as { sha256: string }).sha256
})
afterAll(() => host.close())
afterEach(() => {
  if (host.log.length > 0) throw new Error(`The host reported a defect: ${host.log.join('\n')}`)
})

const showCode = async () => (await showPairingCode(desk)).text
const codeIs = async () => (await desk.client.devices.query()).code?.is
const deviceCount = async () => (await desk.client.devices.query()).devices.length
const ownOrigin = () => `http://${host.authority}`
const raw = (path: string, init: RequestInit = {}) => host.handler(new Request(`${ownOrigin()}${path}`, init))

/** Everything that leaves by a plain address. */
const files = () => [
  ...['thumb', 'screen', 'original'].map((size) => `/photos/${sha256}/${size}`),
  ...['pdf', 'html', 'eml'].map((as) => `/reports/report-one.${as}`),
  ...['pdf', 'html', 'json'].map((as) => `/report-preview/visit-one/2026-W48.${as}`),
  ...['all.xlsx', 'entries.csv', 'gate.csv'].map((file) => `/variance/${file}`),
  ...['pdf', 'json'].flatMap((as) => [
    `/estimate/${carId}.${as}`,
    `/variations/${carId}/variation-one.${as}`,
  ]),
  ...['zip', 'pdf'].map((as) => `/car-files/${carId}.${as}`),
  '/whole-workshop.zip',
  '/take-out/hours.csv',
  '/plan/person/person-welder.pdf',
]

describe('without a cookie', () => {
  test('no file is given, and nothing is taken', async () => {
    for (const path of files()) expect((await raw(path)).status, path).toBe(401)
    for (const path of ['/photos', '/came-files', '/whole-workshop'])
      expect((await raw(path, { method: 'PUT', headers: { origin: ownOrigin() }, body: 'x' })).status).toBe(
        401,
      )
  })

  test('a cookie of one’s own making, of another name or many of them let nobody in', async () => {
    const token = desk.cookie.split('=')[1]
    const made = ['panelwright-test=x', `panelwright-other=${token}`, `__Host-panelwright-test=${token}`]
    const many = Array.from({ length: 200 }, (_, at) => `panelwright-test=${at}`).join('; ')
    for (const cookie of [...made, many])
      expect((await raw('/trpc/session', { headers: { cookie } })).status, cookie.slice(0, 40)).toBe(401)
  })
})

describe('a stolen pairing code', () => {
  test('lets nobody in a second time', async () => {
    const code = await showCode()
    await pairWith(host, { code, name: 'Tablet' })
    const stolen = await askWith(host, '/pair', { body: { code, name: 'Thief' }, address: '192.168.1.66' })
    expect(stolen.status).toBe(403)
    expect(stolen.headers.get('set-cookie')).toBeNull()
    expect(await stolen.text()).toContain('This code has let a device in already')
  })

  test('lets nobody in after its five minutes', async () => {
    const code = await showCode()
    host.workshop.pass({ minutes: 5 })
    const late = await askWith(host, '/pair', { body: { code, name: 'Thief' }, address: '192.168.1.66' })
    expect(late.headers.get('set-cookie')).toBeNull()
    expect(await late.text()).toContain('This code has run out')
    await desk.signIn(manager)
  })
})

describe('guessing a pairing code', () => {
  const guess = (code: string, address: string) =>
    askWith(host, '/pair', { body: { code, name: 'Guesser' }, address })

  test('is slowed at the second guess and voids the code at the fifth', async () => {
    const code = await showCode()
    expect((await guess('AAAAAAAA', '192.168.1.70')).status).toBe(403)
    const slowed = await guess(code, '192.168.1.70')
    expect(slowed.status).toBe(429)
    expect(slowed.headers.get('set-cookie')).toBeNull()
    for (const at of [71, 72, 73]) expect((await guess('AAAAAAAA', `192.168.1.${at}`)).status).toBe(403)
    expect((await guess('AAAAAAAA', '192.168.1.74')).status).toBe(429)
    expect(await codeIs()).toBe('void')
    expect((await guess(code, '192.168.1.75')).headers.get('set-cookie')).toBeNull()
  })

  test('by a thousand requests at once lets nobody in', async () => {
    await showCode()
    const before = await deviceCount()
    const answers = await Promise.all(
      Array.from({ length: 1_000 }, (_, at) =>
        guess(`A${String(at).padStart(7, '0')}`, `10.1.${at % 8}.${at % 250}`),
      ),
    )
    expect(answers.filter((answer) => answer.headers.get('set-cookie') !== null)).toEqual([])
    expect(await deviceCount()).toBe(before)
  })
})

describe('from another page', () => {
  test.each([
    ['another origin', { origin: 'http://elsewhere.example' }],
    ['an origin that hides itself', { origin: 'null' }],
    ['a cross-site form', { 'sec-fetch-site': 'cross-site', 'sec-fetch-mode': 'navigate' }],
    ['a page of a neighbouring name', { 'sec-fetch-site': 'same-site' }],
  ])('%s pairs nothing, with the right code either', async (_what, headers) => {
    const code = await showCode()
    const answer = await askWith(host, '/pair', { body: { code, name: 'Thief' }, headers })
    expect(answer.status).toBe(403)
    expect(answer.headers.get('set-cookie')).toBeNull()
    expect(await codeIs()).toBe('open')
  })

  test('a form without an origin pairs nothing', async () => {
    const code = await showCode()
    const body = new URLSearchParams({ code, name: 'Thief' })
    expect((await raw('/pair', { method: 'POST', body })).status).toBe(403)
    expect(await codeIs()).toBe('open')
  })

  test.each(['workshop.example', 'workshop.example:47831', '127.0.0.1:80', 'localhost:47831'])(
    'a name that was pointed here, %s, gets neither the form nor the screens',
    async (forged) => {
      const headers = { host: forged, cookie: desk.cookie }
      for (const path of ['/', '/pair', '/trpc/session'])
        expect((await raw(path, { headers })).status).toBe(421)
      const code = await showCode()
      const answer = await askWith(host, '/pair', {
        body: { code, name: 'Thief' },
        headers: { host: forged },
      })
      expect(answer.status).toBe(421)
      expect(await codeIs()).toBe('open')
    },
  )

  test('a form that a paired browser is made to send changes nothing', async () => {
    for (const path of ['/trpc/signOut', '/trpc/shutOutDevice', '/trpc/pairingCode']) {
      const headers = {
        cookie: desk.cookie,
        origin: 'http://elsewhere.example',
        'content-type': 'text/plain',
      }
      expect((await raw(path, { method: 'POST', headers, body: '{}' })).status).toBe(403)
    }
    expect(await desk.client.session.query()).toMatchObject({ signedIn: manager })
  })

  test('no other page may read an answer', async () => {
    const answer = await desk.request('/trpc/session')
    expect(answer.headers.get('access-control-allow-origin')).toBeNull()
    expect(answer.headers.get('cross-origin-resource-policy')).toBe('same-origin')
  })
})

describe('a path that leads elsewhere', () => {
  const tricks = [
    '../journal.sqlite',
    '..%2fjournal.sqlite',
    '..%2f..%2f..%2fetc%2fpasswd',
    '%2e%2e%2fjournal.sqlite',
    '..%5c..%5cprivate%5ccode-key',
    '....//....//etc/passwd',
    'C:%5cWindows%5cwin.ini',
    '%00',
    `${'a'.repeat(63)}/`,
    `${'A'.repeat(64)}`,
    'a'.repeat(5_000),
  ]

  /** Nothing, or the one page that stands at every address of the screens. */
  const leads = async (path: string): Promise<string> => {
    const answer = await desk.request(path)
    const said = await answer.text()
    if (answer.status === 200 && said === SCREENS) return 'nowhere'
    return [400, 404, 422].includes(answer.status) ? 'nowhere' : `${answer.status} ${said.slice(0, 80)}`
  }

  test.each(tricks)('as the name of a photo: %s', async (trick) => {
    for (const size of ['thumb', 'screen', 'original', '..%2foriginal'])
      expect(await leads(`/photos/${trick}/${size}`)).toBe('nowhere')
  })

  test.each(tricks)('as the name of any other file: %s', async (trick) => {
    const places =
      '/ /reports/ /report-preview/visit-one/ /estimate/ /take-out/ /variance/ /plan/person/ /assets/ /car-files/'
    const all = [...places.split(' '), `/variations/${carId}/`]
    for (const place of all)
      for (const as of ['', '.pdf', '.html', '.csv'])
        expect(await leads(`${place}${trick}${as}`), `${place}…${as}`).toBe('nowhere')
  })
})

describe('a technician', () => {
  test('gets no file that is for managers', async () => {
    const tablet = await pairWith(host, { code: await showCode(), name: 'Tablet' })
    await tablet.signIn(welder)
    const forManagers = files().filter((path) =>
      /eml|preview.*(html|json)|estimate|variations|car-files|whole|take-out/.test(path),
    )
    expect(forManagers.length).toBeGreaterThan(8)
    for (const path of forManagers) expect((await tablet.request(path)).status, path).toBe(403)
    for (const path of ['/came-files', '/whole-workshop'])
      expect((await tablet.request(path, { method: 'PUT', body: 'x' })).status, path).toBeGreaterThanOrEqual(
        400,
      )
  })
})

describe('ten thousand slow requests at once', () => {
  test('keep neither the window from its answers nor a device from being let in', async () => {
    const code = await showCode()
    const endings: (() => void)[] = []
    let answered = 0
    const askSlowly = async (at: number): Promise<number> => {
      const body = new ReadableStream<Uint8Array>({
        start: (controller) => {
          controller.enqueue(new TextEncoder().encode('code='))
          endings.push(() => controller.close())
        },
      })
      const headers = { origin: ownOrigin(), 'content-type': 'application/x-www-form-urlencoded' }
      const init = { method: 'POST', headers, body, duplex: 'half' } as RequestInit
      const address = `10.2.${Math.floor(at / 250)}.${at % 250}`
      const { status } = await host.handler(new Request(`${ownOrigin()}/pair`, init), { address })
      answered += 1
      return status
    }
    const slow = Array.from({ length: 10_000 }, (_, at) => askSlowly(at))
    expect(await desk.client.session.query()).toMatchObject({ signedIn: manager })
    const tablet = await pairWith(host, { code, name: 'Tablet' })
    expect(await tablet.client.session.query()).toMatchObject({ device: { name: 'Tablet' } })
    expect(answered).toBe(0)
    for (const end of endings) end()
    expect(new Set(await Promise.all(slow))).toEqual(new Set([422]))
  })
})

describe('a body that is too large', () => {
  const MB = 1024 * 1024
  /** Comes in pieces, so that its length is not known before. */
  const stream = (bytes: number) => {
    let left = bytes
    return new ReadableStream<Uint8Array>({
      pull: (controller) => {
        if (left <= 0) return controller.close()
        controller.enqueue(new Uint8Array(Math.min(left, MB)).fill(32))
        left -= MB
      },
    })
  }
  const streamed = (bytes: number, method: string) =>
    ({ method, body: stream(bytes), duplex: 'half' }) as unknown as RequestInit

  test('is refused for a call, whether or not it says its length', async () => {
    const says = { 'content-type': 'application/json', 'content-length': String(17 * MB) }
    expect((await desk.request('/trpc/command', { method: 'POST', headers: says, body: '{}' })).status).toBe(
      413,
    )
    const answer = await desk.request('/trpc/command', {
      ...streamed(17 * MB, 'POST'),
      headers: { 'content-type': 'application/json' },
    })
    expect(answer.status).toBe(413)
  })

  test('is refused for the form, of a device that nobody knows', async () => {
    const large = await askWith(host, '/pair', { body: { code: 'A'.repeat(5_000), name: 'x' } })
    expect(large.status).toBe(413)
    const headers = { origin: ownOrigin(), 'content-type': 'application/x-www-form-urlencoded' }
    expect((await raw('/pair', { ...streamed(MB, 'POST'), headers })).status).toBe(413)
  })

  test('is refused for a photo', async () => {
    expect((await desk.request('/photos', streamed(51 * MB, 'PUT'))).status).toBe(413)
  })

  test('of many calls in one is refused', async () => {
    const names = Array.from({ length: 21 }, () => 'session').join(',')
    expect((await desk.request(`/trpc/${names}?batch=1&input=%7B%7D`)).status).toBe(400)
  })
})
