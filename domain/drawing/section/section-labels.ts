import { circlePath, filled, type Shape, short, stroked, written } from '../shapes.ts'
import { wrapText } from '../text-fit.ts'
import type { Plan, Sheet } from './section-plan.ts'
import { layerWords } from './section-words.ts'

/** Name and words of every layer beside the end of its sheet, pushed apart where they would touch. */
export function labelShapes(
  plan: Plan,
  sheets: readonly Sheet[],
): { readonly shapes: readonly Shape[]; readonly bottom: number } {
  const { textSize: size, unit, labelX } = plan
  const detail = size * 0.92
  const line = detail * 1.28
  const room = plan.width - labelX
  let free = size
  const shapes: Shape[] = []
  for (const sheet of sheets.toReversed()) {
    const names = wrapText(sheet.layer.name, room / 1.06, size, 2)
    const words = wrapText(layerWords(sheet.layer, sheet.isOff, plan.say), room, detail, 4)
    const height = names.length * size * 1.2 + words.length * line
    const y = Math.max(free, sheet.course.levelY - (height - size) / 2 + size * 0.2)
    shapes.push(...leaderShapes(plan, sheet, y - size * 0.34))
    names.forEach((text, row) =>
      shapes.push(written(text, { x: labelX, y: y + row * size * 1.2 }, size, { bold: true })),
    )
    const below = y + (names.length - 1) * size * 1.2 + line * 1.05
    words.forEach((text, row) =>
      shapes.push(written(text, { x: labelX, y: below + row * line }, detail, { tone: 'quiet' })),
    )
    free = y + height + 5 * unit
  }
  return { shapes, bottom: free - size }
}

function leaderShapes({ unit, labelX }: Plan, { course }: Sheet, y: number): readonly Shape[] {
  const { end, levelY } = course
  const from = end - 5 * unit
  const way = `M${short(from)} ${short(levelY)}L${short(labelX - 12 * unit)} ${short(y)}H${short(labelX - 4 * unit)}`
  return [stroked(way, 'quiet', 0.7 * unit), filled(circlePath({ x: from, y: levelY }, 1.7 * unit), 'ink')]
}

/** Which way is out. */
export function sideWords({ textSize, unit, top, lift, height, say }: Plan): readonly Shape[] {
  const size = textSize * 0.85
  const outside = { x: 2 * unit, y: Math.max(size, top - lift - 12 * unit) }
  return [
    written(say.drawing.outside, outside, size, { tone: 'quiet' }),
    written(say.drawing.inside, { x: 2 * unit, y: height - 4 * unit }, size, { tone: 'quiet' }),
  ]
}
