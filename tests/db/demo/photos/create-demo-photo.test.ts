import { mkdtemp, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import sharp from 'sharp'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { createDemoPhoto, type DemoPhoto } from '../../../../db/demo/photos/create-demo-photo.ts'
import { DEMO_PHOTO_KINDS } from '../../../../db/demo/photos/scenes.ts'
import { inspectPhoto } from '../../../../db/photos/inspect-photo.ts'

const usual: DemoPhoto = {
  kind: 'holed',
  seed: 'shell 0417, 3',
  caption: ['Shell 0417', 'Spring hanger, right', 'opened', 'Thu 5 Nov 2026'],
  takenLocal: '2026-11-05T14:03:22',
  offset: '+01:00',
  bodyColour: 'fir green',
}

let folder: string
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'panelwright-demo-photos-'))
})
afterAll(() => rm(folder, { recursive: true }))

async function inspectBytes(bytes: Uint8Array) {
  const path = join(folder, 'photo')
  await writeFile(path, bytes)
  return inspectPhoto(path)
}

/** Mean of the three channels and how much the brightness varies, 0 to 255. */
async function lookOf(
  bytes: Uint8Array,
): Promise<{ readonly colour: readonly number[]; readonly spread: number }> {
  const colour = (await sharp(bytes).stats()).channels.map((channel) => channel.mean)
  const grey = await sharp(bytes).greyscale().toBuffer()
  return { colour, spread: (await sharp(grey).stats()).channels[0]?.stdev ?? 0 }
}

describe('createDemoPhoto', () => {
  it.each(DEMO_PHOTO_KINDS)(
    'draws %s as a photo that the intake takes, with its camera date',
    async (kind) => {
      const bytes = await createDemoPhoto({ ...usual, kind })
      expect(await inspectBytes(bytes)).toEqual({
        ok: true,
        value: {
          type: 'jpeg',
          width: 1600,
          height: 1200,
          orientation: 1,
          taken: { local: '2026-11-05T14:03:22', offset: '+01:00' },
        },
      })
      expect(bytes.length).toBeGreaterThan(80_000)
      expect(bytes.length).toBeLessThan(450_000)
      expect((await lookOf(bytes)).spread).toBeGreaterThan(8)
    },
  )

  it('draws the same photo from the same seed and another from another', async () => {
    const first = await createDemoPhoto(usual)
    expect((await createDemoPhoto(usual)).equals(first)).toBe(true)
    expect((await createDemoPhoto({ ...usual, seed: 'shell 0417, 4' })).equals(first)).toBe(false)
  })

  it('draws the same photo after any others', async () => {
    const first = await createDemoPhoto(usual)
    for (const kind of ['body colour', 'cut open', 'panel gap'] as const)
      await createDemoPhoto({ ...usual, kind })
    expect((await createDemoPhoto(usual)).equals(first)).toBe(true)
  })

  it('keeps what lies behind when the caption changes', async () => {
    const plain = { ...usual, caption: [] }
    const edgeOf = async (photo: DemoPhoto) =>
      sharp(await createDemoPhoto(photo))
        .extract({ left: 780, top: 560, width: 40, height: 40 })
        .raw()
        .toBuffer()
    expect(await edgeOf({ ...usual, caption: ['A'] })).toEqual(await edgeOf(plain))
    expect((await createDemoPhoto(usual)).equals(await createDemoPhoto(plain))).toBe(false)
  })

  it('shows the car in its colour', async () => {
    const paint = (bodyColour: NonNullable<DemoPhoto['bodyColour']>) =>
      createDemoPhoto({ ...usual, kind: 'body colour', caption: [], bodyColour })
    const [red = 0, green = 0] = (await lookOf(await paint('signal red'))).colour
    expect(red).toBeGreaterThan(green * 1.5)
    const [coldRed = 0, , blue = 0] = (await lookOf(await paint('sky blue'))).colour
    expect(blue).toBeGreaterThan(coldRed)
  })

  it('writes captions that are long, marked up, accented or full of signs that have no letters', async () => {
    const caption = ['<script>&"', 'Çağrı Übel-Åström '.repeat(12), '🔧🚗', '']
    const result = await inspectBytes(await createDemoPhoto({ ...usual, caption }))
    expect(result).toMatchObject({ ok: true })
  })
})
