import { readdirSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { gunzipSync, gzipSync } from 'node:zlib'
import { expect, onTestFinished, test } from 'vitest'
import { screenOfPath } from '../../../electron/api/screen-of-path.ts'
import { createTestHost } from '../../support/host.ts'

const script = 'run()'

async function screenOf(path: string, accepted: string | null): Promise<Response> {
  const host = await createTestHost({
    readScreen: (asked) =>
      asked === '/assets/index-Ab12.js'
        ? {
            type: 'text/javascript',
            bytes: new TextEncoder().encode(script),
            gzipped: new Uint8Array(gzipSync(script)),
          }
        : null,
  })
  onTestFinished(() => host.close())
  const { cookie } = await host.openScreen()
  const headers = { cookie, ...(accepted !== null && { 'accept-encoding': accepted }) }
  return host.handler(new Request(`http://${host.authority}${path}`, { headers }))
}

test.each(['gzip', 'gzip, deflate, br, zstd', 'br;q=1.0, gzip;q=0.8', 'GZIP'])(
  'a script goes compressed to a browser that accepts %s, and is kept for good',
  async (accepted) => {
    const answer = await screenOf('/assets/index-Ab12.js', accepted)
    expect(Object.fromEntries(answer.headers)).toMatchObject({
      'content-encoding': 'gzip',
      'content-type': 'text/javascript',
      'cache-control': 'private, max-age=31536000, immutable',
      vary: 'Accept-Encoding',
    })
    expect(gunzipSync(await answer.arrayBuffer()).toString()).toBe(script)
  },
)

test.each([null, 'identity', 'br', 'gzip;q=0', 'x-gzipped'])(
  'a script goes as it is where %s is accepted',
  async (accepted) => {
    const answer = await screenOf('/assets/index-Ab12.js', accepted)
    expect(answer.headers.get('content-encoding')).toBeNull()
    expect(answer.headers.get('vary')).toBe('Accept-Encoding')
    expect(await answer.text()).toBe(script)
  },
)

test('the page names the scripts and styles of the screen that its address leads to, and of no other', async () => {
  const link = (name: string) => `<link rel="modulepreload" crossorigin href="/assets/${name}.js">`
  const files: Readonly<Record<string, string>> = {
    '/index.html': '<html><head><title>Panelwright</title></head></html>',
    '/screen-links.json': JSON.stringify({ plan: link('plan'), repair: link('repair') }),
  }
  const host = await createTestHost({
    readScreen: (asked) =>
      files[asked] === undefined
        ? null
        : { type: 'text/html', bytes: new TextEncoder().encode(files[asked]) },
  })
  onTestFinished(() => host.close())
  const { cookie } = await host.openScreen()
  const pageAt = async (path: string) =>
    (await host.handler(new Request(`http://${host.authority}${path}`, { headers: { cookie } }))).text()
  expect(await pageAt('/plan?sheet=list')).toContain(`${link('plan')}</head>`)
  expect(await pageAt('/cars/car-1/repairs/repair-1')).toContain(`${link('repair')}</head>`)
  expect(await pageAt('/nowhere')).not.toContain('modulepreload')
})

test('every screen has an address', () => {
  const screens = readdirSync(fileURLToPath(new URL('../../../renderer/', import.meta.url)), {
    recursive: true,
    encoding: 'utf8',
  }).flatMap((path) => /([\w-]+)-screen\.tsx$/.exec(path)?.[1] ?? [])
  const addresses = [
    '/',
    '/first-run',
    '/plan',
    '/day-sheet',
    '/cars',
    '/cars/car-1',
    '/cars/car-1/repairs/repair-1',
    '/card',
    '/owner-decisions',
    '/owner-reports',
    '/variance',
    '/variance/were-we-right',
    '/workshop',
    '/help',
  ]
  expect(new Set(addresses.map(screenOfPath))).toEqual(new Set(screens))
})
