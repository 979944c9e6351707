import type { FigureRow } from '../../domain/report/owner-week-shapes.ts'
import {
  CONTENT_WIDTH,
  element,
  needRoom,
  PAGE,
  type Paper,
  part,
  rule,
  type Struct,
  writeLines,
} from './paper.ts'
import { bodyStyle, figureHeadStyle } from './print-styles.ts'
import { paperTones, RULE } from './tones.ts'
import type { TextStyle } from './typesetter.ts'

export interface Figures {
  readonly head: readonly string[]
  readonly rows: readonly FigureRow[]
}

const FIGURE_WIDTH = 72
const ROW_PAD = 3

/** Words at the left, figures flush right in columns; fine rules between the rows. */
export function writeTable(paper: Paper, parent: Struct, { head, rows }: Figures): void {
  part(paper, parent, 'Table', (table) => {
    writeRow(paper, table, head, figureHeadStyle, 'head')
    rows.forEach(({ label, figures, isTotal }, index) => {
      // A total never stands alone at the head of a page.
      if (rows[index + 1]?.isTotal === true) needRoom(paper, 2 * (bodyStyle.leading + 2 * ROW_PAD))
      writeRow(paper, table, [label, ...figures], { ...bodyStyle, bold: isTotal }, isTotal ? 'total' : 'row')
    })
  })
  paper.y += 8
}

function writeRow(
  paper: Paper,
  table: Struct,
  cells: readonly string[],
  style: TextStyle,
  kind: 'head' | 'row' | 'total',
): void {
  const labelWidth = CONTENT_WIDTH - (cells.length - 1) * FIGURE_WIDTH - 8
  const label = paper.type.linesOf(cells[0] ?? '', style, labelWidth)
  const height = Math.max(1, label.length) * style.leading + 2 * ROW_PAD
  needRoom(paper, height)
  const top = paper.y
  if (kind === 'total') rule(paper, paperTones.ink, 0.9)
  else if (kind === 'row') rule(paper, RULE, 0.5)
  part(paper, table, 'TR', (row) => {
    cells.forEach((cell, column) => {
      paper.y = top + ROW_PAD
      writeCell(paper, row, cell, { style, column, count: cells.length, isHead: kind === 'head', labelWidth })
    })
  })
  paper.y = top + height
}

interface CellPlace {
  readonly style: TextStyle
  readonly column: number
  readonly count: number
  readonly isHead: boolean
  readonly labelWidth: number
}

function writeCell(
  paper: Paper,
  row: Struct,
  text: string,
  { style, column, count, isHead, labelWidth }: CellPlace,
): void {
  const lines = paper.type.linesOf(text, style, column === 0 ? labelWidth : FIGURE_WIDTH)
  const right = PAGE.left + CONTENT_WIDTH - (count - 1 - column) * FIGURE_WIDTH
  const x = column === 0 ? PAGE.left : right - (lines[0]?.width ?? 0)
  const write = () => writeLines(paper, lines, x, style)
  if (isHead) element(paper, row, 'TH', { scope: 'Column' }, write)
  else if (column === 0) element(paper, row, 'TH', { scope: 'Row' }, write)
  else element(paper, row, 'TD', {}, write)
}
