import { textPath, textWidth } from './chalk-letters.ts'
import { PHOTO_HEIGHT, PHOTO_WIDTH, type Layer } from './develop.ts'
import type { Random } from './random.ts'

const LETTER_HEIGHT = 40
const LINE_HEIGHT = 67
const MARGIN = 36

/**
 * The plate that says what a photo shows, laid in a corner: a chalked slate, a card held by a magnet or a strip of masking
 * tape. Null without a caption.
 */
export function slateLayer(caption: readonly string[], random: Random): Layer | null {
  if (caption.length === 0) return null
  const letterHeight = fittingHeight(caption)
  const scale = letterHeight / LETTER_HEIGHT
  const width = Math.max(...caption.map((line) => textWidth(line, letterHeight))) + 2 * MARGIN * scale
  const height = (caption.length * LINE_HEIGHT + 2 * MARGIN - (LINE_HEIGHT - LETTER_HEIGHT)) * scale
  const [x, y] = corner(width, height, random)
  const turn = random.between(-6, 6)
  const plate = random.pick([slate, slate, slate, card, tape])
  const text = caption
    .map((line, index) =>
      textPath(line, MARGIN * scale, (MARGIN + index * LINE_HEIGHT) * scale, letterHeight, random),
    )
    .join('')
  const middle = `${(width / 2).toFixed(0)} ${(height / 2).toFixed(0)}`
  const content = `${shadow(width, height)}${plate({ width, height, text, weight: letterHeight / 9, random })}`
  const place = `translate(${x.toFixed(0)} ${y.toFixed(0)}) rotate(${turn.toFixed(1)} ${middle})`
  const box = aroundTurned(x, y, width, height)
  const view = `width="${box.width}" height="${box.height}" viewBox="${box.left} ${box.top} ${box.width} ${box.height}"`
  return {
    ...box,
    svg: `<svg xmlns="http://www.w3.org/2000/svg" ${view}><g transform="${place}">${content}</g></svg>`,
  }
}

/** The part of the photo that a plate with its shadow, turned by up to 6 degrees, may cover. */
function aroundTurned(x: number, y: number, width: number, height: number): Omit<Layer, 'svg'> {
  const beside = 50 + height * 0.06
  const above = 50 + width * 0.06
  const left = Math.max(0, Math.floor(x - beside))
  const top = Math.max(0, Math.floor(y - above))
  return {
    left,
    top,
    width: Math.min(PHOTO_WIDTH, Math.ceil(x + width + beside)) - left,
    height: Math.min(PHOTO_HEIGHT, Math.ceil(y + height + above)) - top,
  }
}

/** Long lines are written smaller, so that the plate never covers more than a third of the photo's width. */
function fittingHeight(caption: readonly string[]): number {
  const widest = Math.max(1, ...caption.map((line) => textWidth(line, LETTER_HEIGHT)))
  return Math.min(LETTER_HEIGHT, (LETTER_HEIGHT * (PHOTO_WIDTH * 0.34 - 2 * MARGIN)) / widest)
}

function corner(width: number, height: number, random: Random): readonly [number, number] {
  const inset = random.between(35, 80)
  const isLeft = random.chance(0.5)
  const isTop = random.chance(0.25)
  return [isLeft ? inset : PHOTO_WIDTH - width - inset, isTop ? inset : PHOTO_HEIGHT - height - inset]
}

function shadow(width: number, height: number): string {
  return [22, 15, 8]
    .map((grow) =>
      box(
        -grow + 10,
        -grow + 16,
        width + 2 * grow,
        height + 2 * grow,
        grow + 8,
        'fill="#000" opacity="0.17"',
      ),
    )
    .join('')
}

interface Plate {
  readonly width: number
  readonly height: number
  /** Path data. */
  readonly text: string
  /** Stroke width of the writing, px. */
  readonly weight: number
  readonly random: Random
}

function slate({ width, height, text, weight, random }: Plate): string {
  const wood = random.pick(['#8a6a43', '#6e5233', '#a07f55', '#3b3d3f'])
  const smears = Array.from({ length: 5 }, () => {
    const [cx, cy] = [
      random.between(width * 0.25, width * 0.75),
      random.between(height * 0.25, height * 0.75),
    ]
    return `<ellipse cx="${cx.toFixed(0)}" cy="${cy.toFixed(0)}" rx="${random.between(width * 0.08, width * 0.22).toFixed(0)}" ry="${random.between(10, 34).toFixed(0)}" fill="#fff" opacity="0.045" transform="rotate(${random.between(-25, 25).toFixed(0)} ${cx.toFixed(0)} ${cy.toFixed(0)})"/>`
  }).join('')
  return [
    box(-16, -16, width + 32, height + 32, 7, `fill="${wood}"`),
    box(-16, -16, width + 32, 5, 3, 'fill="#fff" opacity="0.22"'),
    box(0, 0, width, height, 3, `fill="${random.pick(['#23282a', '#2b2f2c', '#1f2326'])}"`),
    smears,
    writing(text, '#eef0ea', weight, 0.9),
  ].join('')
}

function card({ width, height, text, weight, random }: Plate): string {
  const paper = random.pick(['#e9e4d4', '#dfe2df', '#e8dcb8'])
  const magnet = `<circle cx="${(width * random.between(0.3, 0.7)).toFixed(0)}" cy="6" r="19" fill="#222628"/>`
  return [
    box(0, 0, width, height, 4, `fill="${paper}"`),
    box(0, height - 16, width, 16, 4, 'fill="#6a5b3c" opacity="0.16"'),
    writing(text, random.pick(['#1b1d22', '#1c2b58', '#23201c']), weight * 1.25, 0.92),
    magnet,
  ].join('')
}

function tape({ width, height, text, weight, random }: Plate): string {
  const torn = (x: number) =>
    Array.from(
      { length: 13 },
      (_value, index) => `${(x + random.between(-7, 7)).toFixed(0)},${((index * height) / 12).toFixed(0)}`,
    )
  const outline = [...torn(-6), ...torn(width + 6).toReversed()].join(' ')
  return `<polygon points="${outline}" fill="#d9c58f" opacity="0.96"/>${writing(text, '#1d1c1a', weight * 1.35, 0.9)}`
}

function writing(text: string, colour: string, weight: number, opacity: number): string {
  return `<path d="${text}" fill="none" stroke="${colour}" stroke-width="${weight.toFixed(1)}" stroke-linecap="round" stroke-linejoin="round" opacity="${opacity}"/>`
}

function box(x: number, y: number, width: number, height: number, radius: number, style: string): string {
  return `<rect x="${x.toFixed(0)}" y="${y.toFixed(0)}" width="${width.toFixed(0)}" height="${height.toFixed(0)}" rx="${radius}" ${style}/>`
}
