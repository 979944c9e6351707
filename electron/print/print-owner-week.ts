import { languages } from '../../domain/language/languages.ts'
import type { PaperWords } from '../../domain/language/owner-language.ts'
import { type OwnerWeek, reportPhotos } from '../../domain/report/owner-week-shapes.ts'
import type { PrintedAs } from '../api/deps.ts'
import { inGroups } from './in-groups.ts'
import { writeFooters, writeLetterhead } from './letter.ts'
import { needRoom, part, rule, writeText } from './paper.ts'
import { printLetter } from './print-letter.ts'
import type { LoadPhoto, PhotoContext } from './print-photos.ts'
import { writeSection } from './print-sections.ts'
import { bodyStyle, smallStyle } from './print-styles.ts'
import { paperTones } from './tones.ts'

/**
 * Lays an owner's week out as a letter on A4: a tagged PDF with embedded fonts and vector drawings, photos at 200 dpi.
 *
 * @throws what `loadPhoto` throws, and an Error that names the photo when one of an issued report cannot be read
 */
export async function printOwnerWeek(week: OwnerWeek, loadPhoto: LoadPhoto, as: PrintedAs): Promise<Buffer> {
  return printLetter(
    { ...infoOf(week, as), sections: week.sections, mostPages: MOST_PAGES },
    loadPhoto,
    (context) => {
      if (as.kind === 'issued') requireAllPhotos(week, (sha256) => context.photos.get(sha256) !== null)
      writeReport(context, week, as)
    },
  )
}

/** Nothing goes out with a hole in it. @throws Error that names the first photo that is not there */
export function requireAllPhotos(week: OwnerWeek, isThere: (sha256: string) => boolean): void {
  const lost = reportPhotos(week).find(({ sha256 }) => !isThere(sha256))
  if (lost !== undefined)
    throw new Error(`the photo '${lost.caption}' (${lost.taken}) cannot be read; choose other photos`)
}

/** More is not read; only a week with very many repairs goes beyond it, with its photos at their smallest. */
const MOST_PAGES = 4

function infoOf(week: OwnerWeek, as: PrintedAs) {
  const say = languages[week.language]
  const { paper } = say
  return {
    title: `${week.title}: ${week.subtitle}${as.kind === 'draft' ? ` (${paper.notIssued})` : ''}`,
    author: week.workshop,
    subject: paper.subject(week.week, week.number),
    say,
  }
}

function writeReport(context: PhotoContext, week: OwnerWeek, as: PrintedAs): void {
  const { paper } = context
  const words = context.say.paper
  writeLetterhead(paper, {
    workshop: week.workshop,
    mark: words.report(week.number, week.written),
    title: week.title,
    subtitle: week.subtitle,
    warning: as.kind === 'draft' ? words.notIssued : null,
  })
  part(paper, paper.root, 'Sect', (section) => {
    writeText(paper, section, 'P', week.greeting, bodyStyle, { after: 6 })
    for (const text of [...week.opening, ...week.words])
      writeText(paper, section, 'P', text, bodyStyle, { after: 6 })
  })
  for (const section of week.sections) writeSection(context, section)
  writeEnd(context, week, as)
  writeFooters(paper, {
    left: `${week.workshop}. ${week.title}. ${week.subtitle}`,
    right: as.kind === 'draft' ? words.notIssued : words.record(as.head.slice(0, 12)),
    pageOf: words.page,
    isWarning: as.kind === 'draft',
  })
}

/** What the report is not, and the record that it was written from. */
function writeEnd({ paper, say }: PhotoContext, week: OwnerWeek, as: PrintedAs): void {
  needRoom(paper, 6 * smallStyle.leading + 20)
  paper.y += 10
  rule(paper, paperTones.ink, 0.9)
  paper.y += 6
  part(paper, paper.root, 'Sect', (section) => {
    for (const caution of week.cautions) writeText(paper, section, 'P', caution, smallStyle, { after: 3 })
    writeText(paper, section, 'P', recordText(say.paper, as), smallStyle)
  })
}

/** The record that a report was written from, or that it is a draft. */
export function recordText(words: PaperWords, as: PrintedAs): string {
  return as.kind === 'draft' ? words.draftSentence : words.recordHead(inGroups(as.head))
}
