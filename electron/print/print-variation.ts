import { english } from '../../domain/language/english.ts'
import type { VariationLetter, VariationReply } from '../../domain/report/variation-letter.ts'
import { writeFooters, writeLetterhead } from './letter.ts'
import {
  artifact,
  CONTENT_WIDTH,
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
import { bodyStyle, smallStyle } from './print-styles.ts'
import { ACCENT_TINT, paperTones } from './tones.ts'

/** A letter that is answered on the spot is read on the spot. */
const MOST_PAGES = 2

/**
 * Lays a variation out as a letter on A4 with a form for its answer, or with the answer that was given: a tagged PDF with
 * embedded fonts.
 *
 * @throws what `loadPhoto` throws
 */
export async function printVariation(letter: VariationLetter, loadPhoto: LoadPhoto): Promise<Buffer> {
  return printLetter(
    {
      title: `${letter.title}: ${letter.subtitle}`,
      author: letter.workshop,
      subject: `Variation, printed ${letter.written}`,
      sections: letter.sections,
      mostPages: MOST_PAGES,
      say: english,
    },
    loadPhoto,
    (context) => writeLetter(context, letter),
  )
}

function writeLetter(context: PhotoContext, letter: VariationLetter): void {
  const { paper } = context
  writeLetterhead(paper, {
    workshop: letter.workshop,
    mark: `Printed ${letter.written}`,
    title: letter.title,
    subtitle: letter.subtitle,
    warning: null,
  })
  part(paper, paper.root, 'Sect', (section) => {
    if (letter.greeting !== '') writeText(paper, section, 'P', letter.greeting, bodyStyle, { after: 6 })
    writeText(paper, section, 'P', letter.opening, bodyStyle, { after: 6 })
  })
  for (const section of letter.sections) writeSection(context, section)
  const { reply } = letter
  if (reply !== null) part(paper, paper.root, 'Sect', (section) => writeReply(paper, section, reply))
  writeCautions(paper, letter.cautions)
  writeFooters(paper, {
    left: `${letter.car}. ${letter.title}`,
    right: 'variation',
    isWarning: false,
  })
}

const CHOICE_ROW = 22
const BOX = 11
/** Room to write into by hand. */
const HAND_ROW = 40
const PAD = 10

/** Never torn apart: what is ticked and what is signed belong together. */
function writeReply(
  paper: Paper,
  section: Struct,
  { heading, texts, choices, fields }: VariationReply,
): void {
  const words = texts.reduce((sum, text) => sum + textHeight(paper, text, bodyStyle, CONTENT_WIDTH) + 5, 0)
  const form = choices.reduce((sum, choice) => sum + choiceHeight(choice), HAND_ROW + 2 * PAD)
  writeHeading(paper, section, heading, words + form)
  for (const text of texts) writeText(paper, section, 'P', text, bodyStyle, { after: 5 })
  const top = paper.y
  artifact(paper, () => {
    paper.doc.rect(PAGE.left, top, CONTENT_WIDTH, form).fill(ACCENT_TINT)
  })
  paper.y = top + PAD
  for (const choice of choices) writeChoice(paper, section, choice)
  writeFields(paper, section, fields)
  paper.y = top + form + 6
}

/** A choice that ends in a colon is written on by hand, over two lines. */
const isOpenEnded = (choice: string): boolean => choice.endsWith(':')
const choiceHeight = (choice: string): number => (isOpenEnded(choice) ? 2 : 1) * CHOICE_ROW

function writeChoice(paper: Paper, section: Struct, choice: string): void {
  const top = paper.y
  const x = PAGE.left + PAD
  artifact(paper, () =>
    paper.doc
      .rect(x, top + 2, BOX, BOX)
      .lineWidth(1)
      .fillAndStroke(paperTones.sheet, paperTones.ink),
  )
  writeText(paper, section, 'P', choice, bodyStyle, {
    x: x + BOX + 8,
    width: CONTENT_WIDTH - 2 * PAD - BOX - 8,
  })
  if (isOpenEnded(choice)) {
    const right = PAGE.left + CONTENT_WIDTH - PAD
    const words = x + BOX + 14 + paper.type.widthOf(choice, bodyStyle)
    drawLine(paper, words, top + 13, right - words)
    drawLine(paper, x + BOX + 8, top + 13 + CHOICE_ROW, right - x - BOX - 8)
  }
  paper.y = top + choiceHeight(choice)
}

/** Side by side, each a line with its word below. */
function writeFields(paper: Paper, section: Struct, fields: readonly string[]): void {
  const gap = 18
  const width = (CONTENT_WIDTH - 2 * PAD - gap * (fields.length - 1)) / fields.length
  const top = paper.y
  fields.forEach((field, index) => {
    const x = PAGE.left + PAD + index * (width + gap)
    drawLine(paper, x, top + HAND_ROW - 12, width)
    paper.y = top + HAND_ROW - 10
    writeText(paper, section, 'P', field, smallStyle, { x, width })
  })
}

function drawLine(paper: Paper, x: number, y: number, width: number): void {
  artifact(paper, () =>
    paper.doc
      .moveTo(x, y)
      .lineTo(x + width, y)
      .lineWidth(0.7)
      .strokeColor(paperTones.line)
      .stroke(),
  )
}
