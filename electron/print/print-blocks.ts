import { drawGateStrip, drawMark } from '../../domain/drawing/gate-strip-drawing.ts'
import { drawSection } from '../../domain/drawing/section-drawing.ts'
import { sectionLegend } from '../../domain/drawing/section/section-words.ts'
import type { Drawing } from '../../domain/drawing/shapes.ts'
import type { ReportBlock } from '../../domain/report/owner-week-shapes.ts'
import type { OwnerLanguage } from '../../domain/language/owner-language.ts'
import type { MarkKind } from '../../domain/views/shared-views.ts'
import { drawOnPaper, drawShapes } from './draw-on-paper.ts'
import {
  artifact,
  CONTENT_WIDTH,
  needRoom,
  PAGE,
  pageIndex,
  type Paper,
  part,
  type Struct,
  textHeight,
  writeLines,
  writeText,
} from './paper.ts'
import {
  BESIDE,
  besideHeight,
  type PhotoContext,
  firstRowHeight,
  splitBeside,
  writeBeside,
  writePlates,
} from './print-photos.ts'
import { bodyStyle, questionTitleStyle, smallHeadingStyle, smallStyle } from './print-styles.ts'
import { writeTable } from './print-table.ts'
import { ACCENT_TINT, paperTones } from './tones.ts'

type BlockOf<K extends ReportBlock['kind']> = Extract<ReportBlock, { readonly kind: K }>

/** The blocks of one section below its heading; drawings stand two in a row. */
export function writeBlocks(context: PhotoContext, parent: Struct, blocks: readonly ReportBlock[]): void {
  const drawn = blocks.filter((block) => block.kind === 'standing')
  if (drawn.length > 0) writeStandings(context, parent, drawn)
  blocks.forEach((block, index) => {
    const next = blocks[index + 1]
    // An introduction stays with what it introduces.
    if (block.kind === 'text' && next?.kind === 'list')
      needRoom(context.paper, firstRoom(context, block) + firstRoom(context, next))
    writeBlock(context, parent, block)
  })
}

function writeBlock(context: PhotoContext, parent: Struct, block: ReportBlock): void {
  const { paper } = context
  switch (block.kind) {
    case 'text':
      return writeText(paper, parent, 'P', block.text, bodyStyle, { after: 5 })
    case 'list':
      return writeList(paper, parent, block.items)
    case 'repair':
      return writeRepair(context, parent, block)
    case 'plates':
      return writePlates(context, parent, block.plates)
    case 'question':
      return writeQuestion(context, parent, block)
    case 'figures':
      return writeTable(paper, parent, block)
    case 'standing':
      return
  }
}

const BULLET = '\u2013'
const INDENT = 12

function writeList(paper: Paper, parent: Struct, items: readonly string[]): void {
  part(paper, parent, 'L', (list) => {
    for (const item of items) {
      needRoom(paper, bodyStyle.leading * 2)
      part(paper, list, 'LI', (entry) => {
        const top = paper.y
        part(paper, entry, 'Lbl', (label) =>
          label.add(() =>
            writeLines(paper, paper.type.linesOf(BULLET, bodyStyle, INDENT), PAGE.left, bodyStyle),
          ),
        )
        paper.y = top
        writeText(paper, entry, 'LBody', item, bodyStyle, {
          x: PAGE.left + INDENT,
          width: CONTENT_WIDTH - INDENT,
          after: 2,
        })
      })
    }
  })
  paper.y += 5
}

/** Room for as much of a block as must not stand alone at the foot of a page: a heading goes with it. */
export function firstRoom(context: PhotoContext, block: ReportBlock): number {
  switch (block.kind) {
    case 'repair':
      return repairRoom(context, block)
    case 'question':
      return questionPlan(context, block).height
    case 'standing':
      return 3 * smallStyle.leading + standingOf(context, block).height
    case 'plates':
      return firstRowHeight(context, block.plates)
    case 'figures':
      return 4 * bodyStyle.leading
    case 'text':
    case 'list':
      return 2 * bodyStyle.leading
  }
}

