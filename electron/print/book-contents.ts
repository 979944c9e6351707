import type { BookChapter } from '../../domain/report/car-book-shapes.ts'
import { type BookContext, FOOT, newPage } from './book-context.ts'
import { chapterStyle, contentsStyle } from './book-styles.ts'
import {
  artifact,
  CONTENT_WIDTH,
  PAGE,
  type Paper,
  part,
  type Struct,
  writeLines,
  writeText,
} from './paper.ts'
import { RULE } from './tones.ts'
import type { Line } from './typesetter.ts'

const HEADING = 'Contents'
const NUMBER_ROOM = 40
const HEADING_ROOM = chapterStyle.leading + 12
const ENTRY_GAP = 4

/** Pages that are kept free for the contents until the pages of the chapters are known. */
export interface KeptContents {
  readonly section: Struct
  /** Index of each kept page, with the chapters that are listed on it. */
  readonly pages: readonly { readonly index: number; readonly entries: readonly ContentsEntry[] }[]
}

interface ContentsEntry {
  readonly chapter: BookChapter
  readonly lines: readonly Line[]
}

/** As many empty pages as the list of chapters will fill. */
export function keepContents({ paper, heads }: BookContext, chapters: readonly BookChapter[]): KeptContents {
  const section = paper.doc.struct('TOC')
  paper.root.add(section)
  const pages = entryPages(paper, chapters).map((entries) => {
    newPage(paper)
    const index = paper.doc.bufferedPageRange().count - 1
    heads.set(index, HEADING)
    return { index, entries }
  })
  return { section, pages }
}

function entryPages(paper: Paper, chapters: readonly BookChapter[]): readonly (readonly ContentsEntry[])[] {
  const pages: ContentsEntry[][] = [[]]
  let y = PAGE.top + HEADING_ROOM
  for (const chapter of chapters) {
    const lines = paper.type.linesOf(chapter.title, contentsStyle, CONTENT_WIDTH - NUMBER_ROOM)
    const height = lines.length * contentsStyle.leading + ENTRY_GAP
    if (y + height > FOOT) {
      pages.push([])
      y = PAGE.top
    }
    pages.at(-1)?.push({ chapter, lines })
    y += height
  }
  return pages
}

/** Fills the kept pages; each line leads to its chapter. `pageOf` gives a page counted from 1. */
export function writeContents(
  { paper }: BookContext,
  { section, pages }: KeptContents,
  pageOf: (chapter: BookChapter) => number,
): void {
  pages.forEach(({ index, entries }, place) => {
    paper.doc.switchToPage(index)
    paper.y = PAGE.top
    if (place === 0) writeText(paper, section, 'H2', HEADING, chapterStyle, { after: 12 })
    for (const entry of entries) writeContentsEntry(paper, section, entry, pageOf(entry.chapter))
  })
  section.end()
}

function writeContentsEntry(
  paper: Paper,
  section: Struct,
  { chapter, lines }: ContentsEntry,
  page: number,
): void {
  const top = paper.y
  const number = String(page)
  const right = PAGE.left + CONTENT_WIDTH
  const numberWidth = paper.type.widthOf(number, contentsStyle)
  part(paper, section, 'TOCI', (entry) => {
    const link = paper.doc.struct('Link')
    entry.add(link)
    link.add(() => {
      writeLines(paper, lines, PAGE.left, contentsStyle)
      const below = paper.y
      paper.y = below - contentsStyle.leading
      writeLines(
        paper,
        paper.type.linesOf(number, contentsStyle, NUMBER_ROOM),
        right - numberWidth,
        contentsStyle,
      )
    })
    const options = { structParent: link, Contents: new String(`${chapter.title}, page ${page}`) }
    paper.doc.link(PAGE.left, top, CONTENT_WIDTH, paper.y - top, (page - 1) as never, options as never)
    link.end()
  })
  const from = PAGE.left + (lines.at(-1)?.width ?? 0) + 6
  drawLeader(paper, from, right - numberWidth - 6)
  paper.y += ENTRY_GAP
}

/** Dots that lead the eye to the number. */
function drawLeader(paper: Paper, from: number, to: number): void {
  if (to - from < 12) return
  artifact(paper, () => {
    const y = paper.y - contentsStyle.leading * 0.3
    paper.doc
      .moveTo(from, y)
      .lineTo(to, y)
      .lineWidth(0.8)
      .dash(0.8, { space: 3.2 })
      .strokeColor(RULE)
      .stroke()
    paper.doc.undash()
  })
}
