import { drawHoursBand, drawHoursRuler } from '../../domain/drawing/hours-band-drawing.ts'
import { english } from '../../domain/language/english.ts'
import type { EstimateLetter, ProposedRepairs } from '../../domain/report/estimate-letter.ts'
import type { ToldRepair } from '../../domain/report/estimate-repair-told.ts'
import { drawOnPaper, drawShapes } from './draw-on-paper.ts'
import { writeFooters, writeLetterhead } from './letter.ts'
import {
  artifact,
  CONTENT_WIDTH,
  needRoom,
  PAGE,
  type Paper,
  part,
  type Struct,
  textHeight,
  writeText,
} from './paper.ts'
import { printLetter, writeCautions } from './print-letter.ts'
import type { LoadPhoto, PhotoContext } from './print-photos.ts'
import { writeHeading, writeSection } from './print-sections.ts'
import { bodyStyle, smallHeadingStyle, smallStyle } from './print-styles.ts'

/** More is not read before it is signed; only a car with very many repairs goes beyond it. */
const MOST_PAGES = 3

/**
 * Lays the owner's estimate out as a letter on A4, each repair with its band of hours on one scale: a tagged PDF with
 * embedded fonts and vector drawings.
 *
 * @throws what `loadPhoto` throws
 */
export async function printEstimate(letter: EstimateLetter, loadPhoto: LoadPhoto): Promise<Buffer> {
  return printLetter(
    {
      title: `${letter.title}: ${letter.subtitle}`,
      author: letter.workshop,
      subject: letter.subtitle,
      sections: [letter.looked],
      mostPages: MOST_PAGES,
      say: english,
    },
    loadPhoto,
    (context) => writeLetter(context, letter),
  )
}

function writeLetter(context: PhotoContext, letter: EstimateLetter): void {
  const { paper } = context
  const { workshop, written, title, subtitle, proposed } = letter
  writeLetterhead(paper, { workshop, mark: `Printed ${written}`, title, subtitle, warning: null })
  part(paper, paper.root, 'Sect', (section) => {
    for (const words of [letter.greeting, ...letter.opening])
      writeText(paper, section, 'P', words, bodyStyle, { after: 6 })
  })
  writeSection(context, letter.looked)
  if (proposed !== null) part(paper, paper.root, 'Sect', (section) => writeProposed(paper, section, proposed))
  for (const section of letter.sections) writeSection(context, section)
  writeCautions(paper, letter.cautions)
  writeFooters(paper, { left: `${title}. ${subtitle}`, right: 'estimate', isWarning: false })
}

const BAND_SIZE = 8.4
const GAP = 7
const LEGEND =
  'On one scale of hours: the mark from above is what we propose or have agreed; the hatched bar goes from what we expect to what it may become; a dashed bracket is what we said before it was opened, a diamond what it took.'

function writeProposed(
  paper: Paper,
  section: Struct,
  { heading, texts, repairs, scale }: ProposedRepairs,
): void {
  const [first] = repairs
  writeHeading(paper, section, heading, 60 + (first === undefined ? 0 : repairHeight(paper, first, scale)))
  for (const words of texts) writeText(paper, section, 'P', words, bodyStyle, { after: 3 })
  if (scale > 0) {
    writeText(paper, section, 'P', LEGEND, smallStyle, { after: 4 })
    const ruler = drawHoursRuler({ width: CONTENT_WIDTH, scale, textSize: BAND_SIZE })
    artifact(paper, () => drawShapes(paper, ruler, PAGE.left, paper.y))
    paper.y += ruler.height + 4
  }
  for (const repair of repairs) writeRepair(paper, section, repair, scale)
}

/** Words and band of a repair stay together. */
function writeRepair(paper: Paper, section: Struct, repair: ToldRepair, scale: number): void {
  needRoom(paper, repairHeight(paper, repair, scale))
  writeText(paper, section, 'H3', repair.title, smallHeadingStyle, { after: 1 })
  for (const words of repair.texts) writeText(paper, section, 'P', words, bodyStyle, { after: 2 })
  if (!hasBand(repair, scale)) {
    paper.y += GAP
    return
  }
  const band = bandOf(repair, scale)
  drawOnPaper(paper, section, band, PAGE.left, paper.y)
  paper.y += band.height + GAP
}

const hasBand = ({ row: { agreed, band, took } }: ToldRepair, scale: number): boolean =>
  scale > 0 && (agreed !== null || band !== null || took !== null)

const bandOf = ({ row }: ToldRepair, scale: number) =>
  drawHoursBand(row, { width: CONTENT_WIDTH, scale, textSize: BAND_SIZE })

function repairHeight(paper: Paper, repair: ToldRepair, scale: number): number {
  const words = repair.texts.reduce(
    (sum, each) => sum + textHeight(paper, each, bodyStyle, CONTENT_WIDTH) + 2,
    smallHeadingStyle.leading + 1,
  )
  return words + GAP + (hasBand(repair, scale) ? bandOf(repair, scale).height : 0)
}
