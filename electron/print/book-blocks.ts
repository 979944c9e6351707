import { drawGateStrip } from '../../domain/drawing/gate-strip-drawing.ts'
import { drawSection } from '../../domain/drawing/section-drawing.ts'
import { sectionLegend } from '../../domain/drawing/section/section-words.ts'
import type { BookBlock, BookLine } from '../../domain/report/car-book-shapes.ts'
import { type BookContext, FOOT } from './book-context.ts'
import { bookMapDrawing } from './book-map.ts'
import { PHOTO_ROW_ROOM, writeBookPhotos } from './book-photos.ts'
import { leadStyle, narrowLeadStyle, proseStyle } from './book-styles.ts'
import { tableRoom, writeBookTable } from './book-table.ts'
import { drawOnPaper } from './draw-on-paper.ts'
import {
  artifact,
  CONTENT_WIDTH,
  needRoom,
  PAGE,
  type Paper,
  part,
  type Struct,
  textHeight,
  writeLines,
  writeText,
} from './paper.ts'
import { smallStyle } from './print-styles.ts'
import { ACCENT_TINT, paperTones } from './tones.ts'

type BlockOf<K extends BookBlock['kind']> = Extract<BookBlock, { readonly kind: K }>

/** Writes one block below the one before, on as many pages as it needs. */
export async function writeBookBlock(context: BookContext, parent: Struct, block: BookBlock): Promise<void> {
  const { paper } = context
  switch (block.kind) {
    case 'text':
      return writeText(paper, parent, 'P', block.text, proseStyle, { after: 5 })
    case 'list':
      return writeBookList(paper, parent, block.items)
    case 'caution':
      return writeCaution(paper, parent, block.text)
    case 'table':
      return writeBookTable(paper, parent, block)
    case 'lines':
      return writeDated(paper, parent, block.lines)
    case 'photos':
      return writeBookPhotos(context, parent, block.photos)
    case 'standing':
      return writeStanding(paper, parent, block)
    case 'map':
      return writeMap(paper, parent, block)
  }
}

/** Blocks that may stand in half the width, beside a photo. */
export type NarrowBlock = BlockOf<'text'> | BlockOf<'lines'>

export const isNarrow = (block: BookBlock): block is NarrowBlock =>
  block.kind === 'text' || block.kind === 'lines'

/** In a column at the left; when stands over what. */
export function writeNarrow(paper: Paper, parent: Struct, block: NarrowBlock, width: number): void {
  if (block.kind === 'text')
    return writeText(paper, parent, 'P', block.text, proseStyle, { width, after: NARROW_GAP })
  part(paper, parent, 'L', (list) => {
    for (const { lead, text } of block.lines)
      part(paper, list, 'LI', (entry) => {
        needRoom(paper, narrowLeadStyle.leading + 2 * proseStyle.leading)
        writeText(paper, entry, 'Lbl', lead, narrowLeadStyle, { width })
        writeText(paper, entry, 'LBody', text, proseStyle, { width, after: NARROW_GAP })
      })
  })
}

/** Points that {@link writeNarrow} takes without a new page. */
export function narrowHeight(paper: Paper, block: NarrowBlock, width: number): number {
  const texts = block.kind === 'text' ? [block.text] : block.lines.map(({ text }) => text)
  const leads = block.kind === 'text' ? 0 : block.lines.length * narrowLeadStyle.leading
  return texts.reduce((sum, text) => sum + textHeight(paper, text, proseStyle, width) + NARROW_GAP, leads)
}

const NARROW_GAP = 5

/**
 * Room for as much of the first of these blocks as must not stand alone at the foot of a page: a heading goes with it, and few
 * words go with the table or the photos that they introduce.
 */
export function firstRoomOf(paper: Paper, [block, next]: readonly BookBlock[]): number {
  if (block === undefined) return 0
  const own = ownRoomOf(paper, block)
  if (next === undefined || isNarrow(next) || !isNarrow(block)) return own
  const whole = narrowHeight(paper, block, CONTENT_WIDTH)
  return whole > FEW_WORDS ? own : whole + ownRoomOf(paper, next)
}

const FEW_WORDS = 7 * proseStyle.leading

function ownRoomOf(paper: Paper, block: BookBlock): number {
  switch (block.kind) {
    case 'photos':
      return PHOTO_ROW_ROOM
    case 'standing':
      return standingHeight(block)
    case 'map':
      return bookMapDrawing(block).height
    case 'caution':
      return cautionHeight(paper, block.text)
    case 'table':
      return tableRoom(paper, block)
    case 'text':
    case 'list':
    case 'lines':
      return 2 * proseStyle.leading
  }
}

const BULLET = '\u2013'
const INDENT = 12

export function writeBookList(paper: Paper, parent: Struct, items: readonly string[]): void {
  part(paper, parent, 'L', (list) => {
    for (const item of items)
      writeEntry(paper, list, { lead: BULLET, text: item }, { indent: INDENT, lead: proseStyle })
  })
  paper.y += 4
}

