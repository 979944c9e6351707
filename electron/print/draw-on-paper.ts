import type { Drawing, PathShape, TextShape } from '../../domain/drawing/shapes.ts'
import { element, type Paper, type Struct } from './paper.ts'
import { paperTones } from './tones.ts'
import type { Typesetter } from './typesetter.ts'

/** A drawing as vectors, one unit a point, with its words for those who do not see it. `x` and `y` are its upper left. */
export function drawOnPaper(paper: Paper, parent: Struct, drawing: Drawing, x: number, y: number): void {
  const bbox = [x, y, x + drawing.width, y + drawing.height] as const
  element(paper, parent, 'Figure', { alt: drawing.words, bbox }, () => drawShapes(paper, drawing, x, y))
}

/** The shapes alone, inside whatever is being marked. */
export function drawShapes({ doc, type }: Paper, { shapes }: Drawing, x: number, y: number): void {
  doc.save().translate(x, y)
  for (const shape of shapes)
    if (shape.kind === 'path') drawPath(doc, shape)
    else writeShape(type, shape)
  doc.restore()
}

function drawPath(doc: PDFKit.PDFDocument, { d, fill, stroke, width, dash }: PathShape): void {
  if (d === '') return
  doc.path(d)
  if (stroke !== null) doc.lineWidth(width).strokeColor(paperTones[stroke])
  if (dash.length > 0) doc.dash(dash[0] ?? 1, { space: dash[1] ?? 1 })
  if (fill !== null && stroke !== null) doc.fillAndStroke(paperTones[fill], paperTones[stroke])
  else if (fill !== null) doc.fill(paperTones[fill])
  else if (stroke !== null) doc.stroke()
  if (dash.length > 0) doc.undash()
}

function writeShape(type: Typesetter, { x, y, text, size, bold, anchor, tone }: TextShape): void {
  const style = { size, bold, colour: paperTones[tone], leading: size }
  const [line] = type.linesOf(text, style, Number.POSITIVE_INFINITY)
  if (line === undefined) return
  const shift = anchor === 'start' ? 0 : anchor === 'middle' ? line.width / 2 : line.width
  type.write(line, x - shift, y, style)
}
