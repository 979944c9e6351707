import type { CarBook } from '../../domain/report/car-book-shapes.ts'
import { writeBookList, writeCaution } from './book-blocks.ts'
import { type BookContext, FOOT, newPage } from './book-context.ts'
import { writePicture } from './book-photos.ts'
import {
  bookKindStyle,
  bookSubtitleStyle,
  bookTitleStyle,
  chapterStyle,
  digestStyle,
  proseStyle,
  sectionStyle,
} from './book-styles.ts'
import { inGroups } from './in-groups.ts'
import {
  CONTENT_WIDTH,
  needRoom,
  pageIndex,
  type Paper,
  part,
  rule,
  type Struct,
  textHeight,
  writeText,
} from './paper.ts'
import { workshopStyle } from './print-styles.ts'
import { paperTones } from './tones.ts'

/** A photo of 4 to 3 takes the whole width. */
const PICTURE = { width: CONTENT_WIDTH, height: CONTENT_WIDTH * 0.75 } as const

/** The car, whose book it is, and the digest that it stands on. */
export async function writeTitlePage(context: BookContext, book: CarBook): Promise<void> {
  const { paper } = context
  const section = paper.doc.struct('Sect')
  paper.root.add(section)
  writeText(paper, section, 'P', book.workshop, workshopStyle)
  paper.y += 3
  rule(paper, paperTones.ink, 1.4)
  paper.y += 40
  if (book.picture !== null) paper.y += (await writePicture(context, section, book.picture, PICTURE)) + 30
  else paper.y += 120
  writeText(paper, section, 'P', 'The car’s file', bookKindStyle, { after: 2 })
  writeText(paper, section, 'H1', book.car, bookTitleStyle, { after: 4 })
  writeText(paper, section, 'P', `${book.shell}, ${book.body.toLowerCase()}`, bookSubtitleStyle)
  writeImprint(paper, section, book)
  section.end()
}

/** At the foot of the title page. */
function writeImprint(paper: Paper, section: Struct, { workshop, written, head, withheld }: CarBook): void {
  const texts = [
    `Made by ${workshop} on ${written}.`,
    withheld.length === 0
      ? 'Nothing of the record is withheld.'
      : `Withheld in this copy: ${withheld.map(lowerFirst).join('; ')}. The next page says how the record can be checked all the same.`,
    `Head of the car's record (SHA-256): ${inGroups(head)}`,
  ]
  const height = texts.reduce((sum, text) => sum + textHeight(paper, text, digestStyle, CONTENT_WIDTH) + 3, 0)
  paper.y = Math.max(paper.y + 12, FOOT - height - IMPRINT_GAP)
  rule(paper, paperTones.ink, 0.9)
  paper.y += IMPRINT_GAP
  for (const text of texts) writeText(paper, section, 'P', text, digestStyle, { after: 3 })
}

const IMPRINT_GAP = 8

/** What the book is, what it leaves out, how it can be checked, and what it is not. */
export function writeAbout({ paper, heads }: BookContext, book: CarBook): void {
  newPage(paper)
  heads.set(pageIndex(paper), ABOUT)
  part(paper, paper.root, 'Sect', (section) => {
    writeText(paper, section, 'H2', ABOUT, chapterStyle, { after: 8 })
    writeProse(paper, section, book.about)
    writeHead(paper, section, 'What is not in it')
    if (book.withheld.length === 0) writeProse(paper, section, ['Nothing is withheld.'])
    else
      writeBookList(
        paper,
        section,
        book.withheld.map((item) => `${item}.`),
      )
    writeHead(paper, section, 'How it can be checked')
    writeProse(paper, section, book.verify)
    writeHead(paper, section, 'What it is not')
    for (const caution of book.cautions) writeCaution(paper, section, caution)
  })
}

const ABOUT = 'About this book'

function writeHead(paper: Paper, section: Struct, heading: string): void {
  needRoom(paper, 14 + sectionStyle.leading + 2 * proseStyle.leading)
  paper.y += 10
  writeText(paper, section, 'H3', heading, sectionStyle, { after: 3 })
}

function writeProse(paper: Paper, section: Struct, texts: readonly string[]): void {
  for (const text of texts) writeText(paper, section, 'P', text, proseStyle, { after: 5 })
}

const lowerFirst = (text: string): string => text.charAt(0).toLowerCase() + text.slice(1)
