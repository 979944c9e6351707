import { type OwnerWeek, type ReportBlock, reportPhotos } from '../../domain/report/owner-week-shapes.ts'
import { readPrintFonts } from './fonts.ts'
import { writeFooters, writeLetterhead } from './letter.ts'
import {
  createPaper,
  finishPaper,
  needRoom,
  PAGE,
  type Paper,
  type PaperInfo,
  part,
  rule,
  type Struct,
  writeText,
} from './paper.ts'
import { firstRoom, writeBlocks } from './print-blocks.ts'
import {
  type PhotoBox,
  photoBoxes,
  preparePhoto,
  type PhotoContext,
  type PreparedPhoto,
  type PreparedPhotos,
} from './print-photos.ts'
import { bodyStyle, headingStyle, smallStyle } from './print-styles.ts'
import { paperTones, RULE } from './tones.ts'

/** An issued report prints the head of its car's chain (SHA-256, hexadecimal); a draft says that it is none. */
export type PrintedAs = { readonly kind: 'draft' } | { readonly kind: 'issued'; readonly head: string }

/** A photo's JPEG in report size; null when it cannot be read: its place in the report then says so. */
export type LoadPhoto = (sha256: string) => Promise<Buffer | null>

/**
 * Lays an owner's week out as a letter on A4: a tagged PDF with embedded fonts and vector drawings, photos at 200 dpi.
 *
 * @throws what `loadPhoto` throws
 */
export async function printOwnerWeek(week: OwnerWeek, loadPhoto: LoadPhoto, as: PrintedAs): Promise<Buffer> {
  const fonts = await readPrintFonts()
  const photos = await preparePhotos(week, loadPhoto)
  const layOut = (box: PhotoBox): Paper => {
    const paper = createPaper(fonts, infoOf(week, as))
    writeReport({ paper, photos, box }, week, as)
    return paper
  }
  return finishPaper(shortest(layOut, photos.size))
}

/** More is not read; only a week with very many repairs goes beyond it, with its photos at their smallest. */
const MOST_PAGES = 4

/** With photos as large as they go, but one size smaller where that saves a page, and smaller where four are not enough. */
function shortest(layOut: (box: PhotoBox) => Paper, photoCount: number): Paper {
  const [largest, ...smaller] = photoBoxes
  let best = layOut(largest)
  if (photoCount === 0) return best
  for (const [index, box] of smaller.entries()) {
    if (index > 0 && pagesOf(best) <= MOST_PAGES) break
    const paper = layOut(box)
    if (pagesOf(paper) < pagesOf(best)) best = paper
  }
  return best
}

const pagesOf = ({ doc }: Paper): number => doc.bufferedPageRange().count

/** One after the other: a batch of reports must not hold all its photos at once. */
async function preparePhotos(week: OwnerWeek, loadPhoto: LoadPhoto): Promise<PreparedPhotos> {
  const prepared = new Map<string, PreparedPhoto | null>()
  for (const { sha256 } of reportPhotos(week)) {
    const bytes = await loadPhoto(sha256)
    prepared.set(sha256, bytes === null ? null : await preparePhoto(bytes))
  }
  return prepared
}

function infoOf(week: OwnerWeek, as: PrintedAs): PaperInfo {
  return {
    title: `${week.title}: ${week.subtitle}${as.kind === 'draft' ? ` (${NOT_ISSUED})` : ''}`,
    author: week.workshop,
    subject: `Owner's week ${week.week}, report ${week.number}`,
    language: 'en-GB',
  }
}

function writeReport(context: PhotoContext, week: OwnerWeek, as: PrintedAs): void {
  const { paper } = context
  writeLetterhead(paper, {
    workshop: week.workshop,
    mark: `Report ${week.number}, ${week.written}`,
    title: week.title,
    subtitle: week.subtitle,
    warning: as.kind === 'draft' ? NOT_ISSUED : null,
  })
  part(paper, paper.root, 'Sect', (section) => {
    writeText(paper, section, 'P', week.greeting, bodyStyle, { after: 6 })
    for (const text of [...week.opening, ...week.words])
      writeText(paper, section, 'P', text, bodyStyle, { after: 6 })
  })
  for (const { heading, blocks } of week.sections)
    part(paper, paper.root, 'Sect', (section) => {
      writeHeading(context, section, heading, blocks[0])
      writeBlocks(context, section, blocks)
    })
  writeEnd(paper, week, as)
  writeFooters(paper, {
    left: `${week.workshop}. ${week.title}. ${week.subtitle}`,
    right: as.kind === 'draft' ? NOT_ISSUED : `record ${as.head.slice(0, 12)}`,
    isWarning: as.kind === 'draft',
  })
}

const NOT_ISSUED = 'not issued'

/** Never alone at the foot of a page. */
function writeHeading(
  context: PhotoContext,
  section: Struct,
  heading: string,
  first: ReportBlock | undefined,
): void {
  const { paper } = context
  needRoom(paper, 20 + headingStyle.leading + (first === undefined ? 0 : firstRoom(context, first)))
  if (paper.y > PAGE.top) {
    paper.y += 7
    rule(paper, RULE, 0.6)
    paper.y += 8
  }
  writeText(paper, section, 'H2', heading, headingStyle, { after: 4 })
}

/** What the report is not, and the record that it was written from. */
function writeEnd(paper: Paper, week: OwnerWeek, as: PrintedAs): void {
  needRoom(paper, 6 * smallStyle.leading + 20)
  paper.y += 10
  rule(paper, paperTones.ink, 0.9)
  paper.y += 6
  part(paper, paper.root, 'Sect', (section) => {
    for (const caution of week.cautions) writeText(paper, section, 'P', caution, smallStyle, { after: 3 })
    writeText(paper, section, 'P', recordText(as), smallStyle)
  })
}

function recordText(as: PrintedAs): string {
  return as.kind === 'draft'
    ? 'This is a draft. It was not issued and may still change.'
    : `Head of the car's record when this report was issued (SHA-256): ${inGroups(as.head)}`
}

/** Eight letters at a time, so that people can compare it. */
const inGroups = (digest: string): string => digest.replaceAll(/.{8}(?=.)/g, '$& ')
