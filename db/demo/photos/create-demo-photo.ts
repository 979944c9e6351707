import { Buffer } from 'node:buffer'
import sharp from 'sharp'
import { createCanvas, createView, toPicture, type Rgb } from './canvas.ts'
import { PHOTO_HEIGHT, PHOTO_WIDTH, enlarge, layOver, type Layer } from './develop.ts'
import { createLight, shade } from './light.ts'
import { sharedFields } from './noise.ts'
import { propsLayer } from './props.ts'
import { createRandom } from './random.ts'
import { drawScene, type DemoPhotoKind } from './scenes.ts'
import { slateLayer } from './slate.ts'
import type { Prop } from './structures.ts'

export interface DemoPhoto {
  readonly kind: DemoPhotoKind
  /** The same seed gives the same picture; the caption does not change what lies behind it. */
  readonly seed: string
  /** Lines on the slate; none leaves it out. */
  readonly caption: readonly string[]
  /** What the camera's clock showed, 'YYYY-MM-DDTHH:MM:SS'. */
  readonly takenLocal: string
  /** UTC offset of that clock, such as '+01:00'. */
  readonly offset: string
  /** The car's colour; by chance when left out. */
  readonly bodyColour?: DemoBodyColour
}

/** Body colours, linear red, green and blue. */
const BODY_COLOURS = {
  'old white': [0.56, 0.52, 0.42],
  sand: [0.42, 0.33, 0.19],
  'signal red': [0.32, 0.022, 0.018],
  maroon: [0.11, 0.012, 0.018],
  'fir green': [0.02, 0.075, 0.035],
  'pale green': [0.27, 0.37, 0.26],
  'sky blue': [0.2, 0.34, 0.44],
  'dark blue': [0.016, 0.035, 0.1],
  ochre: [0.5, 0.27, 0.05],
  'stone grey': [0.23, 0.23, 0.215],
} as const satisfies Readonly<Record<string, Rgb>>

export type DemoBodyColour = keyof typeof BODY_COLOURS

const DEMO_BODY_COLOURS = Object.keys(BODY_COLOURS) as readonly DemoBodyColour[] as readonly [
  DemoBodyColour,
  ...DemoBodyColour[],
]

/**
 * Draws a photo of bodyshell metal for the demo workshop: 1600 x 1200 px JPEG with the camera's date in its EXIF block.
 * Everything in it is computed; nothing is taken from a real photo.
 */
export async function createDemoPhoto(photo: DemoPhoto): Promise<Buffer> {
  const { pixels, layers } = draw(photo)
  const finished = enlarge(pixels, photo.seed)
  for (const layer of layers)
    layOver(finished, await sharp(Buffer.from(layer.svg)).ensureAlpha().raw().toBuffer(), layer)
  return sharp(finished, { raw: { width: PHOTO_WIDTH, height: PHOTO_HEIGHT, channels: 3 } })
    .withExif({
      IFD2: { DateTimeOriginal: localToExif(photo.takenLocal), OffsetTimeOriginal: photo.offset },
    })
    .jpeg({ quality: 80, optimizeCoding: false })
    .toBuffer()
}

interface Drawn {
  /** RGB of the metal, lit. */
  readonly pixels: Uint8Array
  /** What stands in front of it. */
  readonly layers: readonly Layer[]
}

function draw(photo: DemoPhoto): Drawn {
  const random = createRandom(`${photo.kind} ${photo.seed}`)
  const view = createView(random)
  const canvas = createCanvas(view)
  const props: Prop[] = []
  const bodyColour = BODY_COLOURS[photo.bodyColour ?? random.pick(DEMO_BODY_COLOURS)]
  drawScene(photo.kind, { canvas, fields: sharedFields(), random, bodyColour, props })
  const pixels = shade(canvas, createLight(random))
  const things = propsLayer(props, toPicture(view), random)
  const slate = slateLayer(photo.caption, createRandom(`slate ${photo.kind} ${photo.seed}`))
  return { pixels, layers: [things, slate].filter((layer) => layer !== null) }
}

function localToExif(local: string): string {
  return local.replaceAll('-', ':').replace('T', ' ')
}
