import type { Random } from './random.ts'

/** The size at which surfaces are drawn; the finished photo is enlarged from it, with the grain of a small camera. */
export const CANVAS_WIDTH = 480
export const CANVAS_HEIGHT = 360
export const PIXELS_PER_UNIT = CANVAS_WIDTH / 4
const PIXELS = CANVAS_WIDTH * CANVAS_HEIGHT

/**
 * A piece of a car body as seen by a camera that looks at it squarely: for each pixel its place on the surface, its height
 * and what it is made of. One unit is about 10 cm; the picture is about 4 x 3 units.
 */
export interface Canvas {
  readonly u: Float32Array
  readonly v: Float32Array
  /** Height towards the camera, in units. */
  readonly z: Float32Array
  /** Reflected share of red, green and blue light, linear. */
  readonly red: Float32Array
  readonly green: Float32Array
  readonly blue: Float32Array
  /** 0 matt to 1 polished: how tight and bright highlights are. */
  readonly gloss: Float32Array
  /** 0 to 1: how much of the workshop is mirrored. */
  readonly mirror: Float32Array
  /** Light that reaches the pixel for other reasons than its height; 1 is all. */
  readonly open: Float32Array
}

/** How the camera is held. */
export interface View {
  readonly turn: number
  readonly zoom: number
  readonly lean: number
  readonly tip: number
  /** -1 when mirrored, so that left parts come out as right ones. */
  readonly flip: 1 | -1
}

/** Where a point of the surface is in the picture, 0 to 1 across and down. */
export type ToPicture = (u: number, v: number) => readonly [number, number]

/** A point of the surface; the same object is moved on from pixel to pixel. */
export interface Point {
  readonly u: number
  readonly v: number
  /** Its place in the canvas's arrays. */
  readonly index: number
}

/** What a material says of one point; the same object is filled in again for every pixel. */
export interface Ink {
  red: number
  green: number
  blue: number
  gloss: number
  mirror: number
  /** Added to the height. */
  bump: number
}

export type Material = (point: Point, ink: Ink) => void

/** How much of a material lies at a point, 0 to 1. */
export type Mask = (point: Point) => number

export type Rgb = readonly [number, number, number]

export function createView(random: Random): View {
  const steady = random.between(-0.09, 0.09)
  return {
    turn: steady + random.pick([0, 0, 0, 0, 0.3, -0.35, Math.PI / 2, -Math.PI / 2]),
    zoom: random.between(0.74, 1.08),
    lean: random.between(-0.06, 0.06),
    tip: random.between(-0.08, 0.08),
    flip: random.pick([1, -1]),
  }
}

/**
 * An empty canvas as seen in this view. There is one for all photos, as each is drawn and lit before the next is begun:
 * making 12 MB anew for each would take longer than drawing.
 */
export function createCanvas({ turn, zoom, lean, tip, flip }: View): Canvas {
  const canvas = scratch
  for (const values of [canvas.z, canvas.red, canvas.green, canvas.blue, canvas.gloss, canvas.mirror])
    values.fill(0)
  canvas.open.fill(1)
  const cos = Math.cos(turn) * zoom
  const sin = Math.sin(turn) * zoom
  for (let row = 0, index = 0; row < CANVAS_HEIGHT; row++)
    for (let column = 0; column < CANVAS_WIDTH; column++, index++) {
      const x = ((column / CANVAS_WIDTH) * 4 - 2) * flip
      const y = (row / CANVAS_HEIGHT) * 3 - 1.5
      const depth = 1 / (1 + lean * x + tip * y)
      canvas.u[index] = 2 + (x * cos - y * sin) * depth
      canvas.v[index] = 1.5 + (x * sin + y * cos) * depth
    }
  return canvas
}

