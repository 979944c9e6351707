import { createHash } from 'node:crypto'
import { sharp } from '../../db/photos/sharp.ts'
import { drawGateStrip, stripWords } from '../../domain/drawing/gate-strip-drawing.ts'
import { drawSection } from '../../domain/drawing/section-drawing.ts'
import { languages } from '../../domain/language/languages.ts'
import type { PhotoMarks } from '../../domain/photo-marks/photo-marks.ts'
import type { OwnerLanguage } from '../../domain/language/owner-language.ts'
import type { Drawing } from '../../domain/drawing/shapes.ts'
import { sectionLegend } from '../../domain/drawing/section/section-words.ts'
import {
  type FigureRow,
  type OwnerWeek,
  type PhotoPlate,
  type ReportBlock,
  type ReportPhoto,
  type ReportSection,
  reportPhotos,
} from '../../domain/report/owner-week-shapes.ts'
import { markedJpeg } from '../print/mark-photo.ts'
import { recordText, requireAllPhotos } from '../print/print-owner-week.ts'
import { type PrintedAs } from '../api/deps.ts'
import { type LoadPhoto, photoAlt } from '../print/print-photos.ts'
import { drawingToSvg } from './drawing-to-svg.ts'
import { escapeHtml as e } from './escape-html.ts'
import { REPORT_STYLE } from './report-html-style.ts'

/**
 * An owner's week as one HTML file (UTF-8) for a phone: photos inside it (1000 px), drawings as SVG, without scripts and
 * without any address; its own policy lets it load nothing else. Like the PDF it says what was issued, or that it is a draft.
 *
 * @throws what `loadPhoto` throws, and an Error that names the photo when one of an issued report cannot be read
 */
export async function reportHtml(week: OwnerWeek, loadPhoto: LoadPhoto, as: PrintedAs): Promise<Buffer> {
  const photos = await loadPhotos(week, loadPhoto)
  const say = languages[week.language]
  const isDraft = as.kind === 'draft'
  if (!isDraft) requireAllPhotos(week, (sha256) => (photos.get(sha256) ?? null) !== null)
  return Buffer.from(`<!doctype html>
<html lang="${say.tag}">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="${POLICY}">
<meta name="referrer" content="no-referrer">
<meta name="color-scheme" content="light dark">
<meta name="format-detection" content="telephone=no">
<title>${e(`${week.title}: ${week.subtitle}${isDraft ? ` (${say.paper.notIssued})` : ''}`)}</title>
<style>${REPORT_STYLE}</style>
</head>
<body>
<main>
${headOf(say, week, isDraft)}
${week.sections.map((section) => sectionOf(section, { photos, say })).join('\n')}
</main>
<footer>
${paragraphs([...week.cautions, recordText(say.paper, as)])}
</footer>
</body>
</html>
`)
}

/** Only this very style and photos that are in the file. */
const POLICY = [
  "default-src 'none'",
  `style-src 'sha256-${createHash('sha256').update(REPORT_STYLE).digest('base64')}'`,
  'img-src data:',
  "base-uri 'none'",
  "form-action 'none'",
].join('; ')

/** Data URLs by the photo's SHA-256; null for a photo that cannot be read. */
type PhotoUrls = ReadonlyMap<string, string | null>

interface PageContext {
  readonly photos: PhotoUrls
  readonly say: OwnerLanguage
}

async function loadPhotos(week: OwnerWeek, loadPhoto: LoadPhoto): Promise<PhotoUrls> {
  const urls = new Map<string, string | null>()
  for (const { sha256, crop, marks } of reportPhotos(week)) {
    const plain = await loadPhoto(sha256, crop)
    const jpeg = plain === null || marks.length === 0 ? plain : await markedPhoto(plain, marks)
    urls.set(sha256, jpeg === null ? null : `data:image/jpeg;base64,${jpeg.toString('base64')}`)
  }
  return urls
}

/** Null for bytes that are no image: the place of the photo says so. */
async function markedPhoto(plain: Buffer, marks: PhotoMarks): Promise<Buffer | null> {
  try {
    return (await markedJpeg(sharp(plain, { failOn: 'error' }), marks, { quality: 82 })).jpeg
  } catch {
    return null
  }
}