const LEAD_GAP = 10
const MOST_LEAD = 112

/** When at the left, what at the right. */
function writeDated(paper: Paper, parent: Struct, lines: readonly BookLine[]): void {
  const widest = Math.max(...lines.map(({ lead }) => paper.type.widthOf(lead, leadStyle)))
  const indent = Math.min(widest, MOST_LEAD) + LEAD_GAP
  part(paper, parent, 'L', (list) => {
    for (const line of lines) writeEntry(paper, list, line, { indent, lead: leadStyle })
  })
  paper.y += 5
}

interface EntryPlace {
  readonly indent: number
  readonly lead: typeof leadStyle
}

function writeEntry(paper: Paper, list: Struct, line: BookLine, { indent, lead }: EntryPlace): void {
  const width = CONTENT_WIDTH - indent
  const lines = paper.type.linesOf(line.text, proseStyle, width).length
  // Short entries stay whole; longer ones leave two lines at the foot at least.
  needRoom(paper, Math.min(lines, 3) * proseStyle.leading)
  part(paper, list, 'LI', (entry) => {
    const top = paper.y
    part(paper, entry, 'Lbl', (label) =>
      label.add(() => writeLines(paper, paper.type.linesOf(line.lead, lead, indent - 2), PAGE.left, lead)),
    )
    const below = paper.y
    paper.y = top
    writeText(paper, entry, 'LBody', line.text, proseStyle, { x: PAGE.left + indent, width })
    // A lead of two lines beside a text of one; a text that went on to the next page is past it.
    if (paper.y > top && paper.y < below) paper.y = below
    paper.y += 3
  })
}

const CAUTION_PAD = 8
const BAR = 3

const cautionWidth = CONTENT_WIDTH - 2 * CAUTION_PAD - BAR

const cautionHeight = (paper: Paper, text: string): number =>
  textHeight(paper, text, proseStyle, cautionWidth) + 2 * CAUTION_PAD

/** On a tinted ground with a bar at its side; a text longer than a page goes on without its ground. */
export function writeCaution(paper: Paper, parent: Struct, text: string): void {
  const height = cautionHeight(paper, text)
  needRoom(paper, height)
  const top = paper.y
  const fits = top + height <= PAGE.height - PAGE.bottom
  if (fits)
    artifact(paper, () => {
      paper.doc.rect(PAGE.left, top, CONTENT_WIDTH, height).fill(ACCENT_TINT)
      paper.doc.rect(PAGE.left, top, BAR, height).fill(paperTones.accent)
    })
  paper.y = top + CAUTION_PAD
  writeText(paper, parent, 'P', text, proseStyle, { x: PAGE.left + BAR + CAUTION_PAD, width: cautionWidth })
  paper.y = fits ? top + height + 8 : paper.y + CAUTION_PAD
}

const SECTION_WIDTH = 330
const STRIP_SIZE = 9.5

const stripOf = ({ marks }: BlockOf<'standing'>) =>
  drawGateStrip(marks, { width: CONTENT_WIDTH, size: STRIP_SIZE, names: true })
const cutOf = ({ section }: BlockOf<'standing'>) =>
  drawSection(section, { width: SECTION_WIDTH, textSize: 8 })

const standingHeight = (block: BlockOf<'standing'>): number =>
  stripOf(block).height + cutOf(block).height + 30 + 2 * smallStyle.leading

/** The gates in a row, the cut below them, and what its lines mean. */
function writeStanding(paper: Paper, parent: Struct, block: BlockOf<'standing'>): void {
  needRoom(paper, standingHeight(block))
  const strip = stripOf(block)
  const cut = cutOf(block)
  paper.y += 6
  drawOnPaper(paper, parent, strip, PAGE.left, paper.y)
  paper.y += strip.height + 12
  drawOnPaper(paper, parent, cut, PAGE.left, paper.y)
  paper.y += cut.height + 4
  writeText(paper, parent, 'P', `${sectionLegend(block.section)}.`, smallStyle, { after: 8 })
}

/** A map that is higher than a page is left out: the words beside it say the same. */
function writeMap(paper: Paper, parent: Struct, block: BlockOf<'map'>): void {
  const map = bookMapDrawing(block)
  if (map.height > FOOT - PAGE.top) return
  needRoom(paper, map.height)
  drawOnPaper(paper, parent, map, PAGE.left, paper.y)
  paper.y += map.height + 4
  const links = block.fits.length === 0 ? '' : ' Dashed lines lead to what is fitted together.'
  writeText(paper, parent, 'P', `${MAP_WORDS}${links}`, smallStyle, { after: 8 })
}

const MAP_WORDS =
  'From the outside at the top to the inside at the bottom: a line leads from a repair to what it covers.'
