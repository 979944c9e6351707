import type { OwnerLanguage } from '../../domain/language/owner-language.ts'
import type { PhotoPlate, ReportPhoto } from '../../domain/report/owner-week-shapes.ts'
import { countMarks } from '../../domain/photo-marks/photo-marks.ts'
import type { Crop } from '../../domain/report/report-choices.ts'
import {
  type Corner,
  fitted,
  PHOTO_COLUMN,
  PHOTO_GAP,
  type PhotoBox,
  type PhotoPrint,
  type PreparedPhoto,
  preparePhoto,
} from './photo-box.ts'
import { captionLeadStyle, captionStyle } from './print-styles.ts'
import { artifact, element, needRoom, PAGE, type Paper, type Struct, writeLines } from './paper.ts'
import { RULE } from './tones.ts'

/** By their SHA-256; null for one whose file is gone. */
export type PreparedPhotos = ReadonlyMap<string, PreparedPhoto | null>

/** A photo's JPEG, or that of a part of it, in report size; null when it cannot be read: its place on the paper then says so. */
export type LoadPhoto = (sha256: string, crop?: Crop | null) => Promise<Buffer | null>

/** Two photos side by side; a report that would take too many pages is laid out anew with lower boxes. */
export const photoBoxes: readonly [PhotoBox, ...PhotoBox[]] = [
  { width: PHOTO_COLUMN, height: 178 },
  { width: PHOTO_COLUMN, height: 150 },
  { width: PHOTO_COLUMN, height: 122 },
  { width: PHOTO_COLUMN, height: 98 },
]

/** One after the other: a batch of reports must not hold all its photos at once. @throws what `loadPhoto` throws */
export async function preparePhotos(
  photos: readonly ReportPhoto[],
  loadPhoto: LoadPhoto,
): Promise<PreparedPhotos> {
  const prepared = new Map<string, PreparedPhoto | null>()
  for (const { sha256, crop, marks } of photos) {
    const bytes = await loadPhoto(sha256, crop)
    prepared.set(sha256, bytes === null ? null : await preparePhoto(bytes, marks, AS_PRINTED))
  }
  return prepared
}

/**
 * At 200 dpi of the largest box: 12 photos stay well under 3 MB. Progressive, as mozjpeg's own coding saves a tenth of the
 * bytes at four times the work.
 */
const AS_PRINTED: PhotoPrint = {
  box: photoBoxes[0],
  dotsPerInch: 200,
  jpeg: { quality: 80, progressive: true },
}

/** Pairs in a row of their own, single photos two to a row, each with its caption below it. */
export function writePlates(context: PhotoContext, parent: Struct, plates: readonly PhotoPlate[]): void {
  const { paper } = context
  for (const row of rowsOf(context, plates)) {
    const height = rowHeight(context, row)
    needRoom(paper, height)
    const top = paper.y
    row.forEach((cell, column) => {
      writeCell(context, parent, cell, { x: PAGE.left + column * (PHOTO_COLUMN + PHOTO_GAP), y: top })
    })
    paper.y = top + height
  }
}

/** Room for the first row of plates; 0 without any. */
export function firstRowHeight(context: PhotoContext, plates: readonly PhotoPlate[]): number {
  const [row] = rowsOf(context, plates)
  return row === undefined ? 0 : rowHeight(context, row)
}

export interface PhotoContext {
  readonly paper: Paper
  readonly photos: PreparedPhotos
  readonly box: PhotoBox
  /** The language of the words around photos and drawings. */
  readonly say: OwnerLanguage
}

/** A single photo that stands beside its text, and what is left to stand below. */
export function splitBeside(plates: readonly PhotoPlate[]): {
  readonly beside: ReportPhoto | null
  readonly below: readonly PhotoPlate[]
} {
  const [first, ...rest] = plates
  return first?.kind === 'single' ? { beside: first.photo, below: rest } : { beside: null, below: plates }
}

/** Width of a photo beside a text, and of the gap between them. */
export const BESIDE = { width: 168, gap: 18 } as const
const BESIDE_BOX: PhotoBox = { width: BESIDE.width, height: 130 }

/** Room of a photo beside a text with its caption, points. */
export function besideHeight(context: PhotoContext, photo: ReportPhoto): number {
  return cellHeight({ ...context, box: BESIDE_BOX }, { photo, lead: '' })
}

