import type { BookChapter, BookSection } from '../../domain/report/car-book-shapes.ts'
import { firstRoomOf, writeBookBlock } from './book-blocks.ts'
import { type BookContext, newPage, pageIndex, partInTime } from './book-context.ts'
import { chapterStyle, chapterSubtitleStyle, sectionStyle } from './book-styles.ts'
import { needRoom, PAGE, type Paper, rule, type Struct, writeText } from './paper.ts'
import { RULE } from './tones.ts'

/** Bookmarks below one another, as pdfkit makes them. */
interface Bookmarks {
  readonly addItem: (title: string, options?: object) => Bookmarks
}

/** Each chapter begins on a page of its own. @returns the index of its first page */
export async function writeChapter(context: BookContext, chapter: BookChapter): Promise<number> {
  const { paper, heads } = context
  newPage(paper)
  const first = pageIndex(paper)
  const outline = paper.doc.outline as unknown as Bookmarks
  const bookmarks = outline.addItem(chapter.title)
  await partInTime(paper, paper.root, 'Sect', async (struct) => {
    writeText(paper, struct, 'H2', chapter.title, chapterStyle, { after: 2 })
    if (chapter.subtitle !== '') writeText(paper, struct, 'P', chapter.subtitle, chapterSubtitleStyle)
    paper.y += 7
    rule(paper, RULE, 0.8)
    paper.y += 11
    for (const section of chapter.sections) await writeSection(context, struct, section, bookmarks)
  })
  for (let index = first; index <= pageIndex(paper); index += 1) heads.set(index, chapter.title)
  return first
}

async function writeSection(
  context: BookContext,
  parent: Struct,
  { heading, blocks }: BookSection,
  bookmarks: Bookmarks,
): Promise<void> {
  const { paper } = context
  await partInTime(paper, parent, 'Sect', async (struct) => {
    if (heading !== '') {
      writeSectionHead(paper, struct, heading, blocks[0] === undefined ? 0 : firstRoomOf(paper, blocks[0]))
      bookmarks.addItem(heading, { top: paper.y - sectionStyle.leading - 6 })
    }
    for (const block of blocks) {
      await writeBookBlock(context, struct, block)
      await context.keepUp()
    }
  })
}

/** Never alone at the foot of a page. */
function writeSectionHead(paper: Paper, section: Struct, heading: string, below: number): void {
  needRoom(paper, 12 + sectionStyle.leading + below)
  if (paper.y > PAGE.top) paper.y += 10
  writeText(paper, section, 'H3', heading, sectionStyle, { after: 4 })
}