const TEXT_GAP = 3
const REPAIR_TITLE_GAP = 1

/** A single photo stands beside the words, a pair below them. */
function repairPlan({ plates }: BlockOf<'repair'>) {
  const { beside, below } = splitBeside(plates)
  const width = beside === null ? CONTENT_WIDTH : CONTENT_WIDTH - BESIDE.width - BESIDE.gap
  return { beside, below, width }
}

/** The words stay with their first photos. */
function repairRoom(context: PhotoContext, block: BlockOf<'repair'>): number {
  const { paper } = context
  const { beside, below, width } = repairPlan(block)
  const title = textHeight(paper, block.title, smallHeadingStyle, width) + REPAIR_TITLE_GAP
  const words = block.texts.reduce(
    (sum, text) => sum + textHeight(paper, text, bodyStyle, width) + TEXT_GAP,
    title,
  )
  const under = below.length === 0 ? 0 : TEXT_GAP + firstRowHeight(context, below)
  return Math.max(words, beside === null ? 0 : besideHeight(context, beside)) + under
}

function writeRepair(context: PhotoContext, parent: Struct, block: BlockOf<'repair'>): void {
  const { paper } = context
  const { beside, below, width } = repairPlan(block)
  const photoHeight = beside === null ? 0 : besideHeight(context, beside)
  needRoom(paper, repairRoom(context, block))
  const top = paper.y
  const page = pageIndex(paper)
  if (beside !== null) writeBeside(context, parent, beside, { right: PAGE.left + CONTENT_WIDTH, y: top + 2 })
  paper.y = top
  writeText(paper, parent, 'H3', block.title, smallHeadingStyle, { width, after: REPAIR_TITLE_GAP })
  for (const text of block.texts) writeText(paper, parent, 'P', text, bodyStyle, { width, after: TEXT_GAP })
  // Words that went on to the next page have left the photo behind.
  if (pageIndex(paper) === page) paper.y = Math.max(paper.y, top + photoHeight)
  if (below.length > 0) paper.y += TEXT_GAP
  writePlates(context, parent, below)
  paper.y += 6
}

const PAD = 11
const BAR = 4

function questionPlan(context: PhotoContext, { title, texts, plates }: BlockOf<'question'>) {
  const { beside, below } = splitBeside(plates)
  const whole = CONTENT_WIDTH - 2 * PAD - BAR
  const width = beside === null ? whole : whole - BESIDE.width - BESIDE.gap
  const lines = [
    { text: title, tag: 'H3', style: questionTitleStyle },
    ...texts.map((text) => ({ text, tag: 'P', style: bodyStyle })),
  ]
  const words = lines.reduce(
    (sum, { text, style }) => sum + textHeight(context.paper, text, style, width) + TEXT_GAP,
    0,
  )
  const photo = beside === null ? 0 : besideHeight(context, beside)
  return { beside, below, width, lines, height: 2 * PAD + Math.max(words, photo) }
}

/** On the accent's ground with a bar at its side: what the owner must answer is found at a glance. */
function writeQuestion(context: PhotoContext, parent: Struct, block: BlockOf<'question'>): void {
  const { paper } = context
  const { beside, below, width, lines, height } = questionPlan(context, block)
  const x = PAGE.left + BAR + PAD
  needRoom(paper, height)
  const top = paper.y
  // A text longer than a page goes on without its ground.
  const fits = top + height <= PAGE.height - PAGE.bottom
  if (fits) writeGround(paper, top, height)
  if (beside !== null)
    writeBeside(context, parent, beside, { right: PAGE.left + CONTENT_WIDTH - PAD, y: top + PAD })
  paper.y = top + PAD
  for (const { text, tag, style } of lines)
    writeText(paper, parent, tag, text, style, { x, width, after: TEXT_GAP })
  paper.y = fits ? top + height + 8 : paper.y + PAD
  writePlates(context, parent, below)
}

function writeGround(paper: Paper, top: number, height: number): void {
  artifact(paper, () => {
    paper.doc.rect(PAGE.left, top, CONTENT_WIDTH, height).fill(ACCENT_TINT)
    paper.doc.rect(PAGE.left, top, BAR, height).fill(paperTones.accent)
  })
}

