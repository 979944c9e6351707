import { describe, expect, test } from 'vitest'
import { sharp } from '../../../db/photos/sharp.ts'
import type { PhotoMarks } from '../../../domain/photo-marks/photo-marks.ts'
import { markedJpeg } from '../../../electron/print/mark-photo.ts'

/** A plain grey photo of 400 x 300; JPEG moves its pixels by a few levels at most. */
const GREY = 120
const photo = () =>
  sharp({ create: { width: 400, height: 300, channels: 3, background: { r: GREY, g: GREY, b: GREY } } })

async function pixelsOf(marks: PhotoMarks) {
  const { jpeg, width, height } = await markedJpeg(photo(), marks, { quality: 95 })
  const { data, info } = await sharp(jpeg).raw().toBuffer({ resolveWithObject: true })
  const at = (x: number, y: number) => [...data.subarray((y * info.width + x) * info.channels).subarray(0, 3)]
  const isGrey = (x: number, y: number) => at(x, y).every((level) => Math.abs(level - GREY) <= 12)
  return { width, height, at, isGrey }
}

describe('marks in the copy of a photo that is printed', () => {
  test('lie where they were drawn, in the accent with white around it, and nowhere else', async () => {
    const marks: PhotoMarks = [
      { kind: 'arrow', from: { x: 0.1, y: 0.5 }, to: { x: 0.5, y: 0.5 } },
      { kind: 'circle', from: { x: 0.625, y: 0.2 }, to: { x: 0.875, y: 0.8 } },
    ]
    const { width, height, at, isGrey } = await pixelsOf(marks)
    expect([width, height]).toEqual([400, 300])
    // The shaft runs along y = 150, 4 px wide, with 2.4 px of white on either side.
    for (const x of [60, 100, 140]) {
      const [red = 0, green = 0, blue = 0] = at(x, 150)
      expect(red - Math.max(green, blue), `the shaft at ${x}`).toBeGreaterThan(70)
      expect(Math.min(...at(x, 147)), `its casing at ${x}`).toBeGreaterThan(165)
    }
    // The ellipse has its centre at (300, 150), radii 50 and 90: four points of its outline, by hand.
    for (const [x, y] of [
      [250, 150],
      [349, 150],
      [300, 60],
      [300, 239],
    ] as const)
      expect(isGrey(x, y), `the outline at ${x}, ${y}`).toBe(false)
    for (const [x, y] of [
      [20, 20],
      [100, 120],
      [100, 180],
      [300, 150],
      [225, 75],
      [390, 290],
    ] as const)
      expect(isGrey(x, y), `the photo at ${x}, ${y}`).toBe(true)
  })

  test('that the edge of a cut runs through are drawn up to it', async () => {
    const { isGrey } = await pixelsOf([{ kind: 'arrow', from: { x: -0.5, y: 0.5 }, to: { x: 0.25, y: 0.5 } }])
    expect(isGrey(2, 150)).toBe(false)
    expect(isGrey(150, 150)).toBe(true)
  })

  test('are none: the photo is as it was', async () => {
    const { isGrey } = await pixelsOf([])
    expect(isGrey(100, 150)).toBe(true)
  })
})
