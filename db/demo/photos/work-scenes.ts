import { at, darken, eachPixel, lay, raise, step, type Material, type Rgb } from './canvas.ts'
import { band, crown, line, roundedBox, row, type Form } from './forms.ts'
import {
  GREEN,
  GREY,
  RED_OXIDE,
  TRANSPORT_BLACK,
  bareSteel,
  behind,
  groundSteel,
  paint,
  plain,
  primer,
  sealer,
} from './materials.ts'
import type { Random } from './random.ts'
import {
  buildStructure,
  channel,
  foldedPanel,
  lapJoint,
  openHole,
  ribbedFloor,
  type Scene,
} from './structures.ts'

/** What is done: sections let in, sealer, primers, gaps and colour. */

const PRIMERS: readonly [Rgb, ...Rgb[]] = [RED_OXIDE, GREY, GREEN]

/** A new piece let into ground metal, held until it is tacked. */
export function drawSectionFitted(scene: Scene): void {
  const { canvas, fields, random } = scene
  const { finish } = random.pick([foldedPanel, ribbedFloor, lapJoint])(scene)
  const half = [random.between(0.85, 1.3), random.between(0.5, 0.8)] as const
  const outline = roundedBox(2, 1.45, half[0], half[1], random.between(0.04, 0.25))
  const [x, y] = [random.between(0, 9), random.between(0, 9)]
  const piece = eachPixel(canvas, outline)
  const fringe = eachPixel(
    canvas,
    (p) => outline(p) + (fields.cloud2.at(p.u * 0.3 + x, p.v * 0.3 + y) - 0.5) * 0.28,
  )
  const fresh = random.pick<Material>([
    bareSteel(fields, random),
    primer(fields, random, TRANSPORT_BLACK),
    primer(fields, random, [0.3, 0.305, 0.31]),
    primer(fields, random, GREEN),
  ])
  lay(canvas, primer(fields, random, random.pick([RED_OXIDE, GREY, scene.bodyColour, scene.bodyColour])))
  lay(canvas, groundSteel(fields, random), ({ index }) => step(0.34, 0.28, at(fringe, index)))
  lay(canvas, fresh, ({ index }) => step(0.006, -0.006, at(piece, index)))
  raise(canvas, ({ index }) => 0.012 * step(0.01, -0.01, at(piece, index)))
  if (random.chance(0.5)) raise(canvas, ({ index }) => 0.05 * step(-0.25, -0.4, at(piece, index)))
  darken(canvas, ({ index }) => 0.9 * band(0.01, 0.007, at(piece, index)))
  if (random.chance(0.4)) tack(scene, outline)
  else hold(scene, half)
  finish()
}

/** Pins through both sheets along the edges, or clamps from outside. */
function hold({ random, props }: Scene, [halfU, halfV]: readonly [number, number]): void {
  if (random.chance(0.4)) {
    const sides = [-1, 1].filter(() => random.chance(0.75))
    for (const side of sides)
      props.push({
        thing: 'clamp',
        u: 2 + side * (halfU + 0.02),
        v: 1.45 + random.between(-0.3, 0.3),
        angle: (side < 0 ? Math.PI : 0) + random.between(-0.4, 0.4),
      })
    return
  }
  const spacing = random.between(0.3, 0.5)
  for (const side of [-1, 1]) {
    for (let u = -halfU + 0.15; u < halfU; u += spacing)
      props.push({ thing: 'pin', u: 2 + u, v: 1.45 + side * (halfV + 0.07), angle: 0 })
    for (let v = -halfV + 0.2; v < halfV; v += spacing)
      props.push({ thing: 'pin', u: 2 + side * (halfU + 0.07), v: 1.45 + v, angle: 0 })
  }
}

function tack({ canvas, random }: Scene, outline: Form): void {
  const marks = row(random, outline, random.between(0.3, 0.45), 0.03)
  const distance = eachPixel(canvas, marks.distance)
  lay(canvas, plain([0.1, 0.09, 0.1], 0.4, 0.1), ({ index }) => 0.8 * step(0.15, 0.05, at(distance, index)))
  raise(canvas, ({ index }) => 0.05 * step(0.055, 0.02, at(distance, index)))
  lay(canvas, plain([0.25, 0.25, 0.26], 0.6, 0.2), ({ index }) => step(0.055, 0.04, at(distance, index)))
}

export function drawSealedSeam(scene: Scene): void {
  const { canvas, fields, random } = scene
  const { joint, finish } = random.pick([lapJoint, ribbedFloor, channel, lapJoint])(scene)
  const [x, y] = [random.between(0, 9), random.between(0, 9)]
  const half = random.between(0.08, 0.14)
  const width = eachPixel(
    canvas,
    (p) =>
      joint(p) +
      (fields.cloud.at(p.u * 0.4 + x, p.v * 0.15 + y) - 0.5) * 0.09 +
      (fields.cloud2.near(p.u * 0.8 + y, p.v * 0.8 + x) - 0.5) * 0.02,
  )
  const colour = random.pick<Rgb>([
    [0.5, 0.48, 0.42],
    [0.22, 0.22, 0.23],
    [0.5, 0.38, 0.2],
    [0.6, 0.6, 0.58],
  ])
  lay(canvas, primer(fields, random, random.pick(PRIMERS)))
  raise(canvas, ({ index }) => 0.08 * Math.sqrt(Math.max(0, 1 - (at(width, index) / half) ** 2)))
  lay(canvas, sealer(fields, random, colour), ({ index }) =>
    step(half + 0.008, half - 0.008, at(width, index)),
  )
  finish()
}

