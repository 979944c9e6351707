import {
  CANVAS_HEIGHT as HEIGHT,
  CANVAS_WIDTH as WIDTH,
  PIXELS_PER_UNIT,
  step,
  type Canvas,
} from './canvas.ts'
import type { Random } from './random.ts'

/** Where the lamp is and how the camera sees. */
export interface Light {
  /** Direction to the lamp, x right, y down, both about -1 to 1; height 1. */
  readonly fromX: number
  readonly fromY: number
  /** Where its light falls brightest, 0 to 1 over the picture. */
  readonly centreX: number
  readonly centreY: number
  /** Above 1 is warm, below is cold. */
  readonly warmth: number
  readonly exposure: number
  /** Shifts what shiny metal mirrors. */
  readonly mirrorShift: number
}

export function createLight(random: Random): Light {
  const angle = random.between(-2.6, -0.5)
  const slant = random.between(0.5, 0.95)
  return {
    fromX: Math.cos(angle) * slant,
    fromY: Math.sin(angle) * slant,
    centreX: random.between(0.3, 0.7),
    centreY: random.between(0.25, 0.6),
    warmth: random.between(0.94, 1.12),
    exposure: random.between(0.72, 0.95),
    mirrorShift: random.between(0, 1),
  }
}

/**
 * The canvas as 8-bit RGB: one lamp with its shadows and highlights, soft light from all round that does not reach into
 * recesses, and the strip lights of the workshop mirrored in what shines.
 */
export function shade(canvas: Canvas, light: Light): Uint8Array {
  const { z, red, green, blue, gloss, mirror, open } = canvas
  const pixels = new Uint8Array(WIDTH * HEIGHT * 3)
  const recess = recessOf(z)
  const mirrored = stripLights(light.mirrorShift)
  const length = Math.hypot(light.fromX, light.fromY, 1)
  const [lx, ly, lz] = [light.fromX / length, light.fromY / length, 1 / length]
  const halfLength = Math.hypot(lx, ly, lz + 1)
  const [hx, hy, hz] = [lx / halfLength, ly / halfLength, (lz + 1) / halfLength]
  const shadowX = light.fromX * PIXELS_PER_UNIT
  const shadowY = light.fromY * PIXELS_PER_UNIT
  for (let row = 0, index = 0; row < HEIGHT; row++) {
    const up = row > 0 ? WIDTH : 0
    const down = row < HEIGHT - 1 ? WIDTH : 0
    const y = row / HEIGHT
    for (let column = 0; column < WIDTH; column++, index++) {
      const left = column > 0 ? 1 : 0
      const right = column < WIDTH - 1 ? 1 : 0
      const slopeX = ((z[index + right] as number) - (z[index - left] as number)) * (PIXELS_PER_UNIT / 2)
      const slopeY = ((z[index + down] as number) - (z[index - up] as number)) * (PIXELS_PER_UNIT / 2)
      const steepness = 1 / Math.sqrt(slopeX * slopeX + slopeY * slopeY + 1)
      const nx = -slopeX * steepness
      const ny = -slopeY * steepness
      const x = column / WIDTH
      const away = (x - light.centreX) ** 2 * 1.8 + (y - light.centreY) ** 2
      const lamp = 1 / (1 + away * 2.6)
      const lit = (open[index] as number) * lamp * shadowAt(z, column, row, shadowX, shadowY)
      const facing = nx * lx + ny * ly + steepness * lz
      const direct = facing > 0 ? facing * lit * 1.1 : 0
      const around =
        (0.24 - 0.1 * ny) * (open[index] as number) * (recess[index] as number) * (0.7 + 0.3 * lamp)
      const shine = gloss[index] as number
      const tilt = nx * hx + ny * hy + steepness * hz
      const near = 1 - (1 - tilt) * (1.5 + shine * shine * 30)
      const spot = near > 0 ? near * near * near * near * shine * 0.4 * lit : 0
      const mirrors = mirror[index] as number
      const strip =
        mirrors > 0.01
          ? (mirrored[((ny * 1.15 + y * 0.42 + nx * 0.3) * 256 + 512) & 511] as number) *
            mirrors *
            (open[index] as number) *
            (recess[index] as number)
          : 0
      const light3 = direct + around
      const added = spot + strip
      const at = index * 3
      pixels[at] = toByte(((red[index] as number) * light3 + added) * light.exposure * light.warmth)
      pixels[at + 1] = toByte(((green[index] as number) * light3 + added) * light.exposure)
      pixels[at + 2] = toByte((((blue[index] as number) * light3 + added) * light.exposure) / light.warmth)
    }
  }
  return pixels
}

