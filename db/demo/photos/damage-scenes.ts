import {
  at,
  darken,
  eachPixel,
  lay,
  putInFront,
  raise,
  step,
  type Canvas,
  type Material,
  type Rgb,
} from './canvas.ts'
import { band, roundedBox, type Form } from './forms.ts'
import {
  bareSteel,
  filler,
  groundSteel,
  paint,
  pittedSteel,
  plain,
  primer,
  rust,
  underseal,
} from './materials.ts'
import {
  buildStructure,
  drainHoles,
  foldedPanel,
  lapJoint,
  openHole,
  type Scene,
  type Structure,
} from './structures.ts'

/** What is found: metal from sound to gone, old filler, and a cavity seen for the first time. */

export function drawBareSteel(scene: Scene): void {
  const { canvas, fields, random } = scene
  const { joint, finish } = buildStructure(scene)
  const [x, y] = [random.between(0, 9), random.between(0, 9)]
  const patch = eachPixel(canvas, (p) => fields.cloud.at(p.u * 0.2 + x, p.v * 0.2 + y) - joint(p) * 0.07)
  const left = eachPixel(canvas, (p) => fields.cloud2.at(p.u * 0.3 + y, p.v * 0.3 + x) - joint(p) * 0.2)
  lay(canvas, bareSteel(fields, random))
  lay(canvas, groundSteel(fields, random), ({ index }) => step(0.5, 0.42, at(patch, index)))
  lay(
    canvas,
    paint(fields, random, scene.bodyColour, 0.3),
    ({ index }) => 0.9 * step(0.6, 0.63, at(patch, index)),
  )
  lay(canvas, rust(fields, random, 0.2), ({ index }) => 0.5 * step(0.55, 0.75, at(left, index)))
  finish()
}

export function drawSurfaceRust(scene: Scene): void {
  const { canvas, fields, random } = scene
  const { joint, finish } = buildStructure(scene)
  oldCoat(scene)
  const eaten = rustShare(scene, joint, random.between(0.42, 0.58))
  liftCoat(canvas, eaten)
  lay(canvas, rust(fields, random, random.between(0.1, 0.5)), ({ index }) =>
    step(0.45, 0.55, at(eaten, index)),
  )
  finish()
}

export function drawPitted(scene: Scene): void {
  const { canvas, fields, random } = scene
  const { joint, finish } = buildStructure(scene)
  if (random.chance(0.7)) oldCoat(scene)
  else lay(canvas, bareSteel(fields, random))
  const eaten = rustShare(scene, joint, random.between(0.36, 0.48))
  liftCoat(canvas, eaten)
  lay(canvas, rust(fields, random, 0.55), ({ index }) => step(0.43, 0.5, at(eaten, index)))
  lay(canvas, pittedSteel(fields, random), ({ index }) => step(0.5, 0.6, at(eaten, index)))
  finish()
}

export function drawHoled(scene: Scene): void {
  const { canvas, fields, random } = scene
  const { joint, finish } = buildStructure(scene)
  oldCoat(scene)
  const eaten = rustShare(scene, joint, random.between(0.4, 0.5))
  worst(scene, joint, eaten)
  liftCoat(canvas, eaten)
  lay(canvas, rust(fields, random, 0.75), ({ index }) => step(0.44, 0.52, at(eaten, index)))
  const gone = random.between(0.8, 0.86)
  raise(canvas, ({ index }) => 0.05 * band(0.03, 0.03, at(eaten, index) - gone + 0.02))
  lay(canvas, rust(fields, random, 1), ({ index }) => step(gone - 0.13, gone - 0.04, at(eaten, index)))
  openHole(
    canvas,
    eaten.map((share) => step(gone - 0.006, gone + 0.006, share)),
  )
  finish()
}

