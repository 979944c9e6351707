import { createHash, randomBytes } from 'node:crypto'
import { readFile } from 'node:fs/promises'
import sharp from 'sharp'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { attachmentIdSchema, type CarId } from '../../../domain/ids.ts'
import { createTestHost, type TestHost, type TestScreen } from '../../support/host.ts'
import { createJpegHeader, createPngHeader, createTestPhoto } from '../../support/images.ts'
import { bringInLarkspur } from '../../support/larkspur.ts'
import { welder } from '../../support/workshop.ts'

let host: TestHost
let screen: TestScreen
beforeAll(async () => {
  host = await createTestHost()
  screen = await host.openScreen()
})
afterAll(() => host.close())

const sha256Of = (bytes: Uint8Array) => createHash('sha256').update(bytes).digest('hex')
const stored = async (bytes: Uint8Array) => {
  const answer = await screen.upload(bytes)
  expect(answer.status).toBe(200)
  return (await answer.json()) as { readonly sha256: string; readonly taken: string | null }
}
const photo = (
  more: { readonly taken?: string; readonly offset?: string; readonly format?: 'png' | 'webp' } = {},
) => createTestPhoto({ width: 400, height: 300, color: '#a53', ...more })

describe('a photo that is attached', () => {
  const id = attachmentIdSchema.parse('photo-marked')
  const marks = [{ kind: 'circle', from: { x: 0.2, y: 0.3 }, to: { x: 0.5, y: 0.7 } }] as const
  let carId: CarId
  let sha256: string
  let bytes: Uint8Array
  const photoOfCar = async () =>
    (await screen.client.car.query({ carId })).photos.find((each) => each.attachmentId === id)

  beforeAll(async () => {
    carId = bringInLarkspur(host.workshop)
    bytes = await photo({ taken: '2026:11:05 14:03:22' })
    sha256 = (await stored(bytes)).sha256
    const serves = [{ what: 'car' as const }]
    await screen.run(
      'attachPhoto',
      { attachmentId: id, sha256, taken: null, caption: '', serves },
      { carId, by: welder },
    )
  })

  test('is marked by a technician, the last marks count, and none takes them off', async () => {
    await screen.run('markPhoto', { attachmentId: id, marks: [...marks, ...marks] }, { carId, by: welder })
    await screen.run('markPhoto', { attachmentId: id, marks }, { carId, by: welder })
    expect((await photoOfCar())?.marks).toEqual(marks)
    await screen.run('markPhoto', { attachmentId: id, marks: [] }, { carId, by: welder })
    expect((await photoOfCar())?.marks).toEqual([])
  })

  test('is marked once when the mark is sent twice', async () => {
    const again = { carId, by: welder, id: 'mark-sent-twice' }
    const first = await screen.run('markPhoto', { attachmentId: id, marks }, again)
    const second = await screen.run('markPhoto', { attachmentId: id, marks }, again)
    expect(second.numbers).toEqual(first.numbers)
    const record = await screen.client.record.query({ carId })
    expect(JSON.stringify(record).match(/Photo marked: 1 circle/g)).toHaveLength(2)
  })

  test('keeps its bytes whatever is drawn on it', async () => {
    await screen.run('markPhoto', { attachmentId: id, marks }, { carId, by: welder })
    const original = await screen.request(`/photos/${sha256}/original`)
    expect(sha256Of(new Uint8Array(await original.arrayBuffer()))).toBe(sha256Of(bytes))
    expect((await photoOfCar())?.sha256).toBe(sha256)
  })

  test('that is not known is refused in words, and so are marks beside the photo', async () => {
    const unknown = attachmentIdSchema.parse('photo-nobody-sent')
    expect(
      await screen.send('markPhoto', { attachmentId: unknown, marks }, { carId, by: welder }),
    ).toMatchObject({
      ok: false,
      refusal: { code: 'unknown', message: 'This photo is not known.', next: 'Reload the car.' },
    })
    const beside = [{ kind: 'arrow', from: { x: 0.2, y: 0.3 }, to: { x: 1.5, y: 0.7 } }] as const
    expect(
      await screen.send('markPhoto', { attachmentId: id, marks: beside }, { carId, by: welder }),
    ).toMatchObject({
      ok: false,
      refusal: { code: 'bad-input' },
    })
  })
})

