import { CANVAS_HEIGHT, CANVAS_WIDTH } from './canvas.ts'
import { createRandom } from './random.ts'
import { PHOTO_HEIGHT, PHOTO_WIDTH } from './slate.ts'

/**
 * Enlarges what was drawn to the size of the photo and adds the grain of a small sensor, both in one pass: libvips takes
 * several times as long for the same.
 *
 * @param pixels RGB of the canvas
 * @returns RGB of the photo
 */
export function enlarge(pixels: Uint8Array, seed: string): Uint8Array<ArrayBuffer> {
  const photo = new Uint8Array(PHOTO_WIDTH * PHOTO_HEIGHT * 3)
  const line = new Float32Array(CANVAS_WIDTH * 3)
  const noise = sensorNoise()
  let grain = Math.floor(createRandom(`grain ${seed}`).next() * NOISE_LENGTH)
  for (let row = 0, at = 0; row < PHOTO_HEIGHT; row++) {
    const y = ((row + 0.5) * CANVAS_HEIGHT) / PHOTO_HEIGHT - 0.5
    blendRows(pixels, Math.min(CANVAS_HEIGHT - 1.001, Math.max(0, y)), line)
    for (let column = 0; column < PHOTO_WIDTH; column++, at += 3) {
      const left = COLUMN_FROM[column] as number
      const share = COLUMN_SHARE[column] as number
      grain = (grain + 1) & (NOISE_LENGTH - 1)
      const add = (noise[grain] as number) + 0.5
      for (let channel = 0; channel < 3; channel++) {
        const a = line[left + channel] as number
        const value = a + ((line[left + 3 + channel] as number) - a) * share + add
        photo[at + channel] = value < 0 ? 0 : value > 255 ? 255 : value
      }
    }
  }
  return photo
}

/** Lays an RGBA picture of the same size over the photo. */
export function layOver(photo: Uint8Array, over: Uint8Array): void {
  for (let from = 3, to = 0; from < over.length; from += 4, to += 3) {
    const alpha = over[from] as number
    if (alpha === 0) continue
    const share = alpha / 255
    for (let channel = 0; channel < 3; channel++) {
      const below = photo[to + channel] as number
      photo[to + channel] = below + ((over[from - 3 + channel] as number) - below) * share + 0.5
    }
  }
}

function blendRows(pixels: Uint8Array, y: number, line: Float32Array): void {
  const upper = Math.floor(y) * CANVAS_WIDTH * 3
  const lower = upper + CANVAS_WIDTH * 3
  const share = y - Math.floor(y)
  for (let index = 0; index < line.length; index++) {
    const a = pixels[upper + index] as number
    line[index] = a + ((pixels[lower + index] as number) - a) * share
  }
}

const COLUMN_AT = Float64Array.from({ length: PHOTO_WIDTH }, (_value, column) =>
  Math.min(CANVAS_WIDTH - 1.001, Math.max(0, ((column + 0.5) * CANVAS_WIDTH) / PHOTO_WIDTH - 0.5)),
)
const COLUMN_FROM = Int32Array.from(COLUMN_AT, (x) => Math.floor(x) * 3)
const COLUMN_SHARE = Float32Array.from(COLUMN_AT, (x) => x - Math.floor(x))

const NOISE_LENGTH = 1 << 18

let noiseOnce: Int8Array | null = null

function sensorNoise(): Int8Array {
  const random = createRandom('sensor')
  noiseOnce ??= Int8Array.from(
    { length: NOISE_LENGTH },
    () => (random.next() + random.next() + random.next() + random.next() - 2) * 7,
  )
  return noiseOnce
}