/** One or two places where it is worst, near the joint. */
function worst({ canvas, random }: Scene, joint: Form, eaten: Float32Array): void {
  const places = [0, 1].map(() => [random.between(0.5, 3.5), random.between(0.3, 0.75)] as const)
  const more = eachPixel(canvas, (p) => {
    const off = joint(p) / 0.7
    return places.reduce((sum, [along, reach]) => {
      const beside = (p.u - along) / reach
      return sum + 0.17 * Math.max(0, 1 - beside * beside - off * off)
    }, 0)
  })
  for (let index = 0; index < eaten.length; index++) eaten[index] = at(eaten, index) + at(more, index)
}

/** Old filler sanded back: the coats show as rings round it, and it has cracked. */
export function drawFiller(scene: Scene): void {
  const { canvas, fields, random } = scene
  const { finish } = random.pick([foldedPanel, lapJoint])(scene)
  const [x, y] = [random.between(0, 9), random.between(0, 9)]
  const heart = roundedBox(
    random.between(1.5, 2.5),
    random.between(1, 1.7),
    random.between(0.7, 1.2),
    random.between(0.4, 0.7),
    0.4,
  )
  const ring = eachPixel(
    canvas,
    (p) =>
      heart(p) +
      (fields.cloud.at(p.u * 0.17 + x, p.v * 0.17 + y) - 0.5) * 0.9 +
      (fields.cloud2.near(p.u * 0.5, p.v * 0.5) - 0.5) * 0.14,
  )
  const coats: readonly (readonly [Material, number])[] = [
    [primer(fields, random, [0.24, 0.24, 0.25]), 0.5],
    [primer(fields, random, [0.2, 0.05, 0.035]), 0.4],
    [groundSteel(fields, random), 0.3],
    [filler(fields, random, random.pick(FILLER_COLOURS)), 0.04],
  ]
  lay(canvas, paint(fields, random, scene.bodyColour, 0.6))
  for (const [material, reach] of coats)
    lay(canvas, material, ({ index }) => step(reach + 0.025, reach - 0.025, at(ring, index)))
  if (random.chance(0.8)) crack(scene, ring)
  finish()
}

const FILLER_COLOURS: readonly [Rgb, ...Rgb[]] = [
  [0.42, 0.32, 0.17],
  [0.45, 0.22, 0.17],
  [0.26, 0.28, 0.19],
  [0.5, 0.44, 0.3],
]

function crack({ canvas, fields, random }: Scene, ring: Float32Array): void {
  const [x, y] = [random.between(0, 9), random.between(0, 9)]
  const net = eachPixel(canvas, ({ u, v }) => {
    const bend = (fields.cloud.at(u * 0.6 + y, v * 0.6 + x) - 0.5) * 0.1
    return fields.cracks.at(u * 0.2 + x + bend, v * 0.2 + y + bend)
  })
  for (let index = 0; index < net.length; index++)
    net[index] = at(net, index) * step(0.1, -0.2, at(ring, index))
  raise(canvas, ({ index }) => -0.05 * step(0.7, 0.95, at(net, index)))
  lay(canvas, rust(fields, random, 0.2), ({ index }) => 0.5 * step(0.1, 0.9, at(net, index)))
  lay(canvas, plain([0.03, 0.018, 0.012], 0, 0), ({ index }) => 0.9 * step(0.74, 0.9, at(net, index)))
}

