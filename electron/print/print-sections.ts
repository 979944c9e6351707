import type { ReportSection } from '../../domain/report/owner-week-shapes.ts'
import { needRoom, PAGE, type Paper, part, rule, type Struct, writeText } from './paper.ts'
import type { PhotoBox } from './photo-box.ts'
import { firstRoom, writeBlocks } from './print-blocks.ts'
import { photoBoxes, type PhotoContext } from './print-photos.ts'
import { headingStyle } from './print-styles.ts'
import { RULE } from './tones.ts'

/** With photos as large as they go, but one size smaller where that saves a page, and smaller where so many are not enough. */
export function shortest(layOut: (box: PhotoBox) => Paper, photoCount: number, mostPages: number): Paper {
  const [largest, ...smaller] = photoBoxes
  let best = layOut(largest)
  if (photoCount === 0) return best
  for (const [index, box] of smaller.entries()) {
    if (index > 0 && pagesOf(best) <= mostPages) break
    const paper = layOut(box)
    if (pagesOf(paper) < pagesOf(best)) best = paper
  }
  return best
}

const pagesOf = ({ doc }: Paper): number => doc.bufferedPageRange().count

/** A section of a letter or report with its heading, which stays with its first block. */
export function writeSection(context: PhotoContext, { heading, blocks }: ReportSection): void {
  part(context.paper, context.paper.root, 'Sect', (section) => {
    writeHeading(context.paper, section, heading, blocks[0] === undefined ? 0 : firstRoom(context, blocks[0]))
    writeBlocks(context, section, blocks)
  })
}

/**
 * Never alone at the foot of a page.
 *
 * @param below points that what follows needs on the same page
 */
export function writeHeading(paper: Paper, section: Struct, heading: string, below: number): void {
  needRoom(paper, 20 + headingStyle.leading + below)
  if (paper.y > PAGE.top) {
    paper.y += 7
    rule(paper, RULE, 0.6)
    paper.y += 8
  }
  writeText(paper, section, 'H2', heading, headingStyle, { after: 4 })
}
