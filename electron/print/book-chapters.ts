import type { BookChapter, BookPhoto, BookSection } from '../../domain/report/car-book-shapes.ts'
import {
  firstRoomOf,
  isNarrow,
  type NarrowBlock,
  narrowHeight,
  writeBookBlock,
  writeNarrow,
} from './book-blocks.ts'
import { readBookPhoto, writeAtRight } from './book-photos.ts'
import { type BookContext, FOOT, newPage, partInTime } from './book-context.ts'
import { chapterStyle, chapterSubtitleStyle, sectionStyle } from './book-styles.ts'
import { needRoom, PAGE, pageIndex, type Paper, rule, type Struct, writeText } from './paper.ts'
import { PHOTO_COLUMN } from './photo-box.ts'
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
  section: BookSection,
  bookmarks: Bookmarks,
): Promise<void> {
  await partInTime(context.paper, parent, 'Sect', async (struct) => {
    const beside = besideOf(section)
    if (beside !== null) return writeBeside(context, struct, section.heading, beside, bookmarks)
    const { paper } = context
    const { heading, blocks } = section
    writeSectionHead(paper, struct, heading, bookmarks, firstRoomOf(paper, blocks))
    for (const [index, block] of blocks.entries()) {
      needRoom(paper, firstRoomOf(paper, blocks.slice(index, index + 2)))
      await writeBookBlock(context, struct, block)
      await context.keepUp()
    }
  })
}

/** Never alone at the foot of a page; nothing for what opens a chapter. */
function writeSectionHead(
  paper: Paper,
  section: Struct,
  heading: string,
  bookmarks: Bookmarks,
  below: number,
): void {
  if (heading === '') return
  needRoom(paper, HEAD_ROOM + below)
  if (paper.y > PAGE.top) paper.y += SECTION_GAP
  writeText(paper, section, 'H3', heading, sectionStyle, { after: HEAD_AFTER })
  bookmarks.addItem(heading, { top: paper.y - sectionStyle.leading - 6 })
}

const SECTION_GAP = 10
const HEAD_AFTER = 4
const HEAD_ROOM = SECTION_GAP + sectionStyle.leading + HEAD_AFTER

interface Beside {
  readonly texts: readonly NarrowBlock[]
  readonly photo: BookPhoto
}

/** A section of words and a single photo; null for any other. */
function besideOf({ blocks }: BookSection): Beside | null {
  const last = blocks.at(-1)
  const texts = blocks.slice(0, -1)
  const [photo, ...more] = last?.kind === 'photos' ? last.photos : []
  if (photo === undefined || more.length > 0 || texts.length === 0 || !texts.every(isNarrow)) return null
  return { texts, photo }
}

/** The words at the left, the photo at the right of them. */
async function writeBeside(
  context: BookContext,
  section: Struct,
  heading: string,
  { texts, photo }: Beside,
  bookmarks: Bookmarks,
): Promise<void> {
  const { paper } = context
  const read = await readBookPhoto(context, photo)
  const words = texts.reduce((sum, block) => sum + narrowHeight(paper, block, PHOTO_COLUMN), 0)
  const height = Math.max(read.height, words)
  const fits = height + HEAD_ROOM < FOOT - PAGE.top
  writeSectionHead(paper, section, heading, bookmarks, fits ? height : read.height)
  if (heading === '') needRoom(paper, read.height)
  const top = paper.y
  const page = paper.doc.page
  writeAtRight(context, section, read)
  paper.y = top
  for (const block of texts) writeNarrow(paper, section, block, PHOTO_COLUMN)
  // Words that went on to the next page have left the photo behind.
  if (paper.doc.page === page) paper.y = Math.max(paper.y, top + read.height)
  await context.keepUp()
}
