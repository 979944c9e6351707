import { createRandom } from './random.ts'

/** A square of values in about [0, 1] with a mean near 0.5 that repeats without a seam. */
export interface Field {
  /** Interpolated. @param x, y in tiles: 1 is one whole repeat */
  at(x: number, y: number): number
  /** The nearest stored value: three times as fast, and as good where a tile is no larger than about 3 units. */
  near(x: number, y: number): number
}

/** Made once and shared by all photos; each photo looks at them from another place and angle. */
export interface Fields {
  /** Clouds with detail down to the pixel. */
  readonly cloud: Field
  readonly cloud2: Field
  /** Soft clouds without detail. */
  readonly soft: Field
  /** Long scratches along x. */
  readonly streak: Field
  /** Round pits of many sizes: 0 on the flat, up to 1 at the bottom of a pit. */
  readonly pits: Field
  /** Cracks: near 1 along a net of lines, 0 between them. */
  readonly cracks: Field
  /** Fine grain without shape. */
  readonly grain: Field
}

let shared: Fields | null = null

export function sharedFields(): Fields {
  shared ??= {
    cloud: createField(cloudValues('cloud', 4, 4, 7, 0.55)),
    cloud2: createField(cloudValues('cloud2', 4, 4, 7, 0.6)),
    soft: createField(cloudValues('soft', 3, 3, 3, 0.45)),
    streak: createField(cloudValues('streak', 3, 96, 3, 0.6)),
    pits: createField(pitValues('pits')),
    cracks: createField(crackValues('cracks')),
    grain: createField(grainValues('grain')),
  }
  return shared
}

const SIDE = 512
const LAST = SIDE - 1

/** Between the stored values it interpolates in straight lines. */
function createField(values: Float32Array): Field {
  return {
    near: (x, y) => values[((y * SIDE) & LAST) * SIDE + ((x * SIDE) & LAST)] as number,
    at(x, y) {
      const column = x * SIDE
      const row = y * SIDE
      const left = Math.floor(column)
      const top = Math.floor(row)
      const across = column - left
      const down = row - top
      const x0 = left & LAST
      const x1 = (left + 1) & LAST
      const y0 = (top & LAST) * SIDE
      const y1 = ((top + 1) & LAST) * SIDE
      const a = values[y0 + x0] as number
      const b = values[y0 + x1] as number
      const c = values[y1 + x0] as number
      const d = values[y1 + x1] as number
      const upper = a + (b - a) * across
      return upper + (c + (d - c) * across - upper) * down
    },
  }
}

/** Gradient noise in octaves, each of twice the frequency and `fade` times the height of the one before. */
function cloudValues(
  seed: string,
  cellsX: number,
  cellsY: number,
  octaves: number,
  fade: number,
): Float32Array {
  const values = new Float32Array(SIDE * SIDE)
  let height = 1
  for (let octave = 0; octave < octaves; octave++) {
    const scale = 2 ** octave
    const columns = Math.min(SIDE / 2, cellsX * scale)
    const rows = Math.min(SIDE / 2, cellsY * scale)
    addGradientNoise(values, `${seed}${octave}`, columns, rows, height)
    height *= fade
  }
  return normalised(values)
}

function addGradientNoise(
  values: Float32Array,
  seed: string,
  columns: number,
  rows: number,
  height: number,
): void {
  const random = createRandom(seed)
  const gradientX = new Float32Array(columns * rows)
  const gradientY = new Float32Array(columns * rows)
  for (let index = 0; index < columns * rows; index++) {
    const angle = random.between(0, 2 * Math.PI)
    gradientX[index] = Math.cos(angle)
    gradientY[index] = Math.sin(angle)
  }
  const corner = (cx: number, cy: number, dx: number, dy: number) => {
    const index = (cy % rows) * columns + (cx % columns)
    return (gradientX[index] as number) * dx + (gradientY[index] as number) * dy
  }
  for (let row = 0; row < SIDE; row++) {
    const y = (row / SIDE) * rows
    const cy = Math.floor(y)
    const fy = y - cy
    const sy = ease(fy)
    for (let column = 0; column < SIDE; column++) {
      const x = (column / SIDE) * columns
      const cx = Math.floor(x)
      const fx = x - cx
      const sx = ease(fx)
      const upper = mix(corner(cx, cy, fx, fy), corner(cx + 1, cy, fx - 1, fy), sx)
      const lower = mix(corner(cx, cy + 1, fx, fy - 1), corner(cx + 1, cy + 1, fx - 1, fy - 1), sx)
      values[row * SIDE + column] = (values[row * SIDE + column] as number) + height * mix(upper, lower, sy)
    }
  }
}

