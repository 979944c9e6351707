import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest'
import { createTestHost, type TestHost, type TestScreen } from '../../support/host.ts'
import { createTestPhoto } from '../../support/images.ts'
import { pairWith, showPairingCode } from '../../support/pair.ts'
import { manager } from '../../support/workshop.ts'

let host: TestHost
let desk: TestScreen
let sha256: string
beforeAll(async () => {
  host = await createTestHost()
  desk = await host.openScreen()
  await desk.signIn(manager)
  const photo = await createTestPhoto({ width: 64, height: 48, color: '#357' })
  sha256 = ((await (await desk.upload(photo)).json()) as { sha256: string }).sha256
})
afterAll(() => host.close())
afterEach(() => {
  if (host.log.length > 0) throw new Error(`The host reported a defect: ${host.log.join('\n')}`)
})

const showCode = async () => (await showPairingCode(desk)).text

describe('a device that is shut out while its live connection is open', () => {
  const A_SECOND_MS = 1_000

  test('hears nothing more: the connection is closed within a second, and no other one is opened', async () => {
    const lost = await pairWith(host, { code: await showCode(), name: 'Lost phone' })
    const { id: deviceId } = (await lost.client.session.query()).device
    const open = await lost.request('/trpc/revisions', { headers: { accept: 'text/event-stream' } })
    const kept = await desk.request('/trpc/revisions', { headers: { accept: 'text/event-stream' } })
    const heard = open.text()
    await desk.client.shutOutDevice.mutate({ deviceId })
    const late = new Promise<never>((_, reject) =>
      setTimeout(() => reject(new Error('It was still open.')), A_SECOND_MS),
    )
    expect(await Promise.race([heard, late])).toContain('event: connected')
    const again = await lost.request('/trpc/revisions', { headers: { accept: 'text/event-stream' } })
    expect(again.status).toBe(401)
    expect((await lost.request(`/photos/${sha256}/thumb`)).status).toBe(401)
    expect((await lost.upload(new Uint8Array([1]))).status).toBe(401)
    expect(kept.status).toBe(200)
    await kept.body?.cancel()
  })
})

test('a device that is shut out in the middle of a download gets no more of it', async () => {
  const lost = await pairWith(host, { code: await showCode(), name: 'Lost tablet' })
  const { id: deviceId } = (await lost.client.session.query()).device
  const bytes = await createTestPhoto({ width: 900, height: 700, color: '#753', format: 'png' })
  const large = ((await (await desk.upload(bytes)).json()) as { sha256: string }).sha256
  const path = `/photos/${large}/original`
  const [open, kept] = [await lost.request(path), await desk.request(path)]
  const reader = open.body!.getReader()
  let got = (await reader.read()).value!.byteLength
  expect(got).toBeLessThan(bytes.byteLength / 4)
  await desk.client.shutOutDevice.mutate({ deviceId })
  // A piece that had left the host already may still come.
  const rest = async () => {
    for (let next = await reader.read(); !next.done; next = await reader.read()) got += next.value.byteLength
  }
  await expect(rest()).rejects.toMatchObject({ name: 'AbortError' })
  expect(got).toBeLessThan(bytes.byteLength / 2)
  expect(Buffer.from(await kept.bytes())).toEqual(bytes)
})

test('a download that its reader gives up at any moment ends without a defect', async () => {
  const bytes = await createTestPhoto({ width: 900, height: 700, color: '#357', format: 'png' })
  const large = ((await (await desk.upload(bytes)).json()) as { sha256: string }).sha256
  const giveUp = async (turns: number) => {
    const ended = new AbortController()
    const { body } = await desk.request(`/photos/${large}/original`)
    const reader = body!.pipeThrough(new TransformStream(), { signal: ended.signal }).getReader()
    if (turns % 3 > 0) await reader.read()
    for (let turn = 0; turn < turns; turn += 1)
      await (turn % 2 === 0 ? Promise.resolve() : new Promise((go) => void setImmediate(go)))
    ended.abort()
    await reader.cancel().catch(() => {})
  }
  await Promise.all(Array.from({ length: 200 }, (_, turn) => giveUp(turn % 40)))
  expect(host.log).toEqual([])
})
