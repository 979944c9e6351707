import type { PlanSheet, SheetDay, SheetRow, SheetWeek } from '../../domain/plan/plan-sheet.ts'
import { readPrintFonts } from './fonts.ts'
import { writeFooters, writeLetterhead } from './letter.ts'
import {
  artifact,
  CONTENT_WIDTH,
  createPaper,
  element,
  finishPaper,
  needRoom,
  PAGE,
  type Paper,
  part,
  rule,
  type Struct,
  textHeight,
  writeLines,
  writeText,
} from './paper.ts'
import { bodyStyle, headingStyle, smallHeadingStyle, smallStyle } from './print-styles.ts'
import { paperTones, RULE } from './tones.ts'
import type { TextStyle } from './typesetter.ts'

/**
 * Lays the plan of one person or bay out on A4, a week or two a page: a tagged PDF with embedded fonts. Each day is a table
 * beside its date, a row for each piece of work.
 */
export async function printPlan(sheet: PlanSheet): Promise<Buffer> {
  const { workshop, title, period, standing, isTaken, made } = sheet
  const paper = createPaper(await readPrintFonts(), {
    title: `${title}: ${period}${isTaken ? '' : ` (${standing})`}`,
    author: workshop,
    subject: `Plan ${standing}, made ${made}`,
    language: 'en-GB',
  })
  writeLetterhead(paper, {
    workshop,
    mark: `Printed ${sheet.printed}`,
    title,
    subtitle: `${period}. Plan ${standing}; made ${made}`,
    warning: isTaken ? null : 'a proposal',
  })
  for (const week of sheet.weeks)
    part(paper, paper.root, 'Sect', (section) => writeWeek(paper, section, week))
  writeEnd(paper, sheet)
  writeFooters(paper, {
    left: `${workshop}. ${title}. ${period}`,
    right: `plan ${standing}`,
    isWarning: !isTaken,
  })
  return finishPaper(paper)
}

/** Columns of a day: its date, then the table. */
const TABLE_LEFT = PAGE.left + 70
const WIDTHS = { time: 92, what: 218, who: 95 } as const
const GAP = 4
const COLUMNS = {
  time: { x: TABLE_LEFT, width: WIDTHS.time },
  what: { x: TABLE_LEFT + WIDTHS.time + GAP, width: WIDTHS.what },
  who: { x: TABLE_LEFT + WIDTHS.time + WIDTHS.what + 2 * GAP, width: WIDTHS.who },
} as const
const ROW_PAD = 3.5
const timeStyle: TextStyle = { ...bodyStyle, size: 9.2 }

/** The heading stays with its first day. */
function writeWeek(paper: Paper, section: Struct, { heading, days }: SheetWeek): void {
  const [first] = days
  needRoom(paper, 14 + headingStyle.leading + (first === undefined ? 0 : dayTop(paper, first)))
  if (paper.y > PAGE.top) paper.y += 8
  writeText(paper, section, 'H2', heading, headingStyle, { after: 3 })
  for (const day of days) part(paper, section, 'Sect', (struct) => writeDay(paper, struct, day))
}

/** As much of a day as must not be torn apart: its first row. */
function dayTop(paper: Paper, { rows: [first] }: SheetDay): number {
  return 1 + (first === undefined ? bodyStyle.leading + 2 * ROW_PAD : rowHeight(paper, first))
}

function writeDay(paper: Paper, struct: Struct, day: SheetDay): void {
  needRoom(paper, dayTop(paper, day))
  rule(paper, paperTones.ink, 0.7)
  const top = paper.y
  paper.y = top + ROW_PAD
  writeText(paper, struct, 'H3', day.day, smallHeadingStyle, { width: TABLE_LEFT - PAGE.left })
  paper.y = top
  if (day.rows.length === 0) return writeNothing(paper, struct)
  part(paper, struct, 'Table', (table) => {
    day.rows.forEach((row, index) => writeRow(paper, table, row, index === 0 ? null : day.day))
  })
}

function writeNothing(paper: Paper, struct: Struct): void {
  paper.y += ROW_PAD
  writeText(
    paper,
    struct,
    'P',
    'Nothing planned.',
    { ...bodyStyle, colour: paperTones.quiet },
    { x: TABLE_LEFT, after: ROW_PAD },
  )
}

/** @param goesOn the day of a row that is not its first; on a new page it is named again, for the eye alone */
function writeRow(paper: Paper, table: Struct, row: SheetRow, goesOn: string | null): void {
  const height = rowHeight(paper, row)
  needRoom(paper, height)
  const top = paper.y
  if (goesOn !== null) rule(paper, RULE, 0.5, TABLE_LEFT)
  if (goesOn !== null && top === PAGE.top) drawDayAgain(paper, goesOn)
  part(paper, table, 'TR', (struct) => {
    for (const { tag, x, width, texts } of cellsOf(row)) {
      paper.y = top + ROW_PAD
      element(paper, struct, tag, tag === 'TH' ? { scope: 'Row' } : {}, () => {
        for (const { text, style } of texts)
          writeLines(paper, paper.type.linesOf(text, style, width), x, style)
      })
    }
  })
  paper.y = top + height
}

interface Cell {
  readonly tag: 'TH' | 'TD'
  readonly x: number
  readonly width: number
  readonly texts: readonly { readonly text: string; readonly style: TextStyle }[]
}

function cellsOf({ time, car, what, where, who, notes }: SheetRow): readonly Cell[] {
  return [
    { tag: 'TH', ...COLUMNS.time, texts: [{ text: time, style: timeStyle }] },
    {
      tag: 'TD',
      ...COLUMNS.what,
      texts: [
        { text: car, style: smallHeadingStyle },
        { text: what, style: bodyStyle },
        { text: notes, style: smallStyle },
      ],
    },
    {
      tag: 'TD',
      ...COLUMNS.who,
      texts: [
        { text: where, style: bodyStyle },
        { text: who, style: bodyStyle },
      ],
    },
  ]
}

function rowHeight(paper: Paper, row: SheetRow): number {
  const heights = cellsOf(row).map(({ width, texts }) =>
    texts.reduce((sum, { text, style }) => sum + textHeight(paper, text, style, width), 0),
  )
  return Math.max(...heights) + 2 * ROW_PAD
}

function drawDayAgain(paper: Paper, day: string): void {
  paper.y = PAGE.top + ROW_PAD
  const style = { ...smallHeadingStyle, colour: paperTones.quiet }
  artifact(paper, () =>
    writeLines(paper, paper.type.linesOf(day, style, TABLE_LEFT - PAGE.left), PAGE.left, style),
  )
}

/** What lies beyond the paper, and what the plan never overrides. */
function writeEnd(paper: Paper, { further, cautions, weeks }: PlanSheet): void {
  const heights = [further, ...cautions].map((text) => textHeight(paper, text, smallStyle, CONTENT_WIDTH) + 3)
  needRoom(paper, 20 + heights.reduce((sum, height) => sum + height, 0))
  paper.y += weeks.length === 0 ? 0 : 10
  rule(paper, paperTones.ink, 0.9)
  paper.y += 6
  part(paper, paper.root, 'Sect', (section) => {
    if (weeks.length === 0)
      writeText(paper, section, 'P', 'Nothing is planned in these weeks.', bodyStyle, { after: 6 })
    for (const text of [further, ...cautions].filter((each) => each !== ''))
      writeText(paper, section, 'P', text, smallStyle, { after: 3 })
  })
}