describe('a photo that is sent', () => {
  test('is kept under its digest, with its size and camera date in the workshop’s zone', async () => {
    const bytes = await photo({ taken: '2026:11:05 14:03:22' })
    // Berlin is an hour ahead of UTC in November.
    expect(await stored(bytes)).toEqual({
      sha256: sha256Of(bytes),
      width: 400,
      height: 300,
      taken: '2026-11-05T14:03:22+01:00',
      cameraLocal: '2026-11-05T14:03:22',
    })
  })

  test('keeps the camera’s own zone where it says one', async () => {
    const { taken } = await stored(await photo({ taken: '2026:11:05 14:03:22', offset: '-05:00' }))
    expect(Date.parse(taken ?? '')).toBe(Date.parse('2026-11-05T14:03:22-05:00'))
  })

  test('without a camera date says so', async () => {
    expect((await stored(await photo())).taken).toBeNull()
  })

  test('twice is the same photo', async () => {
    const bytes = await photo()
    expect(await stored(bytes)).toEqual(await stored(bytes))
  })

  test('comes back as it was, and in the sizes of the screens', async () => {
    const bytes = await photo()
    const { sha256 } = await stored(bytes)
    const original = await screen.request(`/photos/${sha256}/original`)
    expect(sha256Of(new Uint8Array(await original.arrayBuffer()))).toBe(sha256)
    expect(original.headers.get('content-type')).toBe('image/jpeg')
    expect(original.headers.get('content-length')).toBe(String(bytes.length))
    expect(original.headers.get('content-disposition')).toBe(
      `inline; filename="photo-${sha256.slice(0, 12)}.jpg"`,
    )
    for (const [size, width] of [
      ['thumb', 320],
      ['screen', 400],
    ] as const) {
      const answer = await screen.request(`/photos/${sha256}/${size}`)
      expect(answer.headers.get('content-type')).toBe('image/webp')
      expect(answer.headers.get('cache-control')).toBe('private, max-age=31536000, immutable')
      expect(answer.headers.get('x-content-type-options')).toBe('nosniff')
      const image = await sharp(await answer.arrayBuffer()).metadata()
      expect(image).toMatchObject({ format: 'webp', width })
    }
  })

  test.each(['png', 'webp'] as const)('may be %s', async (format) => {
    const { sha256 } = await stored(await photo({ format }))
    const answer = await screen.request(`/photos/${sha256}/original`)
    expect(answer.headers.get('content-type')).toBe(`image/${format}`)
    await answer.body?.cancel()
  })

  test('may be HEIC, as phones make it', async () => {
    const { sha256 } = await stored(await readFile(new URL('../../fixtures/sample.heic', import.meta.url)))
    const answer = await screen.request(`/photos/${sha256}/thumb`)
    expect(await sharp(await answer.arrayBuffer()).metadata()).toMatchObject({ format: 'webp' })
  })

  test('in pieces is put together', async () => {
    const bytes = await photo()
    const body = new ReadableStream({
      start(controller) {
        for (let at = 0; at < bytes.length; at += 1000)
          controller.enqueue(new Uint8Array(bytes.subarray(at, at + 1000)))
        controller.close()
      },
    })
    const answer = await screen.request('/photos', { method: 'PUT', body, duplex: 'half' } as RequestInit)
    expect(await answer.json()).toMatchObject({ sha256: sha256Of(bytes) })
  })

  test('can be attached to a car; one that never arrived cannot', async () => {
    const carId = host.workshop.addCar('Larkspur 4', 'S-PHOTO')
    const { sha256 } = await stored(await photo())
    const attach = (digest: string) =>
      screen.send(
        'attachPhoto',
        {
          attachmentId: attachmentIdSchema.parse(crypto.randomUUID()),
          sha256: digest,
          taken: null,
          caption: 'As it came in',
          serves: [{ what: 'car' }],
        },
        { carId, by: welder },
      )
    expect(await attach('f'.repeat(64))).toMatchObject({ ok: false, refusal: { code: 'photo' } })
    expect(await attach(sha256)).toMatchObject({ ok: true })
    const car = await screen.client.car.query({ carId })
    expect(car.photos.map((each) => [each.sha256, each.caption])).toEqual([[sha256, 'As it came in']])
  })
})

describe('what is refused', () => {
  const sixtyMegabytes = () => new Uint8Array(60 * 1024 * 1024).fill(0x20)

  test.each([
    ['a text', async () => new TextEncoder().encode('not a photo'), 415, 'a text'],
    ['a drawing', async () => new TextEncoder().encode('<svg xmlns="x"/>'), 415, 'an SVG drawing'],
    ['random bytes', async () => new Uint8Array(randomBytes(500)), 415, 'not a photo'],
    ['nothing', async () => new Uint8Array(), 422, '0 bytes'],
    ['60 MB', async () => sixtyMegabytes(), 413, '50 MB'],
    ['30,000 x 30,000 pixels as PNG', async () => createPngHeader(30_000, 30_000), 422, '100 megapixels'],
    ['30,000 x 30,000 pixels as JPEG', async () => createJpegHeader(30_000, 30_000), 422, '100 megapixels'],
    ['half a photo', async () => (await photo()).subarray(0, 2000), 422, 'incomplete or damaged'],
  ])('is %s, with the reason, the limit and what to do', async (_what, make, status, words) => {
    const answer = await screen.upload(await make())
    expect(answer.status).toBe(status)
    const { ok, refusal } = (await answer.json()) as {
      ok: boolean
      refusal: { message: string; next: string; code: string }
    }
    expect({ ok, code: refusal.code }).toEqual({ ok: false, code: 'photo' })
    expect(refusal.message).toContain(words)
    expect(refusal.next).toMatch(/\S/)
  })

  test('leaves nothing behind and the next photo is taken', async () => {
    await screen.upload(sixtyMegabytes())
    expect((await stored(await photo())).sha256).toMatch(/^[0-9a-f]{64}$/)
    expect(host.log).toEqual([])
  })

  test.each([
    ['an unknown photo', `/photos/${'0'.repeat(64)}/thumb`],
    ['an unknown original', `/photos/${'0'.repeat(64)}/original`],
    ['a size there is not', `/photos/${'0'.repeat(64)}/huge`],
    ['a path instead of a digest', '/photos/..%2f..%2fworkshop.db/original'],
  ])('to be read: %s', async (_what, path) => {
    expect((await screen.request(path)).status).toBe(404)
  })
})