function pitValues(seed: string): Float32Array {
  const random = createRandom(seed)
  const values = new Float32Array(SIDE * SIDE)
  for (let pit = 0; pit < 1500; pit++) {
    const radius = 1.5 + 13 * random.next() ** 4
    const depth = random.between(0.35, 1)
    stampPit(values, random.between(0, SIDE), random.between(0, SIDE), radius, depth)
  }
  return values
}

function stampPit(
  values: Float32Array,
  centreX: number,
  centreY: number,
  radius: number,
  depth: number,
): void {
  for (let dy = -Math.ceil(radius); dy <= radius; dy++)
    for (let dx = -Math.ceil(radius); dx <= radius; dx++) {
      const distance = Math.hypot(dx, dy) / radius
      if (distance >= 1) continue
      const index =
        ((Math.floor(centreY + dy) + SIDE) % SIDE) * SIDE + ((Math.floor(centreX + dx) + SIDE) % SIDE)
      values[index] = Math.max(values[index] as number, depth * (1 - distance * distance))
    }
}

/** Where the two nearest of scattered points are equally far: the net of borders between them. */
function crackValues(seed: string): Float32Array {
  const random = createRandom(seed)
  const cells = 9
  const size = SIDE / cells
  const points = Array.from(
    { length: cells * cells },
    () => [random.between(0.15, 0.85), random.between(0.15, 0.85)] as const,
  )
  const values = new Float32Array(SIDE * SIDE)
  for (let row = 0; row < SIDE; row++)
    for (let column = 0; column < SIDE; column++) {
      const [first, second] = twoNearest(points, cells, column / size, row / size)
      values[row * SIDE + column] = Math.max(0, 1 - (second - first) * 7)
    }
  return values
}

function twoNearest(
  points: readonly (readonly [number, number])[],
  cells: number,
  x: number,
  y: number,
): readonly [number, number] {
  let first = 9
  let second = 9
  const cellX = Math.floor(x)
  const cellY = Math.floor(y)
  for (let dy = -1; dy <= 1; dy++)
    for (let dx = -1; dx <= 1; dx++) {
      const index = ((cellY + dy + cells) % cells) * cells + ((cellX + dx + cells) % cells)
      const point = points[index] ?? [0, 0]
      const distance = Math.hypot(cellX + dx + point[0] - x, cellY + dy + point[1] - y)
      if (distance < first) [first, second] = [distance, first]
      else if (distance < second) second = distance
    }
  return [first, second]
}

function grainValues(seed: string): Float32Array {
  const random = createRandom(seed)
  return Float32Array.from({ length: SIDE * SIDE }, () => (random.next() + random.next()) / 2)
}

/** To a mean of 0.5 and a standard deviation of 0.18, so that thresholds mean the same in every field. */
function normalised(values: Float32Array): Float32Array {
  let sum = 0
  let squares = 0
  for (const value of values) {
    sum += value
    squares += value * value
  }
  const mean = sum / values.length
  const deviation = Math.sqrt(squares / values.length - mean * mean)
  return values.map((value) => 0.5 + ((value - mean) / deviation) * 0.18)
}

function ease(t: number): number {
  return t * t * t * (t * (t * 6 - 15) + 10)
}

function mix(a: number, b: number, share: number): number {
  return a + (b - a) * share
}
