import type { BookPhoto } from '../../domain/report/car-book-shapes.ts'
import { marksWords } from '../../domain/photo-marks/marks-words.ts'
import type { BookContext, LoadBookPhoto } from './book-context.ts'
import { artifact, element, needRoom, PAGE, type Paper, part, type Struct, writeLines } from './paper.ts'
import {
  type Corner,
  fitted,
  PHOTO_COLUMN,
  PHOTO_GAP,
  type PhotoBox,
  type PreparedPhoto,
  preparePhoto,
} from './photo-box.ts'
import type { LoadPhoto } from './print-photos.ts'
import { captionLeadStyle, captionStyle } from './print-styles.ts'
import { RULE } from './tones.ts'

/** A photo of 4 to 3 fills its column; an upright one is as high. */
const BOX: PhotoBox = { width: PHOTO_COLUMN, height: PHOTO_COLUMN * 0.75 }
const CAPTION_GAP = 3
const ROW_GAP = 9
/** Enough for print: at 180 dots per inch an eye at reading distance sees no more. Common practice, no source. */
const DOTS_PER_INCH = 180

/** Room that the first row of photos may need: a heading goes with it. */
export const PHOTO_ROW_ROOM = BOX.height + CAPTION_GAP + 4 * captionStyle.leading

/** Scales what `load` gives to the box at 180 dpi. */
export function bookPhotoLoader(load: LoadPhoto): LoadBookPhoto {
  return async ({ sha256, marks }, box) => {
    const bytes = await load(sha256)
    return bytes && preparePhoto(bytes, marks, { box, dotsPerInch: DOTS_PER_INCH, jpeg: { quality: 80 } })
  }
}

interface Cell {
  readonly photo: BookPhoto
  readonly prepared: PreparedPhoto | null
}

/** Two to a row, each with its number, its time and its caption; a row is read, drawn and let go before the next. */
export async function writeBookPhotos(
  context: BookContext,
  parent: Struct,
  photos: readonly BookPhoto[],
): Promise<void> {
  for (let index = 0; index < photos.length; index += 2) {
    const cells: Cell[] = []
    for (const photo of photos.slice(index, index + 2))
      cells.push({ photo, prepared: await context.photos(photo, BOX) })
    writeRow(context.paper, parent, cells)
    for (const _ of cells) context.wrotePhoto()
    await context.keepUp()
  }
}

function writeRow(paper: Paper, parent: Struct, cells: readonly Cell[]): void {
  const photoHeight = Math.max(...cells.map(({ prepared }) => fitted(prepared, BOX).height))
  const captions = Math.max(...cells.map(({ photo }) => captionHeight(paper, photo)))
  needRoom(paper, photoHeight + CAPTION_GAP + captions)
  const top = paper.y
  cells.forEach((cell, column) => {
    const x = PAGE.left + column * (PHOTO_COLUMN + PHOTO_GAP)
    writePhoto(paper, parent, cell, { x, y: top }, fitted(cell.prepared, BOX))
    paper.y = top + photoHeight + CAPTION_GAP
    writeCaption(paper, parent, cell.photo, x)
  })
  paper.y = top + photoHeight + CAPTION_GAP + captions + ROW_GAP
}

function writePhoto(
  paper: Paper,
  parent: Struct,
  { photo, prepared }: Cell,
  { x, y }: Corner,
  { width, height }: PhotoBox,
): void {
  const more = prepared === null ? 'the file could not be read' : marksWords(photo.marks)
  const alt = `Photo ${photo.number}: ${photo.caption}${more === '' ? '' : ` (${more})`}`
  element(paper, parent, 'Figure', { alt, bbox: [x, y, x + width, y + height] }, () =>
    prepared === null
      ? writeLost(paper, { x, y }, { width, height })
      : void paper.doc.image(prepared.jpeg, x, y, { width, height }),
  )
  artifact(paper, () => void paper.doc.rect(x, y, width, height).lineWidth(0.5).strokeColor(RULE).stroke())
}

function writeLost(paper: Paper, { x, y }: Corner, { width, height }: PhotoBox): void {
  paper.y = y + height / 2 - captionStyle.leading
  const lines = paper.type.linesOf('The file of this photo could not be read.', captionStyle, width - 20)
  writeLines(paper, lines, x + 10, captionStyle)
}

/** 'Photo 12, taken Tue 24 Nov 2026, 10:40' */
const leadOf = ({ number, taken }: BookPhoto): string => `Photo ${number}, ${taken}`

/** A caption of many lines is cut on no page: it may fill the rest of it. */
function writeCaption(paper: Paper, parent: Struct, photo: BookPhoto, x: number): void {
  part(paper, parent, 'Caption', (caption) => {
    caption.add(() => {
      writeLines(
        paper,
        paper.type.linesOf(leadOf(photo), captionLeadStyle, PHOTO_COLUMN),
        x,
        captionLeadStyle,
      )
      writeLines(paper, paper.type.linesOf(photo.caption, captionStyle, PHOTO_COLUMN), x, captionStyle)
    })
  })
}

function captionHeight({ type }: Paper, photo: BookPhoto): number {
  const lead = type.linesOf(leadOf(photo), captionLeadStyle, PHOTO_COLUMN).length
  return (lead + type.linesOf(photo.caption, captionStyle, PHOTO_COLUMN).length) * captionStyle.leading
}

/** A photo with its caption, read but not drawn yet. */
export interface ReadPhoto extends Cell {
  readonly height: number
}

/** Reads a photo that is drawn by {@link writeAtRight}. */
export async function readBookPhoto({ paper, photos }: BookContext, photo: BookPhoto): Promise<ReadPhoto> {
  const prepared = await photos(photo, BOX)
  const height = fitted(prepared, BOX).height + CAPTION_GAP + captionHeight(paper, photo)
  return { photo, prepared, height }
}

/** In the right one of the two columns. */
export function writeAtRight({ paper, wrotePhoto }: BookContext, parent: Struct, cell: ReadPhoto): void {
  const x = PAGE.left + PHOTO_COLUMN + PHOTO_GAP
  const size = fitted(cell.prepared, BOX)
  const top = paper.y
  writePhoto(paper, parent, cell, { x, y: top }, size)
  paper.y = top + size.height + CAPTION_GAP
  writeCaption(paper, parent, cell.photo, x)
  wrotePhoto()
}

/** One photo by itself over the width of the text, without a caption; for the title page. @returns its height */
export async function writePicture(
  { paper, photos }: BookContext,
  parent: Struct,
  photo: BookPhoto,
  box: PhotoBox,
): Promise<number> {
  const prepared = await photos(photo, box)
  if (prepared === null) return 0
  const size = fitted(prepared, box)
  writePhoto(paper, parent, { photo, prepared }, { x: PAGE.left, y: paper.y }, size)
  return size.height
}