/** With its right edge at `right`. */
export function writeBeside(
  context: PhotoContext,
  parent: Struct,
  photo: ReportPhoto,
  { right, y }: { readonly right: number; readonly y: number },
): void {
  const place = { x: right - BESIDE.width, y }
  writeCell({ ...context, box: BESIDE_BOX }, parent, { photo, lead: '' }, place)
}

interface Cell {
  readonly photo: ReportPhoto
  /** 'Before', 'After' or nothing. */
  readonly lead: string
}

const ROW_GAP = 8
const CAPTION_GAP = 3

function rowsOf({ say }: PhotoContext, plates: readonly PhotoPlate[]): readonly (readonly Cell[])[] {
  const pairs = plates.flatMap((plate) =>
    plate.kind === 'pair'
      ? [
          [
            { photo: plate.before, lead: say.paper.before },
            { photo: plate.after, lead: say.paper.after },
          ],
        ]
      : [],
  )
  const singles = plates.flatMap((plate) =>
    plate.kind === 'single' ? [{ photo: plate.photo, lead: '' }] : [],
  )
  const rest = singles.flatMap((_, index) => (index % 2 === 0 ? [singles.slice(index, index + 2)] : []))
  return [...pairs, ...rest]
}

function rowHeight(context: PhotoContext, row: readonly Cell[]): number {
  return Math.max(...row.map((cell) => cellHeight(context, cell))) + ROW_GAP
}

function writeCell(context: PhotoContext, parent: Struct, cell: Cell, { x, y }: Corner): void {
  const { paper, box, say } = context
  const photo = photoOf(context, cell)
  const { width, height } = fitted(photo, box)
  const alt = `${photoAlt(say, leadOf(cell), cell.photo)}${photo === null ? ` (${say.paper.unreadable})` : ''}`
  element(paper, parent, 'Figure', { alt, bbox: [x, y, x + width, y + height] }, () =>
    photo === null
      ? writeMissing(context, { x, y })
      : void paper.doc.image(photo.jpeg, x, y, { width, height }),
  )
  artifact(paper, () => void paper.doc.rect(x, y, width, height).lineWidth(0.5).strokeColor(RULE).stroke())
  paper.y = y + height + CAPTION_GAP
  writeCaption(paper, parent, cell, { x, width: box.width })
}

/** What a photo shows and what is drawn on it, for those who do not see it. */
export function photoAlt({ paper }: OwnerLanguage, lead: string, { caption, marks }: ReportPhoto): string {
  const words = paper.photo(lead, caption)
  return marks.length === 0 ? words : `${words} (${paper.marked(countMarks(marks))})`
}

const photoOf = ({ photos }: PhotoContext, { photo }: Cell): PreparedPhoto | null =>
  photos.get(photo.sha256) ?? null

/** A photo that is gone leaves its place and says so: a report never hides a gap in the record. */
function writeMissing({ paper, say, box: { width, height } }: PhotoContext, { x, y }: Corner): void {
  paper.y = y + height / 2 - captionStyle.leading
  const lines = paper.type.linesOf(say.paper.lost, captionStyle, width - 20)
  writeLines(paper, lines, x + 10, captionStyle)
}

function writeCaption(
  paper: Paper,
  parent: Struct,
  cell: Cell,
  { x, width }: { readonly x: number; readonly width: number },
): void {
  element(paper, parent, 'Caption', {}, () => {
    writeLines(paper, paper.type.linesOf(leadOf(cell), captionLeadStyle, width), x, captionLeadStyle)
    writeLines(paper, paper.type.linesOf(cell.photo.caption, captionStyle, width), x, captionStyle)
  })
}

/** 'Before, Thu 12 Nov' */
const leadOf = ({ lead, photo }: Cell): string => (lead === '' ? photo.taken : `${lead}, ${photo.taken}`)

function cellHeight(context: PhotoContext, cell: Cell): number {
  const { type } = context.paper
  const lead = type.linesOf(leadOf(cell), captionLeadStyle, context.box.width).length
  const words = type.linesOf(cell.photo.caption, captionStyle, context.box.width).length
  return (
    fitted(photoOf(context, cell), context.box).height + CAPTION_GAP + (lead + words) * captionStyle.leading
  )
}
