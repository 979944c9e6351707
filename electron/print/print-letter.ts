import type { OwnerLanguage } from '../../domain/language/owner-language.ts'
import { reportPhotos } from '../../domain/report/owner-week-shapes.ts'
import { readPrintFonts } from './fonts.ts'
import {
  CONTENT_WIDTH,
  createPaper,
  finishPaper,
  needRoom,
  type Paper,
  part,
  rule,
  textHeight,
  writeText,
} from './paper.ts'
import type { PhotoBox } from './photo-box.ts'
import { type LoadPhoto, type PhotoContext, preparePhotos } from './print-photos.ts'
import { shortest } from './print-sections.ts'
import { smallStyle } from './print-styles.ts'
import { paperTones } from './tones.ts'

export interface LetterToPrint {
  readonly title: string
  readonly author: string
  readonly subject: string
  readonly sections: Parameters<typeof reportPhotos>[0]['sections']
  /** Photos grow smaller before there are more. */
  readonly mostPages: number
  /** The language of the paper and of the words around photos and drawings. */
  readonly say: OwnerLanguage
}

/**
 * Lays a letter with photos out on A4: a tagged PDF with embedded fonts. It is written again with smaller photos while
 * it takes too many pages.
 *
 * @throws what `loadPhoto` throws
 */
export async function printLetter(
  { title, author, subject, sections, mostPages, say }: LetterToPrint,
  loadPhoto: LoadPhoto,
  write: (context: PhotoContext) => void,
): Promise<Buffer> {
  const fonts = await readPrintFonts()
  const photos = await preparePhotos(reportPhotos({ sections }), loadPhoto)
  const layOut = (box: PhotoBox): Paper => {
    const paper = createPaper(fonts, { title, author, subject, language: say.tag })
    write({ paper, photos, box, say })
    return paper
  }
  return finishPaper(shortest(layOut, photos.size, mostPages))
}

/** Below a rule at the end, never torn apart. */
export function writeCautions(paper: Paper, cautions: readonly string[]): void {
  const heights = cautions.map((words) => textHeight(paper, words, smallStyle, CONTENT_WIDTH) + 3)
  needRoom(paper, 16 + heights.reduce((sum, height) => sum + height, 0))
  paper.y += 8
  rule(paper, paperTones.ink, 0.9)
  paper.y += 6
  part(paper, paper.root, 'Sect', (section) => {
    for (const words of cautions) writeText(paper, section, 'P', words, smallStyle, { after: 3 })
  })
}
