import { expect, test } from 'vitest'
import { drawPhotos } from '../../../db/demo/draw-photos.ts'
import { createDemoPhoto, type DemoPhoto } from '../../../db/demo/photos/create-demo-photo.ts'

const photos: readonly DemoPhoto[] = (['surface rust', 'grey primer', 'plug welds'] as const).map((kind) => ({
  kind,
  seed: `drawn ${kind}`,
  caption: ['0417 Boot floor', 'Tue 24 Nov'],
  takenLocal: '2026-11-24T10:05:00',
  offset: '+00:00',
  bodyColour: 'sand',
}))

test('photos drawn in workers are the same as those drawn here, each under its own number', async () => {
  const drawn = new Map<number, Uint8Array>()
  await drawPhotos(photos, async (bytes, index) => {
    drawn.set(index, bytes)
  })
  expect(new Set(drawn.keys())).toEqual(new Set([0, 1, 2]))
  for (const [index, photo] of photos.entries())
    expect(Buffer.compare(drawn.get(index) ?? Buffer.alloc(0), await createDemoPhoto(photo))).toBe(0)
})

test('no photos need no drawing', async () => {
  await expect(drawPhotos([], async () => undefined)).resolves.toBeUndefined()
})

test('what goes wrong with a photo is told, and the others are given up', async () => {
  const full = drawPhotos(photos, async () => {
    throw new Error('The disk is full.')
  })
  await expect(full).rejects.toThrow('The disk is full.')
  const unknown = drawPhotos(
    [{ ...photos[0], kind: 'moonlight' } as unknown as DemoPhoto],
    async () => undefined,
  )
  await expect(unknown).rejects.toThrow('is not a function')
})