/** How much of the lamp comes past what stands in its way, looked for at three distances. */
function shadowAt(z: Float32Array, column: number, row: number, stepX: number, stepY: number): number {
  const here = z[row * WIDTH + column] as number
  let blocked = 0
  for (const distance of SHADOW_DISTANCES) {
    let x = (column + stepX * distance + 0.5) | 0
    let y = (row + stepY * distance + 0.5) | 0
    if (x < 0) x = 0
    else if (x >= WIDTH) x = WIDTH - 1
    if (y < 0) y = 0
    else if (y >= HEIGHT) y = HEIGHT - 1
    const over = (z[y * WIDTH + x] as number) - here - distance
    if (over > blocked) blocked = over
  }
  return 1 - 0.82 * step(0.002, 0.035, blocked)
}

const SHADOW_DISTANCES = [0.02, 0.075, 0.25] as const

const BLOCK = 10

/** 1 on the flat, less where the surface lies below what is round it: the mean height of large blocks tells. */
function recessOf(z: Float32Array): Float32Array {
  const columns = WIDTH / BLOCK
  const rows = HEIGHT / BLOCK
  const means = new Float32Array(columns * rows)
  for (let row = 0; row < HEIGHT; row++)
    for (let column = 0; column < WIDTH; column++) {
      const block = Math.floor(row / BLOCK) * columns + Math.floor(column / BLOCK)
      means[block] = (means[block] as number) + (z[row * WIDTH + column] as number) / (BLOCK * BLOCK)
    }
  const round = blurred(blurred(means, columns, rows), columns, rows)
  const recess = new Float32Array(WIDTH * HEIGHT)
  for (let row = 0, index = 0; row < HEIGHT; row++)
    for (let column = 0; column < WIDTH; column++, index++) {
      const depth = between(round, columns, rows, column, row) - (z[index] as number)
      recess[index] = depth > 0 ? 1 / (1 + depth * 7) : 1
    }
  return recess
}

function blurred(values: Float32Array, columns: number, rows: number): Float32Array {
  const at = (column: number, row: number) =>
    values[
      Math.min(rows - 1, Math.max(0, row)) * columns + Math.min(columns - 1, Math.max(0, column))
    ] as number
  return values.map((_value, index) => {
    const column = index % columns
    const row = Math.floor(index / columns)
    let sum = 0
    for (let dy = -1; dy <= 1; dy++) for (let dx = -1; dx <= 1; dx++) sum += at(column + dx, row + dy)
    return sum / 9
  })
}

function between(values: Float32Array, columns: number, rows: number, column: number, row: number): number {
  const x = Math.min(columns - 1.001, Math.max(0, column / BLOCK - 0.5))
  const y = Math.min(rows - 1.001, Math.max(0, row / BLOCK - 0.5))
  const at = Math.floor(y) * columns + Math.floor(x)
  const across = x - Math.floor(x)
  const upper = (values[at] as number) * (1 - across) + (values[at + 1] as number) * across
  const lower =
    (values[at + columns] as number) * (1 - across) + (values[at + columns + 1] as number) * across
  return upper + (lower - upper) * (y - Math.floor(y))
}

/** What a mirror sees from floor (0) to ceiling: dark floor, grey wall, two strip lights, dim ceiling; 512 steps. */
function stripLights(shift: number): Float32Array {
  return Float32Array.from({ length: 512 }, (_value, index) => {
    const t = (index / 512 + shift) % 1
    const wall = 0.05 + 0.12 * step(0.05, 0.5, t) - 0.12 * step(0.75, 1, t)
    const strip = (middle: number, half: number) => 1 - step(half * 0.2, half, Math.abs(t - middle))
    return wall + 0.7 * strip(0.42, 0.055) + 0.4 * strip(0.62, 0.04)
  })
}

/** The curve of a film, as fitted by K. Narkowicz (2015; from memory), then the display's gamma of about 2.2. */
const CURVE = Uint8Array.from({ length: 4096 }, (_value, index) => {
  const linear = (index / 4095) * 2.5
  const toned = (linear * (2.51 * linear + 0.03)) / (linear * (2.43 * linear + 0.59) + 0.14)
  return Math.min(255, Math.round(255 * Math.min(1, toned) ** (1 / 2.2)))
})

function toByte(value: number): number {
  return CURVE[value <= 0 ? 0 : value >= 2.5 ? 4095 : (value * 1638) | 0] as number
}