const COLUMN_GAP = 24
const COLUMN = (CONTENT_WIDTH - COLUMN_GAP) / 2
const STRIP_SIZE = 9

interface Standing {
  readonly block: BlockOf<'standing'>
  readonly strip: Drawing
  readonly section: Drawing
  readonly height: number
}

/** Title, words, gates and cut of each repair, two to a row, after a legend of what they show. */
function writeStandings(context: PhotoContext, parent: Struct, blocks: readonly BlockOf<'standing'>[]): void {
  const { paper } = context
  const standings = blocks.map((block) => standingOf(context, block))
  writeLegend(context, parent, blocks)
  for (let index = 0; index < standings.length; index += 2) {
    const row = standings.slice(index, index + 2)
    const height = Math.max(...row.map((each) => each.height))
    needRoom(paper, height)
    const top = paper.y
    row.forEach((standing, column) => {
      paper.y = top
      writeStanding(paper, parent, standing, PAGE.left + column * (COLUMN + COLUMN_GAP))
    })
    paper.y = top + height
  }
}

function standingOf({ paper, say }: PhotoContext, block: BlockOf<'standing'>): Standing {
  const strip = drawGateStrip(block.marks, { width: COLUMN, size: STRIP_SIZE, say })
  const section = drawSection(block.section, { width: COLUMN, textSize: 7.8, say })
  const words =
    textHeight(paper, block.title, smallHeadingStyle, COLUMN) +
    textHeight(paper, block.text, smallStyle, COLUMN)
  return { block, strip, section, height: words + strip.height + section.height + 20 }
}

function writeStanding(paper: Paper, parent: Struct, { block, strip, section }: Standing, x: number): void {
  writeText(paper, parent, 'H3', block.title, smallHeadingStyle, { x, width: COLUMN })
  writeText(paper, parent, 'P', block.text, smallStyle, { x, width: COLUMN, after: 2 })
  drawOnPaper(paper, parent, strip, x, paper.y)
  paper.y += strip.height + 2
  drawOnPaper(paper, parent, section, x, paper.y)
  paper.y += section.height
}

/** The gate marks that occur, each with its word, and what the cuts show. */
function writeLegend(
  { paper, say }: PhotoContext,
  parent: Struct,
  blocks: readonly BlockOf<'standing'>[],
): void {
  const { marks: markWords } = say.drawing
  const kinds = new Set(blocks.flatMap(({ marks }) => marks.map(({ mark }) => mark)))
  const marks = (Object.keys(markWords) as readonly MarkKind[]).filter((kind) => kinds.has(kind))
  const top = paper.y
  part(paper, parent, 'P', (struct) =>
    struct.add(() => {
      let x = PAGE.left
      for (const kind of marks) {
        const sign = drawMark(kind, STRIP_SIZE)
        drawShapes(paper, sign, x, top + smallStyle.leading / 2 - sign.height / 2)
        x += sign.width + 3
        const [line] = paper.type.linesOf(markWords[kind], smallStyle, CONTENT_WIDTH)
        paper.y = top
        if (line) writeLines(paper, [line], x, smallStyle)
        x += (line?.width ?? 0) + 14
      }
    }),
  )
  paper.y = top + smallStyle.leading + 2
  writeText(paper, parent, 'P', legendWords(say, blocks), smallStyle, { after: 7 })
}

/** One legend for all: what each cut by itself would say, said once. */
function legendWords(say: OwnerLanguage, blocks: readonly BlockOf<'standing'>[]): string {
  const whole = blocks.map(({ section }) => section)
  const [first] = whole
  if (first === undefined) return ''
  const together = {
    layers: whole.flatMap(({ layers }) => layers),
    open: whole.some(({ open }) => open),
    sealed: whole.some(({ sealed }) => sealed),
    primed: whole.some(({ primed }) => primed),
    painted: whole.some(({ painted }) => painted),
  }
  return say.paper.legend(sectionLegend(together, say))
}