export function drawPrimed(scene: Scene, colour: Rgb): void {
  const { canvas, fields, random } = scene
  const { flange, finish } = buildStructure(scene)
  const [x, y] = [random.between(0, 9), random.between(0, 9)]
  const limit = line(random, random.between(0.6, 2.4), 0.9)
  const away = random.chance(0.5) ? 1 : -1
  if (random.chance(0.4)) weldsUnder(scene, flange)
  if (random.chance(0.4)) {
    lay(canvas, groundSteel(fields, random, 0.35))
    lay(canvas, primer(fields, random, colour), (p) =>
      step(-0.4, 0.15, limit(p) * away + 0.5 + (fields.cloud.at(p.u * 0.3 + x, p.v * 0.3 + y) - 0.5) * 0.5),
    )
  } else lay(canvas, primer(fields, random, colour))
  finish()
}

/** Welds that show through the coat. */
function weldsUnder({ canvas, random }: Scene, flange: Form): void {
  const marks = row(random, flange, random.between(0.3, 0.42), 0.03)
  raise(canvas, (p) => -0.022 * step(0.07, 0.03, marks.distance(p)))
}

/** Two painted or primed panels and the gap between them. */
export function drawPanelGap(scene: Scene): void {
  const { canvas, fields, random } = scene
  const gap = gapLine(random)
  const flush = random.between(-0.02, 0.02)
  const swageAt = random.between(0.7, 2.2)
  const distance = eachPixel(canvas, gap.distance)
  const half = eachPixel(canvas, gap.half)
  if (random.chance(0.6)) lay(canvas, paint(fields, random, scene.bodyColour, 0.85))
  else lay(canvas, primer(fields, random, random.pick([GREY, RED_OXIDE])))
  raise(canvas, crown(random))
  raise(canvas, ({ u, v }) => {
    const down = v - swageAt - (u - 2) * 0.06
    return 0.05 * (1 - step(0, 0.13, Math.abs(down))) + 0.04 * step(0, 0.25, down)
  })
  raise(canvas, ({ index }) => {
    const beside = Math.abs(at(distance, index)) - at(half, index)
    return flush * step(0, 0.01, at(distance, index)) - 0.3 * (1 - step(0, 0.1, beside)) ** 3
  })
  openHole(
    canvas,
    distance.map((beside, index) => step(0.006, -0.006, Math.abs(beside) - at(half, index))),
  )
  if (random.chance(0.7)) layFeelers(scene, gap)
}

function layFeelers({ random, props }: Scene, gap: Gap): void {
  const v = random.between(0.8, 2.2)
  const u = 2 - gap.distance({ u: 2, v })
  const side = random.chance(0.5) ? 0 : Math.PI
  props.push({ thing: 'feelers', u, v, angle: side + random.between(-0.5, 0.5) })
}

interface Gap {
  readonly distance: Form
  readonly half: Form
}

/** A nearly upright gap of some millimetres that may taper. */
function gapLine(random: Random): Gap {
  const middle = random.between(1.5, 2.5)
  const slope = random.between(-0.2, 0.2)
  const bend = random.between(-0.05, 0.05)
  const half = random.between(0.03, 0.05)
  const taper = random.between(-0.008, 0.008)
  return {
    distance: ({ u, v }) => u - middle - slope * (v - 1.5) - bend * (v - 1.5) ** 2,
    half: ({ v }) => half + taper * (v - 1.5),
  }
}

export function drawBodyColour(scene: Scene): void {
  const { canvas, fields, random } = scene
  const middle = random.between(0.7, 1.7)
  const slope = random.between(-0.1, 0.1)
  raise(canvas, crown(random))
  raise(canvas, ({ u, v }) => {
    const distance = v - middle - slope * (u - 2)
    return 0.09 * (1 - step(0, 0.16, Math.abs(distance))) - 0.12 * step(0, 1.4, distance)
  })
  lay(canvas, paint(fields, random, scene.bodyColour, random.between(0.8, 1)))
  if (random.chance(0.5)) wheelArch(scene)
}

function wheelArch({ canvas, fields, random }: Scene): void {
  const [u0, v0, radius] = [random.between(2.6, 3.6), random.between(3.2, 3.7), random.between(1.3, 1.6)]
  const arch = eachPixel(canvas, ({ u, v }) => Math.sqrt((u - u0) ** 2 + (v - v0) ** 2) - radius)
  const inside = arch.map((distance) => step(0.008, -0.008, distance))
  raise(canvas, ({ index }) => 0.07 * band(0.09, 0.09, at(arch, index) - 0.1) - 0.6 * at(inside, index))
  lay(canvas, behind(fields, random), ({ index }) => at(inside, index))
  darken(canvas, ({ index }) => 0.7 * at(inside, index))
}