function headOf({ paper }: OwnerLanguage, week: OwnerWeek, isDraft: boolean): string {
  return `<header>${isDraft ? `\n<p class="stamp">${e(paper.draft)}</p>` : ''}
<p><strong>${e(week.workshop)}</strong></p>
<p class="quiet">${e(paper.report(week.number, week.written))}</p>
<h1>${e(week.title)}</h1>
<p class="quiet">${e(week.subtitle)}</p>
</header>
${paragraphs([week.greeting, ...week.opening, ...week.words])}`
}

function sectionOf({ heading, blocks }: ReportSection, context: PageContext): string {
  return `<section>
<h2>${e(heading)}</h2>
${blocks.map((block) => blockOf(block, context)).join('\n')}
</section>`
}

type BlockOf<K extends ReportBlock['kind']> = Extract<ReportBlock, { readonly kind: K }>

function blockOf(block: ReportBlock, context: PageContext): string {
  switch (block.kind) {
    case 'text':
      return paragraphs([block.text])
    case 'list':
      return `<ul>${block.items.map((item) => `<li>${e(item)}</li>`).join('')}</ul>`
    case 'repair':
      return `<h3>${e(block.title)}</h3>
${paragraphs(block.texts)}
${platesOf(block.plates, context)}`
    case 'plates':
      return platesOf(block.plates, context)
    case 'question':
      return `<div class="question">
<h3>${e(block.title)}</h3>
<p><strong>${e(block.hours)}</strong></p>
${paragraphs(block.texts)}
${platesOf(block.plates, context)}
</div>`
    case 'figures':
      return figuresOf(context, block.head, block.rows)
    case 'standing':
      return standingOf(context, block)
  }
}

/** Units that a drawing is wide: about the pixels that a phone of 390 px has for it. */
const DRAWN_WIDTH = 340

function standingOf({ say }: PageContext, { title, text, section, marks }: BlockOf<'standing'>): string {
  return `<h3>${e(title)}</h3>
${paragraphs([text])}
<figure class="drawn">
${drawingToSvg(drawGateStrip(marks, { width: DRAWN_WIDTH, say }))}
<figcaption>${e(say.paper.gates(stripWords(marks, say)))}</figcaption>
</figure>
<figure class="drawn">
${drawingToSvg(withRoom(drawSection(section, { width: DRAWN_WIDTH, say })))}
<figcaption>${e(sectionLegend(section, say))}.</figcaption>
</figure>`
}

/** Words of a drawing are broken for the print's narrow type; a phone's own may be wider by an eighth. */
const withRoom = (drawing: Drawing): Drawing => ({ ...drawing, width: drawing.width + DRAWN_WIDTH / 8 })

function figuresOf({ say }: PageContext, head: readonly string[], rows: readonly FigureRow[]): string {
  return `<div class="wide" tabindex="0" role="group" aria-label="${e(say.paper.table(head.join(', ')))}"><table>
<thead><tr>${head.map((words) => `<th scope="col">${e(words)}</th>`).join('')}</tr></thead>
<tbody>${rows.map(rowOf).join('')}</tbody>
</table></div>`
}

function rowOf({ label, figures, isTotal }: FigureRow): string {
  const cells = figures.map((figure) => `<td>${e(figure)}</td>`).join('')
  return `<tr${isTotal ? ' class="total"' : ''}><th scope="row">${e(label)}</th>${cells}</tr>`
}

function platesOf(plates: readonly PhotoPlate[], context: PageContext): string {
  const { before, after } = context.say.paper
  return plates
    .map((plate) =>
      plate.kind === 'single'
        ? plateOf(plate.photo, '', context)
        : `<div class="pair">${plateOf(plate.before, `${before}, `, context)}${plateOf(plate.after, `${after}, `, context)}</div>`,
    )
    .join('\n')
}

/** A photo that is gone leaves its place and says so: a report never hides a gap in the record. */
function plateOf(photo: ReportPhoto, lead: string, { photos, say }: PageContext): string {
  const url = photos.get(photo.sha256) ?? null
  const image =
    url === null
      ? `<p class="gone">${e(say.paper.lost)}</p>`
      : `<img src="${url}" alt="${e(photoAlt(say, `${lead}${photo.taken}`, photo))}">`
  return `<figure>${image}<figcaption><strong>${e(lead + photo.taken)}</strong> ${e(photo.caption)}</figcaption></figure>`
}

const paragraphs = (texts: readonly string[]): string => texts.map((text) => `<p>${e(text)}</p>`).join('\n')
