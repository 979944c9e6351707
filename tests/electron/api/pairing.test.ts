import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest'
import { deviceIdSchema } from '../../../domain/ids.ts'
import { createTestHost, refusalOf, type TestHost, type TestScreen } from '../../support/host.ts'
import { askWith, pairWith, type PairedDevice, showPairingCode } from '../../support/pair.ts'
import { manager, welder } from '../../support/workshop.ts'

let host: TestHost
let desk: TestScreen
beforeAll(async () => {
  host = await createTestHost()
  desk = await host.openScreen()
  await desk.signIn(manager)
})
afterAll(() => host.close())
afterEach(() => {
  if (host.log.length > 0) throw new Error(`The host reported a defect: ${host.log.join('\n')}`)
})

const showCode = () => showPairingCode(desk)
const letIn = async (name: string): Promise<PairedDevice> => {
  const { text } = await showCode()
  return pairWith(host, { code: text, name })
}
const devices = async () => (await desk.client.devices.query()).devices

describe('a pairing code', () => {
  test('is shown to a signed-in manager in the host’s own window, with the address to scan', async () => {
    const { text, until, links } = await showCode()
    expect(until).toBe(host.workshop.now + 5 * 60_000)
    expect(links).toEqual([`https://192.168.1.20:47832/pair?code=${text}`])
  })

  test('is shown to nobody else: not without a session, not to a technician, not on a paired device', async () => {
    const other = await host.openScreen()
    expect((await refusalOf(other.client.pairingCode.mutate())).code).toBe('not-allowed')
    await other.signIn(welder)
    expect((await refusalOf(other.client.pairingCode.mutate())).code).toBe('not-allowed')
    const tablet = await letIn('Tablet')
    await tablet.signIn(manager)
    expect(await tablet.client.pairingCode.mutate()).toMatchObject({
      refusal: { message: 'A device is let in on the computer that Panelwright runs on.' },
    })
  })

  test('stands nowhere in the data folder', async () => {
    const { text } = await showCode()
    const tables = host.workshop.db.reader.sqlite
      .prepare(`SELECT name FROM sqlite_schema WHERE type = 'table'`)
      .pluck()
      .all() as readonly string[]
    const all = tables.map((name) => host.workshop.db.reader.sqlite.prepare(`SELECT * FROM "${name}"`).all())
    expect(JSON.stringify(all)).not.toContain(text)
  })
})

describe('the form', () => {
  const form = (path = '/pair') => askWith(host, path, {})

  test('is at every address of an unpaired device, under a policy without script', async () => {
    const answer = await form('/day-sheet')
    expect(answer.status).toBe(401)
    const page = await answer.text()
    expect(page).toContain('<form method="post" action="/pair">')
    const policy = answer.headers.get('content-security-policy') ?? ''
    const nonce = /<style nonce="([0-9a-f-]{36})">/.exec(page)?.[1]
    expect(policy).toBe(
      `default-src 'none'; style-src 'nonce-${nonce}'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'`,
    )
    // With 'no-referrer' a browser would say 'null' for the form's Origin, and the form would be refused.
    expect(answer.headers.get('referrer-policy')).toBe('same-origin')
  })

  test('has the scanned code filled in, and uses nothing up by being opened', async () => {
    const { text } = await showCode()
    expect(await (await form(`/pair?code=${text}`)).text()).toContain(`value="${text}"`)
    expect((await desk.client.devices.query()).code).toMatchObject({ is: 'open' })
  })

  test('opens from the page of a scanner as well, and nothing else does', async () => {
    const headers = { 'sec-fetch-site': 'cross-site', 'sec-fetch-mode': 'navigate' }
    expect((await askWith(host, '/pair?code=AAAAAAAA', { headers })).status).toBe(200)
    expect((await askWith(host, '/', { headers })).status).toBe(403)
    const fetched = { ...headers, 'sec-fetch-mode': 'no-cors' }
    expect((await askWith(host, '/pair?code=AAAAAAAA', { headers: fetched })).status).toBe(403)
  })

  test('shows what was put into its address as text', async () => {
    const page = await (await form(`/pair?code=${encodeURIComponent('"><b>x')}`)).text()
    expect(page).not.toContain('<b>')
    expect(page).not.toContain('<B>')
  })

  test('leads a device that is paired already to the screens, and uses no code up', async () => {
    const { text } = await showCode()
    expect((await desk.request('/pair')).headers.get('location')).toBe('/')
    const body = new URLSearchParams({ code: text, name: 'Again' })
    expect((await desk.request('/pair', { method: 'POST', body })).headers.get('set-cookie')).toBeNull()
    expect((await desk.client.devices.query()).code).toMatchObject({ is: 'open' })
  })

  test('says what is wrong and keeps what was typed', async () => {
    const answer = await askWith(host, '/pair', { body: { code: 'AAAA AAAA', name: 'Phone <of> Wren' } })
    expect(answer.status).toBe(403)
    const page = await answer.text()
    expect(page).toContain('This is not the code that is shown.')
    expect(page).toContain('value="AAAA AAAA"')
    expect(page).toContain('value="Phone &lt;of&gt; Wren"')
    host.workshop.pass({ minutes: 1 })
  })

  test.each([
    ['multipart/form-data; boundary=x', '{"0":{}}'],
    ['multipart/form-data', 'code=ABCD2345'],
    ['application/json', '{"code":"ABCD2345"}'],
    ['text/plain', ''],
  ])('that is no form, sent as %s, is refused in words', async (type, body) => {
    const headers = { origin: `http://${host.authority}`, 'content-type': type }
    const request = new Request(`http://${host.authority}/pair`, { method: 'POST', headers, body })
    const answer = await host.handler(request)
    expect(answer.status).toBe(422)
    expect(await answer.text()).toContain('Give a name.')
  })

  test('needs a name', async () => {
    const { text } = await showCode()
    const answer = await askWith(host, '/pair', { body: { code: text, name: '  ' } })
    expect(answer.status).toBe(422)
    expect(await answer.text()).toContain('Give a name.')
    expect((await desk.client.devices.query()).code).toMatchObject({ is: 'open' })
  })
})

