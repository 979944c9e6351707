import type { CarBook } from '../../domain/report/car-book-shapes.ts'
import type { BookContext } from './book-context.ts'
import { CONTENT_WIDTH, PAGE, type Paper, writeLines } from './paper.ts'
import { smallStyle } from './print-styles.ts'
import { RULE } from './tones.ts'

const HEAD_Y = 26
const FOOT_Y = PAGE.height - PAGE.bottom + 22

/** The car and the chapter at the head of every page but the title, the workshop and the page's number at its foot. */
export function writeFurniture(
  { paper, heads }: BookContext,
  { car, shell, workshop, written }: CarBook,
): void {
  const { doc } = paper
  const { start, count } = doc.bufferedPageRange()
  for (let index = 1; index < count; index += 1) {
    doc.switchToPage(start + index)
    doc.markContent('Artifact', { type: 'Pagination' })
    writeEnds(paper, HEAD_Y, `${car}, ${shell.toLowerCase()}`, heads.get(index) ?? '')
    doc.moveTo(PAGE.left, FOOT_Y - 5).lineTo(PAGE.left + CONTENT_WIDTH, FOOT_Y - 5)
    doc.lineWidth(0.5).strokeColor(RULE).stroke()
    writeEnds(paper, FOOT_Y, `${workshop}, ${written}`, `Page ${index + 1} of ${count}`)
    doc.endMarkedContent()
  }
}

/** At both ends of a line; what is too long is cut at its first line. */
function writeEnds(paper: Paper, y: number, left: string, right: string): void {
  const { type } = paper
  const [end] = type.linesOf(right, smallStyle, CONTENT_WIDTH * 0.6)
  const width = end?.width ?? 0
  const [begin] = type.linesOf(left, smallStyle, CONTENT_WIDTH - width - 16)
  paper.y = y
  if (begin) writeLines(paper, [begin], PAGE.left, smallStyle)
  paper.y = y
  if (end) writeLines(paper, [end], PAGE.left + CONTENT_WIDTH - width, smallStyle)
}