/** The way back, by repeated approach: a few turns bring it within a pixel for views as flat as these. */
export function toPicture({ turn, zoom, lean, tip, flip }: View): ToPicture {
  const cos = Math.cos(turn) / zoom
  const sin = Math.sin(turn) / zoom
  return (u, v) => {
    let [x, y] = [0, 0]
    for (let round = 0; round < 6; round++) {
      const depth = 1 + lean * x + tip * y
      const [across, down] = [(u - 2) * depth, (v - 1.5) * depth]
      x = across * cos + down * sin
      y = down * cos - across * sin
    }
    return [(x * flip + 2) / 4, (y + 1.5) / 3]
  }
}

const scratch: Canvas = {
  u: new Float32Array(PIXELS),
  v: new Float32Array(PIXELS),
  z: new Float32Array(PIXELS),
  red: new Float32Array(PIXELS),
  green: new Float32Array(PIXELS),
  blue: new Float32Array(PIXELS),
  gloss: new Float32Array(PIXELS),
  mirror: new Float32Array(PIXELS),
  open: new Float32Array(PIXELS),
}

/** Lays a material over the canvas, everywhere or as far as the mask says. */
export function lay(canvas: Canvas, material: Material, mask?: Mask): void {
  const { z, red, green, blue, gloss, mirror } = canvas
  const ink: Ink = { red: 0, green: 0, blue: 0, gloss: 0, mirror: 0, bump: 0 }
  visit(canvas, (point) => {
    const share = mask === undefined ? 1 : mask(point)
    if (share <= 0.003) return
    const { index } = point
    const amount = share > 1 ? 1 : share
    material(point, ink)
    const old = 1 - amount
    red[index] = at(red, index) * old + ink.red * amount
    green[index] = at(green, index) * old + ink.green * amount
    blue[index] = at(blue, index) * old + ink.blue * amount
    gloss[index] = at(gloss, index) * old + ink.gloss * amount
    mirror[index] = at(mirror, index) * old + ink.mirror * amount
    z[index] = at(z, index) + ink.bump * amount
  })
}

/** Adds a form to the height. */
export function raise(canvas: Canvas, form: Mask): void {
  visit(canvas, (point) => {
    canvas.z[point.index] = at(canvas.z, point.index) + form(point)
  })
}

/** Puts another sheet in front: where the mask says so the height is this one and no shadow from before remains. */
export function putInFront(canvas: Canvas, height: number, mask: Mask): void {
  visit(canvas, (point) => {
    const share = mask(point)
    canvas.z[point.index] = mix(at(canvas.z, point.index), height, share)
    canvas.open[point.index] = mix(at(canvas.open, point.index), 1, share)
  })
}

/** Takes light away as far as the mask says. */
export function darken(canvas: Canvas, mask: Mask): void {
  visit(canvas, (point) => {
    canvas.open[point.index] = at(canvas.open, point.index) * (1 - mask(point))
  })
}

/** Works a value out once for every pixel, for masks that use it again and again. */
export function eachPixel(canvas: Canvas, value: Mask): Float32Array {
  const values = new Float32Array(PIXELS)
  visit(canvas, (point) => {
    values[point.index] = value(point)
  })
  return values
}

/** One object for all points: numbers handed over one by one would each be put on the heap. */
function visit({ u, v }: Canvas, action: (point: Point) => void): void {
  const point = { u: 0.5, v: 0.5, index: 0 }
  for (let index = 0; index < PIXELS; index++) {
    point.u = at(u, index)
    point.v = at(v, index)
    point.index = index
    action(point)
  }
}

/** Reads what `eachPixel` has worked out. */
export function at(values: Float32Array, index: number): number {
  return values[index] as number
}

/** 0 below `low`, 1 above `high`, smooth between. */
export function step(low: number, high: number, value: number): number {
  const t = (value - low) / (high - low)
  return t <= 0 ? 0 : t >= 1 ? 1 : t * t * (3 - 2 * t)
}

export function mix(a: number, b: number, share: number): number {
  return a + (b - a) * share
}
