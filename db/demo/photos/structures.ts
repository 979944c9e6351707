import {
  at,
  darken,
  eachPixel,
  lay,
  putInFront,
  raise,
  step,
  type Canvas,
  type Mask,
  type Rgb,
} from './canvas.ts'
import { band, beads, crown, line, row, swage, type Form } from './forms.ts'
import { behind, plain } from './materials.ts'
import type { Fields } from './noise.ts'
import type { Random } from './random.ts'

export interface Scene {
  readonly canvas: Canvas
  readonly fields: Fields
  readonly random: Random
  /** The car's colour, linear. */
  readonly bodyColour: Rgb
  /** What stands in front of the metal; scenes put their tools here. */
  readonly props: Prop[]
}

/** A thing laid or clamped on the metal, where it touches (in units) and which way it points (radians). */
export interface Prop {
  readonly thing: 'pin' | 'clamp' | 'feelers' | 'rule' | 'pen circle' | 'pen arrow' | 'tape'
  readonly u: number
  readonly v: number
  readonly angle: number
}

export interface Structure {
  /** Distance to the nearest joint or fold, where water stands and rust begins. */
  readonly joint: Form
  /** Signed distance to the middle of a flange, where welds are set. */
  readonly flange: Form
  /** Called last: what lies beyond the metal, out of focus. */
  finish(): void
}

/** One of several pieces of a shell: its heights only. */
export function buildStructure(scene: Scene): Structure {
  raise(scene.canvas, crown(scene.random))
  return scene.random.pick([foldedPanel, channel, ribbedFloor, lapJoint, channel, foldedPanel])(scene)
}

/** A panel with a swage that ends in a folded edge; the workshop shows beyond it. */
export function foldedPanel({ canvas, fields, random }: Scene): Structure {
  const edge = line(random, random.between(2.2, 2.7))
  const beyond = eachPixel(canvas, edge)
  raise(canvas, swage(random, random.between(0.6, 1.4), random.between(0.03, 0.07)))
  raise(canvas, ({ index }) => -0.3 * step(-0.16, 0.03, at(beyond, index)) ** 2)
  return {
    joint: (p) => Math.abs(edge(p)) * 0.9,
    flange: (p) => edge(p) + 0.34,
    finish: () => {
      const isBeyond: Mask = ({ index }) => step(0.015, 0.03, at(beyond, index))
      putInFront(canvas, -1.2, isBeyond)
      lay(canvas, behind(fields, random), isBeyond)
      darken(canvas, (p) => 0.6 * isBeyond(p) * step(0.9, 0.02, at(beyond, p.index)))
      lay(
        canvas,
        plain([0.4, 0.4, 0.4], 0.3, 0),
        ({ index }) => 0.7 * band(0.009, 0.008, at(beyond, index) - 0.012),
      )
    },
  }
}

/** A box section with its cover off: two flanges, and the web between them in their shadow. */
export function channel({ canvas, random }: Scene): Structure {
  const upper = line(random, random.between(0.55, 0.85), 0.05)
  const lower = line(random, random.between(2.15, 2.45), 0.05)
  const depth = random.between(0.35, 0.6)
  raise(canvas, (p) => -depth * step(0, 0.16, upper(p)) * step(0, 0.16, -lower(p)))
  if (random.chance(0.6)) drainHoles(canvas, random, random.between(1.3, 1.7))
  return {
    joint: (p) => Math.min(Math.abs(upper(p) - 0.12), Math.abs(lower(p) + 0.12)),
    flange: (p) => upper(p) + 0.2,
    finish: () => undefined,
  }
}

/** A floor with pressed beads against an upright wall. */
export function ribbedFloor({ canvas, random }: Scene): Structure {
  const foot = line(random, random.between(0.35, 0.6), 0.08)
  const floor = beads(random)
  raise(canvas, (p) => {
    const below = foot(p)
    return below < 0.1 ? 0.7 * step(0.05, -0.5, below) : floor(p) * step(0.1, 0.3, below)
  })
  return {
    joint: (p) => Math.abs(foot(p)),
    flange: (p) => foot(p) - 0.18,
    finish: () => undefined,
  }
}

/** Two sheets, one lapped over the other. */
export function lapJoint({ canvas, random }: Scene): Structure {
  const lap = line(random, random.between(1.2, 1.8), 0.16)
  raise(canvas, (p) => 0.05 * step(0.012, -0.012, lap(p)))
  raise(canvas, swage(random, random.between(0.2, 0.5), 0.05))
  return {
    joint: (p) => Math.abs(lap(p)),
    flange: (p) => lap(p) + 0.2,
    finish: () => undefined,
  }
}

/** Round holes with a pressed rim, black behind. */
export function drainHoles(canvas: Canvas, random: Random, atV: number): void {
  const holes = row(random, line(random, atV, 0.03), random.between(1.1, 1.7), 0.05)
  const radius = random.between(0.11, 0.17)
  const distance = eachPixel(canvas, holes.distance)
  raise(canvas, ({ index }) => 0.03 * band(0.03, 0.03, at(distance, index) - radius - 0.02))
  openHole(
    canvas,
    distance.map((from) => step(radius + 0.008, radius - 0.008, from)),
  )
}

/** Takes the metal away: dark behind, and deep, so that the edge throws its shadow. @param hole 0 to 1 for each pixel */
export function openHole(canvas: Canvas, hole: Float32Array): void {
  lay(canvas, plain([0.02, 0.017, 0.016], 0, 0), ({ index }) => at(hole, index))
  raise(canvas, ({ index }) => -0.5 * at(hole, index))
  darken(canvas, ({ index }) => 0.7 * at(hole, index))
}
