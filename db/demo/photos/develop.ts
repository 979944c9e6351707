import { CANVAS_HEIGHT, CANVAS_WIDTH } from './canvas.ts'
import { createRandom } from './random.ts'

/** Size of the finished photo, px. */
export const PHOTO_WIDTH = 1600
export const PHOTO_HEIGHT = 1200

/**
 * Enlarges what was drawn to the size of the photo and adds the grain of a small sensor, both in one pass: libvips takes
 * several times as long for the same.
 *
 * @param pixels RGB of the canvas
 * @returns RGB of the photo
 */
export function enlarge(pixels: Uint8Array, seed: string): Uint8ClampedArray<ArrayBuffer> {
  const photo = new Uint8ClampedArray(PHOTO_WIDTH * PHOTO_HEIGHT * 3)
  const line = new Int32Array(CANVAS_WIDTH * 3)
  const noise = sensorNoise()
  let grain = Math.floor(createRandom(`grain ${seed}`).next() * NOISE_LENGTH)
  for (let row = 0, at = 0; row < PHOTO_HEIGHT; row++) {
    const y = ((row + 0.5) * CANVAS_HEIGHT) / PHOTO_HEIGHT - 0.5
    blendRows(pixels, Math.min(CANVAS_HEIGHT - 1.001, Math.max(0, y)), line)
    for (let column = 0; column < PHOTO_WIDTH; column++, at += 3) {
      const left = COLUMN_FROM[column] as number
      const share = COLUMN_SHARE[column] as number
      grain = (grain + 1) & (NOISE_LENGTH - 1)
      const add = noise[grain] as number
      const red = line[left] as number
      const green = line[left + 1] as number
      const blue = line[left + 2] as number
      photo[at] = ((red * 256 + ((line[left + 3] as number) - red) * share) >> 16) + add
      photo[at + 1] = ((green * 256 + ((line[left + 4] as number) - green) * share) >> 16) + add
      photo[at + 2] = ((blue * 256 + ((line[left + 5] as number) - blue) * share) >> 16) + add
    }
  }
  return photo
}

/** A picture with transparency that covers a part of the photo, px. */
export interface Layer {
  readonly svg: string
  readonly left: number
  readonly top: number
  readonly width: number
  readonly height: number
}

/** Lays the RGBA pixels of a layer over the photo. */
export function layOver(photo: Uint8ClampedArray, rgba: Uint8Array, layer: Layer): void {
  for (let row = 0, from = 0; row < layer.height; row++) {
    let to = ((layer.top + row) * PHOTO_WIDTH + layer.left) * 3
    for (let column = 0; column < layer.width; column++, from += 4, to += 3) {
      const alpha = rgba[from + 3] as number
      if (alpha === 0) continue
      const share = alpha / 255
      const rest = 1 - share
      photo[to] = (photo[to] as number) * rest + (rgba[from] as number) * share
      photo[to + 1] = (photo[to + 1] as number) * rest + (rgba[from + 1] as number) * share
      photo[to + 2] = (photo[to + 2] as number) * rest + (rgba[from + 2] as number) * share
    }
  }
}

/** A row between two rows of the canvas, in 1/256 of a brightness step: whole numbers are twice as fast here. */
function blendRows(pixels: Uint8Array, y: number, line: Int32Array): void {
  const upper = Math.floor(y) * CANVAS_WIDTH * 3
  const lower = upper + CANVAS_WIDTH * 3
  const share = Math.round((y - Math.floor(y)) * 256)
  for (let index = 0; index < line.length; index++) {
    const a = pixels[upper + index] as number
    line[index] = a * 256 + ((pixels[lower + index] as number) - a) * share
  }
}

const COLUMN_AT = Float64Array.from({ length: PHOTO_WIDTH }, (_value, column) =>
  Math.min(CANVAS_WIDTH - 1.001, Math.max(0, ((column + 0.5) * CANVAS_WIDTH) / PHOTO_WIDTH - 0.5)),
)
const COLUMN_FROM = Int32Array.from(COLUMN_AT, (x) => Math.floor(x) * 3)
/** In 1/256. */
const COLUMN_SHARE = Int32Array.from(COLUMN_AT, (x) => Math.round((x - Math.floor(x)) * 256))

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
