import type { BookTable } from '../../domain/report/car-book-shapes.ts'
import { cellHeadStyle, cellStyle } from './book-styles.ts'
import { FOOT } from './book-context.ts'
import {
  artifact,
  CONTENT_WIDTH,
  needRoom,
  PAGE,
  type Paper,
  part,
  rule,
  type Struct,
  writeLines,
} from './paper.ts'
import { RULE } from './tones.ts'
import type { Line, TextStyle } from './typesetter.ts'

const GAP = 10
const PAD = 3

interface Column {
  readonly x: number
  readonly width: number
}

/** Words in columns with fine rules between the rows; the heads are written again where a table goes on. */
export function writeBookTable(paper: Paper, parent: Struct, table: BookTable): void {
  const columns = columnsOf(table)
  const heads = table.columns.map(({ head }) => head)
  needRoom(paper, tableRoom(paper, table))
  part(paper, parent, 'Table', (struct) => {
    part(paper, struct, 'TR', (row) => writeCells(paper, row, heads, columns, cellHeadStyle))
    for (const cells of table.rows) {
      const page = paper.doc.page
      needRoom(paper, rowHeight(paper, cells, columns))
      if (paper.doc.page !== page) repeatHeads(paper, heads, columns)
      rule(paper, RULE, 0.5)
      part(paper, struct, 'TR', (row) => writeCells(paper, row, cells, columns, cellStyle))
    }
  })
  rule(paper, RULE, 0.5)
  paper.y += 9
}

/** A short table stays whole; of a long one its heads and first rows. */
export function tableRoom(paper: Paper, table: BookTable): number {
  const columns = columnsOf(table)
  const heads = table.columns.map(({ head }) => head)
  const first = table.rows.length > MOST_WHOLE ? 3 : table.rows.length
  return table.rows
    .slice(0, first)
    .reduce((sum, row) => sum + rowHeight(paper, row, columns), headHeight(paper, heads, columns))
}

/** Rows. */
const MOST_WHOLE = 12

function columnsOf({ columns }: BookTable): readonly Column[] {
  const room = CONTENT_WIDTH - GAP * (columns.length - 1)
  const shares = columns.reduce((sum, { share }) => sum + share, 0)
  let x: number = PAGE.left
  return columns.map(({ share }) => {
    const column = { x, width: (room * share) / shares }
    x += column.width + GAP
    return column
  })
}

function linesOf(
  { type }: Paper,
  cells: readonly string[],
  columns: readonly Column[],
  style: TextStyle,
): readonly (readonly Line[])[] {
  return columns.map(({ width }, index) => type.linesOf(cells[index] ?? '', style, width))
}

const highest = (lines: readonly (readonly Line[])[]): number =>
  Math.max(1, ...lines.map(({ length }) => length))

function rowHeight(paper: Paper, cells: readonly string[], columns: readonly Column[]): number {
  return highest(linesOf(paper, cells, columns, cellStyle)) * cellStyle.leading + 2 * PAD
}

function headHeight(paper: Paper, heads: readonly string[], columns: readonly Column[]): number {
  return highest(linesOf(paper, heads, columns, cellHeadStyle)) * cellHeadStyle.leading + 2 * PAD
}

/** A row that is higher than a page goes on over the next ones. */
function writeCells(
  paper: Paper,
  row: Struct,
  cells: readonly string[],
  columns: readonly Column[],
  style: TextStyle,
): void {
  const isHead = style === cellHeadStyle
  const lines = linesOf(paper, cells, columns, style)
  const structs = columns.map((_, index) => {
    const options = isHead ? { scope: 'Column' } : index === 0 ? { scope: 'Row' } : {}
    const struct = paper.doc.struct(isHead || index === 0 ? 'TH' : 'TD', options as object)
    row.add(struct)
    return struct
  })
  paper.y += PAD
  for (let next = 0; next < highest(lines);) {
    if (next > 0) needRoom(paper, style.leading)
    const room = Math.max(1, Math.floor((FOOT - paper.y) / style.leading))
    const top = paper.y
    structs.forEach((struct, index) => {
      const here = lines[index]?.slice(next, next + room) ?? []
      paper.y = top
      if (here.length > 0) struct.add(() => writeLines(paper, here, columns[index]?.x ?? PAGE.left, style))
    })
    const written = Math.min(room, highest(lines) - next)
    paper.y = top + written * style.leading
    next += written
  }
  for (const struct of structs) struct.end()
  paper.y += PAD
}

/** For the eye alone: those who hear the table know its heads. */
function repeatHeads(paper: Paper, heads: readonly string[], columns: readonly Column[]): void {
  const top = paper.y + PAD
  artifact(paper, () =>
    linesOf(paper, heads, columns, cellHeadStyle).forEach((lines, index) => {
      paper.y = top
      writeLines(paper, lines, columns[index]?.x ?? PAGE.left, cellHeadStyle)
    }),
  )
  paper.y = top + headHeight(paper, heads, columns) - PAD
}