describe('a device that was let in', () => {
  test('is in the list by its name, sees the workshop, and is not the host’s own screen', async () => {
    const tablet = await letIn('  Tablet   by the jig ')
    expect((await devices()).map(({ name }) => name)).toContain('Tablet by the jig')
    expect(await tablet.client.session.query()).toMatchObject({
      device: { name: 'Tablet by the jig' },
      isHostsOwn: false,
      signedIn: null,
    })
  })

  test('has a cookie that scripts cannot read and that no other site sends', async () => {
    const { setCookie } = await letIn('Phone')
    for (const part of ['HttpOnly', 'SameSite=Strict', 'Path=/']) expect(setCookie).toContain(part)
  })

  test('has its last use kept at most once a minute', async () => {
    const tablet = await letIn('Tablet at the bench')
    const lastUse = async () => (await devices()).find(({ name }) => name === 'Tablet at the bench')?.lastUsed
    const at = (minutes: number) => new Date(started + minutes * 60_000).toISOString()
    const started = host.workshop.now
    expect(await lastUse()).toBeNull()
    await tablet.client.session.query()
    expect(await lastUse()).toBe(at(0))
    host.workshop.pass({ minutes: 0.5 })
    await tablet.client.session.query()
    expect(await lastUse()).toBe(at(0))
    host.workshop.pass({ minutes: 0.5 })
    await tablet.client.session.query()
    expect(await lastUse()).toBe(at(1))
  })

  test('is renamed by a manager alone', async () => {
    const tablet = await letIn('Tablet')
    const { device } = await tablet.client.session.query()
    const renamed = { deviceId: device.id, name: 'Tablet by the oven' }
    await tablet.signIn(welder)
    expect((await refusalOf(tablet.client.renameDevice.mutate(renamed))).code).toBe('not-allowed')
    expect(await desk.client.renameDevice.mutate(renamed)).toEqual({ ok: true })
    expect((await tablet.client.session.query()).device.name).toBe('Tablet by the oven')
  })
})

describe('a device that is shut out', () => {
  const shutOut = async (device: PairedDevice) => {
    const { id: deviceId } = (await device.client.session.query()).device
    return desk.client.shutOutDevice.mutate({ deviceId })
  }

  test('is refused in words from then on, and what it sent stays', async () => {
    const tablet = await letIn('Lost tablet')
    const carId = host.workshop.addCar('Larkspur 4', 'S-LOST')
    await tablet.run('addNote', { text: 'seen by the tablet' }, { carId, by: welder })
    expect(await shutOut(tablet)).toEqual({ ok: true })
    expect(await refusalOf(tablet.client.session.query())).toEqual({
      code: 'not-paired',
      message: 'This device was shut out of the workshop.',
      next: 'Ask a manager for a pairing code and let it in again.',
    })
    const page = await tablet.request('/day-sheet')
    expect(page.status).toBe(401)
    expect(await page.text()).toContain('<h1>This device was shut out</h1>')
    expect((await devices()).map(({ name }) => name)).not.toContain('Lost tablet')
    const record = await desk.client.record.query({ carId })
    expect(record.lines.filter((line) => line.kind === 'noted')).toHaveLength(1)
  })

  test('has nobody signed in on it when it is let in again, under the name that it had', async () => {
    const tablet = await letIn('Phone of Wren')
    await tablet.signIn(manager)
    await shutOut(tablet)
    expect(await (await tablet.request('/pair')).text()).toContain('value="Phone of Wren"')
    const again = await letIn('Phone of Wren')
    expect(await again.client.session.query()).toMatchObject({ signedIn: null })
    expect((await devices()).filter(({ name }) => name === 'Phone of Wren')).toHaveLength(1)
  })

  test('was not shut out by a technician, by itself, or when nobody knows it', async () => {
    const tablet = await letIn('Kept tablet')
    const { id: deviceId } = (await tablet.client.session.query()).device
    const other = await host.openScreen()
    await other.signIn(welder)
    expect((await refusalOf(other.client.shutOutDevice.mutate({ deviceId }))).code).toBe('not-allowed')
    await tablet.signIn(manager)
    expect(await tablet.client.shutOutDevice.mutate({ deviceId })).toMatchObject({
      refusal: { message: 'This is the device that you are using.' },
    })
    const unknown = deviceIdSchema.parse('device-unknown')
    expect(await desk.client.shutOutDevice.mutate({ deviceId: unknown })).toMatchObject({
      refusal: { code: 'unknown' },
    })
    expect(await tablet.client.session.query()).toMatchObject({ signedIn: manager })
  })
})
