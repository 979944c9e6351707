import {
  drawBareSteel,
  drawCutOpen,
  drawFiller,
  drawHoled,
  drawPitted,
  drawSurfaceRust,
} from './damage-scenes.ts'
import { GREEN, GREY, RED_OXIDE } from './materials.ts'
import type { Prop, Scene } from './structures.ts'
import { PLUG_WELD, SPOT_WELD, drawSeamWeld, drawWeldRow } from './weld-scenes.ts'
import { drawBodyColour, drawPanelGap, drawPrimed, drawSealedSeam, drawSectionFitted } from './work-scenes.ts'

export const DEMO_PHOTO_KINDS = [
  'bare steel',
  'surface rust',
  'pitted',
  'holed',
  'filler',
  'cut open',
  'section fitted',
  'seam sealer',
  'red oxide primer',
  'grey primer',
  'green primer',
  'spot welds',
  'plug welds',
  'seam weld',
  'panel gap',
  'body colour',
] as const

export type DemoPhotoKind = (typeof DEMO_PHOTO_KINDS)[number]

/** Draws the metal of a kind and leaves its tools and marks in `props`. */
export function drawScene(kind: DemoPhotoKind, scene: Scene): void {
  METAL[kind](scene)
  for (const [thing, likelihood] of LOOSE_THINGS[kind])
    if (scene.random.chance(likelihood)) scene.props.push(loose(thing, scene))
}

const METAL: Readonly<Record<DemoPhotoKind, (scene: Scene) => void>> = {
  'bare steel': drawBareSteel,
  'surface rust': drawSurfaceRust,
  pitted: drawPitted,
  holed: drawHoled,
  filler: drawFiller,
  'cut open': drawCutOpen,
  'section fitted': drawSectionFitted,
  'seam sealer': drawSealedSeam,
  'red oxide primer': (scene) => drawPrimed(scene, RED_OXIDE),
  'grey primer': (scene) => drawPrimed(scene, GREY),
  'green primer': (scene) => drawPrimed(scene, GREEN),
  'spot welds': (scene) => drawWeldRow(scene, SPOT_WELD),
  'plug welds': (scene) => drawWeldRow(scene, PLUG_WELD),
  'seam weld': drawSeamWeld,
  'panel gap': drawPanelGap,
  'body colour': drawBodyColour,
}

/** What people leave or draw on such metal, and how often. */
const LOOSE_THINGS: Readonly<Record<DemoPhotoKind, readonly (readonly [Prop['thing'], number])[]>> = {
  'bare steel': [['rule', 0.2]],
  'surface rust': [
    ['pen arrow', 0.25],
    ['rule', 0.15],
  ],
  pitted: [
    ['pen circle', 0.4],
    ['rule', 0.2],
  ],
  holed: [
    ['pen circle', 0.35],
    ['pen arrow', 0.2],
    ['rule', 0.25],
  ],
  filler: [
    ['pen circle', 0.2],
    ['pen arrow', 0.2],
  ],
  'cut open': [
    ['rule', 0.3],
    ['pen arrow', 0.2],
  ],
  'section fitted': [],
  'seam sealer': [],
  'red oxide primer': [['tape', 0.25]],
  'grey primer': [['tape', 0.25]],
  'green primer': [['tape', 0.25]],
  'spot welds': [['rule', 0.25]],
  'plug welds': [['rule', 0.25]],
  'seam weld': [['rule', 0.25]],
  'panel gap': [],
  'body colour': [['tape', 0.12]],
}

function loose(thing: Prop['thing'], { random }: Scene): Prop {
  const isEdge = thing === 'tape' || thing === 'rule'
  return {
    thing,
    u: thing === 'rule' ? random.between(0.5, 1.6) : random.between(1.3, 2.7),
    v: isEdge ? random.pick([0.6, 2.5]) + random.between(-0.15, 0.15) : random.between(1, 2),
    angle: isEdge ? random.between(-0.12, 0.12) : random.between(-3, 3),
  }
}