/** A window cut in the outer panel; the cavity behind it shows what nobody has seen for years. */
export function drawCutOpen(scene: Scene): void {
  const { canvas, fields, random } = scene
  drawCavity(scene)
  const box = roundedBox(
    random.between(1.7, 2.3),
    random.between(1.3, 1.7),
    random.between(1, 1.5),
    random.between(0.6, 0.95),
    random.between(0.03, 0.14),
  )
  const wobble = random.between(0.01, 0.04)
  const edge = eachPixel(canvas, (p) => box(p) + (fields.cloud.at(p.u * 0.5, p.v * 0.5) - 0.5) * wobble)
  const fringe = eachPixel(canvas, ({ u, v }) => (fields.cloud2.near(u * 0.4, v * 0.4) - 0.5) * 0.22)
  const outside = edge.map((distance) => step(-0.006, 0.006, distance))
  darken(canvas, ({ index }) => 0.3 * (1 - at(outside, index)))
  putInFront(canvas, 0.3, ({ index }) => at(outside, index))
  lay(canvas, paint(fields, random, scene.bodyColour, 0.7), ({ index }) => at(outside, index))
  const isGround = (index: number) =>
    at(outside, index) * step(0.24, 0.17, at(edge, index) + at(fringe, index))
  if (random.chance(0.75)) lay(canvas, groundSteel(fields, random), ({ index }) => isGround(index))
  lay(
    canvas,
    plain([0.05, 0.03, 0.025], 0, 0),
    ({ index }) => 0.5 * at(outside, index) * band(0.02, 0.02, at(edge, index) - 0.045),
  )
  lay(canvas, plain([0.6, 0.6, 0.62], 0.5, 0.25), ({ index }) => band(0.01, 0.006, at(edge, index) - 0.008))
}

function drawCavity(scene: Scene): void {
  const { canvas, fields, random } = scene
  const inside = random.pick<Material>([
    rust(fields, random, random.between(0.4, 0.9)),
    pittedSteel(fields, random),
    primer(fields, random, [0.13, 0.045, 0.033]),
    underseal(fields, random),
    paint(fields, random, scene.bodyColour, 0.2),
  ])
  const [x, y] = [random.between(0, 9), random.between(0, 9)]
  const rib = random.between(0.9, 1.9)
  const lean = random.between(-0.1, 0.1)
  const isUpright = random.chance(0.4)
  lay(canvas, inside)
  raise(
    canvas,
    ({ u, v }) =>
      0.14 * band(0.3, 0.1, (isUpright ? u - rib - 0.5 : v - rib) + lean * (isUpright ? v : u - 2)),
  )
  lay(canvas, rust(fields, random, 0.6), ({ u, v }) =>
    step(0.5, 0.62, fields.cloud.at(u * 0.3 + x, v * 0.3 + y)),
  )
  if (random.chance(0.6)) drainHoles(canvas, random, random.between(1.2, 1.8))
}

/** The coat of a part that has been on the road for decades. */
function oldCoat({ canvas, fields, random, bodyColour }: Scene): void {
  const coats: readonly [Material, ...Material[]] = [
    paint(fields, random, bodyColour, 0.35),
    paint(fields, random, bodyColour, 0.35),
    underseal(fields, random),
    primer(
      fields,
      random,
      random.pick<Rgb>([
        [0.17, 0.045, 0.033],
        [0.15, 0.15, 0.16],
      ]),
    ),
  ]
  lay(canvas, random.pick(coats))
}

/** How far rust has come at each pixel: more at the joints, in patches; about 0.2 to 0.9, beginning to show at 0.5. */
function rustShare(
  { canvas, fields, random }: Scene,
  joint: Structure['joint'],
  sparse: number,
): Float32Array {
  const [x, y] = [random.between(0, 9), random.between(0, 9)]
  return eachPixel(canvas, (p) => {
    const wide = fields.cloud.at(p.u * 0.24 + x, p.v * 0.24 + y)
    const fine = fields.cloud2.near(p.u * 0.62 + y, p.v * 0.62 + x)
    return wide * 0.72 + fine * 0.28 + 0.26 * step(0.9, 0, joint(p)) + 0.42 - sparse
  })
}

/** The coat stands a little higher than the rust and lifts at its edge. */
function liftCoat(canvas: Canvas, eaten: Float32Array): void {
  raise(canvas, ({ index }) => {
    const share = at(eaten, index)
    return 0.007 * step(0.52, 0.46, share) + 0.007 * band(0.04, 0.04, share - 0.43)
  })
}
