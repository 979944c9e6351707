import { english } from '../../domain/language/english.ts'
import {
  artifact,
  CONTENT_WIDTH,
  PAGE,
  type Paper,
  rule,
  type Struct,
  writeLines,
  writeText,
} from './paper.ts'
import {
  smallStyle,
  subtitleStyle,
  titleStyle,
  warnSmallStyle,
  warnStyle,
  workshopStyle,
} from './print-styles.ts'
import { paperTones, RULE } from './tones.ts'
import type { TextStyle } from './typesetter.ts'

export interface Letterhead {
  readonly workshop: string
  /** At the right of the workshop's name. */
  readonly mark: string
  readonly title: string
  readonly subtitle: string
  /** A clear word in a frame beside the title, or null: 'not issued'. */
  readonly warning: string | null
}

/** The workshop's name over a strong rule, what the paper is about below it. */
export function writeLetterhead(
  paper: Paper,
  { workshop, mark, title, subtitle, warning }: Letterhead,
): void {
  const top = paper.y
  writeText(paper, paper.root, 'P', workshop, workshopStyle)
  const below = paper.y
  paper.y = top + 2
  writeRight(paper, paper.root, mark, smallStyle)
  paper.y = below + 3
  rule(paper, paperTones.ink, 1.4)
  paper.y += 13
  if (warning !== null) writeWarning(paper, warning)
  writeText(paper, paper.root, 'H1', title, titleStyle)
  writeText(paper, paper.root, 'P', subtitle, subtitleStyle, { after: 14 })
}

function writeWarning(paper: Paper, warning: string): void {
  const top = paper.y
  const width = paper.type.widthOf(warning, warnStyle) + 20
  const x = PAGE.left + CONTENT_WIDTH - width
  artifact(paper, () =>
    paper.doc
      .rect(x, top + 2, width, 22)
      .lineWidth(1.2)
      .strokeColor(paperTones.accent)
      .stroke(),
  )
  paper.y = top + 6
  writeText(paper, paper.root, 'P', warning, warnStyle, { x: x + 10, width })
  paper.y = top
}

export interface Footer {
  /** Whose paper it is. */
  readonly left: string
  /** What it stands on, before the number of the page. */
  readonly right: string
  readonly isWarning: boolean
  /** 'page 1 of 3' in the paper's language; English unless said. */
  readonly pageOf?: (page: number, of: number) => string
}

/** At the foot of every page; to be called when all pages are written. */
export function writeFooters(
  paper: Paper,
  { left, right, isWarning, pageOf = english.paper.page }: Footer,
): void {
  const { doc, type } = paper
  const { start, count } = doc.bufferedPageRange()
  for (let index = 0; index < count; index += 1) {
    doc.switchToPage(start + index)
    doc.markContent('Artifact', { type: 'Pagination' })
    paper.y = PAGE.height - PAGE.bottom + 22
    const page = `${right}, ${pageOf(index + 1, count)}`
    const style: TextStyle = isWarning ? warnSmallStyle : smallStyle
    const width = type.widthOf(page, style)
    const [line] = type.linesOf(left, smallStyle, CONTENT_WIDTH - width - 12)
    doc.moveTo(PAGE.left, paper.y - 5).lineTo(PAGE.left + CONTENT_WIDTH, paper.y - 5)
    doc.lineWidth(0.5).strokeColor(RULE).stroke()
    const top = paper.y
    if (line) writeLines(paper, [line], PAGE.left, smallStyle)
    paper.y = top
    writeLines(paper, type.linesOf(page, style, CONTENT_WIDTH), PAGE.left + CONTENT_WIDTH - width, style)
    doc.endMarkedContent()
  }
}

function writeRight(paper: Paper, parent: Struct, text: string, style: TextStyle): void {
  const width = paper.type.widthOf(text, style)
  writeText(paper, parent, 'P', text, style, { x: PAGE.left + CONTENT_WIDTH - width, width: width + 1 })
}
