import { gunzipSync, gzipSync } from 'node:zlib'
import { expect, onTestFinished, test } from 'vitest'
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
