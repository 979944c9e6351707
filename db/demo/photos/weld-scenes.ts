import { at, darken, eachPixel, lay, mix, raise, step, type Material, type Rgb } from './canvas.ts'
import { band, crown, line, row, swage } from './forms.ts'
import { GREEN, GREY, RED_OXIDE, TRANSPORT_BLACK, groundSteel, plain, primer } from './materials.ts'
import { channel, foldedPanel, lapJoint, ribbedFloor, type Scene } from './structures.ts'

/** Welds: rows of spots and plugs, and seams. */

export interface Weld {
  readonly height: (distance: number, own: number) => number
  readonly metal: (distance: number, own: number) => number
  readonly heat: (distance: number) => number
}

export const SPOT_WELD: Weld = {
  height: (distance) => -0.03 * step(0.075, 0.045, distance) + 0.008 * band(0.02, 0.02, distance - 0.085),
  metal: () => 0,
  heat: (distance) => 0.85 * step(0.2, 0.06, distance),
}

export const PLUG_WELD: Weld = {
  height: (distance, own) => 0.05 * Math.sqrt(Math.max(0, 1 - (distance / plugRadius(own)) ** 2)),
  metal: (distance, own) => step(plugRadius(own) + 0.006, plugRadius(own) - 0.01, distance),
  heat: (distance) => step(0.27, 0.08, distance),
}

function plugRadius(own: number): number {
  return 0.075 + 0.025 * own
}

/** A flange with a row of welds, their heat marks and the primer ground away round them. */
export function drawWeldRow(scene: Scene, weld: Weld): void {
  const { canvas, fields, random } = scene
  const { flange, finish } = random.pick([lapJoint, channel, foldedPanel, ribbedFloor])(scene)
  const [x, y] = [random.between(0, 9), random.between(0, 9)]
  const coat = random.pick([TRANSPORT_BLACK, GREY, RED_OXIDE, GREEN, scene.bodyColour])
  const reach = random.between(0.16, 0.3)
  const marks = row(random, flange, random.between(0.34, 0.5), 0.035)
  const distance = eachPixel(canvas, marks.distance)
  const own = eachPixel(canvas, marks.own)
  lay(canvas, primer(fields, random, coat))
  lay(canvas, groundSteel(fields, random), (p) =>
    step(
      reach + 0.05,
      reach - 0.05,
      Math.abs(flange(p)) + (fields.cloud2.at(p.u * 0.3 + x, p.v * 0.3 + y) - 0.5) * 0.3,
    ),
  )
  raise(canvas, ({ index }) => weld.height(at(distance, index), at(own, index)))
  lay(canvas, heatTint(scene), ({ index }) => 0.8 * weld.heat(at(distance, index)))
  lay(canvas, plain([0.24, 0.235, 0.24], 0.6, 0.2), ({ index }) =>
    weld.metal(at(distance, index), at(own, index)),
  )
  finish()
}

/** Straw, brown and blue by chance of place, as steel goes when it has been hot. */
function heatTint({ fields, random }: Scene): Material {
  const [x, y] = [random.between(0, 9), random.between(0, 9)]
  return ({ u, v }, ink) => {
    const blue = step(0.42, 0.6, fields.cloud.at(u * 0.7 + x, v * 0.7 + y))
    ink.red = mix(0.14, 0.03, blue)
    ink.green = mix(0.075, 0.045, blue)
    ink.blue = mix(0.035, 0.1, blue)
    ink.gloss = 0.45
    ink.mirror = 0.1
    ink.bump = 0
  }
}

/** A welded butt: overlapping ripples, blue and straw on both sides, soot and spatter; some are dressed flat. */
export function drawSeamWeld(scene: Scene): void {
  const { canvas, fields, random } = scene
  const seam = line(random, random.between(1.2, 1.8), 0.3)
  const [x, y] = [random.between(0, 9), random.between(0, 9)]
  const off = eachPixel(canvas, (p) => seam(p) + (fields.cloud.at(p.u * 0.4 + y, x) - 0.5) * 0.07)
  const wide = eachPixel(
    canvas,
    (p) => Math.abs(seam(p)) + (fields.cloud2.at(p.u * 0.3 + x, p.v * 0.3 + y) - 0.5) * 0.4,
  )
  const coat = random.pick([TRANSPORT_BLACK, GREY, RED_OXIDE, scene.bodyColour])
  raise(canvas, crown(random))
  raise(canvas, swage(random, random.pick([0.35, 2.65]), 0.05))
  lay(canvas, groundSteel(fields, random, 0.6))
  lay(canvas, primer(fields, random, coat), ({ index }) => step(0.5, 0.56, at(wide, index)))
  for (const [reach, colour, share] of HEAT_BANDS)
    lay(canvas, plain(colour, 0.45, 0.1), ({ u, v, index }) =>
      Math.abs(at(off, index)) > reach + 0.05
        ? 0
        : share * band(reach, 0.05, at(off, index)) * (0.5 + fields.cloud.at(u * 0.5 + x, v * 0.5 + y) * 0.9),
    )
  if (random.chance(0.3)) dressedWeld(scene, off)
  else rippledWeld(scene, off)
  sootBeside(scene)
}

const HEAT_BANDS: readonly (readonly [number, Rgb, number])[] = [
  [0.36, [0.15, 0.09, 0.035], 0.55],
  [0.28, [0.1, 0.035, 0.02], 0.65],
  [0.22, [0.025, 0.035, 0.11], 0.8],
  [0.16, [0.07, 0.07, 0.08], 0.8],
]

function dressedWeld({ canvas, fields, random }: Scene, off: Float32Array): void {
  raise(canvas, ({ index }) => 0.012 * band(0.1, 0.03, at(off, index)))
  lay(canvas, groundSteel(fields, random), ({ index }) => band(0.12, 0.02, at(off, index)))
}

function rippledWeld({ canvas, fields, random }: Scene, off: Float32Array): void {
  const half = random.between(0.085, 0.12)
  const pitch = random.between(0.07, 0.1)
  const [x, y] = [random.between(0, 9), random.between(0, 9)]
  const drops = eachPixel(canvas, ({ u, v }) => step(0.5, 0.7, fields.pits.near(u * 0.8 + x, v * 0.8 + y)))
  raise(canvas, ({ u, index }) => {
    const distance = at(off, index)
    const round = 1 - (distance / half) ** 2
    if (round <= 0) return 0.02 * at(drops, index) * step(0.5, 0.1, Math.abs(distance))
    const turn = (u + (distance * distance) / half / 1.1) / pitch + fields.cloud.at(u * 0.3, y) * 1.6
    return Math.sqrt(round) * (0.05 + 0.034 * (turn - Math.floor(turn)))
  })
  lay(canvas, plain([0.13, 0.127, 0.135], 0.6, 0.26), ({ index }) =>
    step(half + 0.01, half - 0.012, Math.abs(at(off, index))),
  )
  lay(
    canvas,
    plain([0.07, 0.07, 0.07], 0.5, 0.1),
    ({ index }) =>
      0.7 *
      at(drops, index) *
      step(0.5, 0.1, Math.abs(at(off, index))) *
      step(half, half + 0.02, Math.abs(at(off, index))),
  )
}

/** Soot and dust gather where nobody grinds. */
function sootBeside({ canvas, fields, random }: Scene): void {
  const [x, y] = [random.between(0, 9), random.between(0, 9)]
  darken(canvas, ({ u, v }) => 0.3 * step(0.55, 0.85, fields.soft.at(u * 0.2 + x, v * 0.2 + y)))
}
