import { sharp } from '../../db/photos/sharp.ts'
import type { BookPhoto } from '../../domain/report/car-book-shapes.ts'
import { marksWords } from '../../domain/photo-marks/marks-words.ts'
import type { PhotoMarks } from '../../domain/photo-marks/photo-marks.ts'
import type { BookContext, LoadBookPhoto } from './book-context.ts'
import { markedJpeg } from './mark-photo.ts'
import {
  artifact,
  CONTENT_WIDTH,
  element,
  needRoom,
  PAGE,
  type Paper,
  part,
  type Struct,
  writeLines,
} from './paper.ts'
import type { LoadPhoto, PhotoBox, PreparedPhoto } from './print-photos.ts'
import { captionLeadStyle, captionStyle } from './print-styles.ts'
import { RULE } from './tones.ts'

const GAP = 14
/** Width of one of the two columns that photos stand in. */
export const COLUMN = (CONTENT_WIDTH - GAP) / 2
/** A photo of 4 to 3 fills its column; an upright one is as high. */
const BOX: PhotoBox = { width: COLUMN, height: COLUMN * 0.75 }
const CAPTION_GAP = 3
const ROW_GAP = 9
/** Enough for print: at 180 dots per inch an eye at reading distance sees no more. Common practice, no source. */
const DOTS_PER_POINT = 180 / 72

/** Room that the first row of photos may need: a heading goes with it. */
export const PHOTO_ROW_ROOM = BOX.height + CAPTION_GAP + 4 * captionStyle.leading

/** Scales what `load` gives to the box at 180 dpi. */
export function bookPhotoLoader(load: LoadPhoto): LoadBookPhoto {
  return async ({ sha256, marks }, box) => {
    const bytes = await load(sha256)
    return bytes === null ? null : scale(bytes, marks, box)
  }
}

/** Null for bytes that are no image. */
async function scale(
  bytes: Buffer,
  marks: PhotoMarks,
  { width, height }: PhotoBox,
): Promise<PreparedPhoto | null> {
  try {
    const photo = sharp(bytes, { failOn: 'error' }).resize(
      Math.round(width * DOTS_PER_POINT),
      Math.round(height * DOTS_PER_POINT),
      { fit: 'inside', withoutEnlargement: true },
    )
    return await markedJpeg(photo, marks, { quality: 80 })
  } catch {
    // Its place in the book says that the photo could not be read.
    return null
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
  const photoHeight = Math.max(...cells.map(({ prepared }) => fitted(prepared).height))
  const captions = Math.max(...cells.map(({ photo }) => captionHeight(paper, photo)))
  needRoom(paper, photoHeight + CAPTION_GAP + captions)
  const top = paper.y
  cells.forEach((cell, column) => {
    const x = PAGE.left + column * (COLUMN + GAP)
    writePhoto(paper, parent, cell, { x, y: top }, fitted(cell.prepared))
    paper.y = top + photoHeight + CAPTION_GAP
    writeCaption(paper, parent, cell.photo, x)
  })
  paper.y = top + photoHeight + CAPTION_GAP + captions + ROW_GAP
}

/** As large as its box allows, never blown up beyond it; a lost one takes the whole box. */
function fitted(photo: PreparedPhoto | null, box: PhotoBox = BOX): PhotoBox {
  if (photo === null) return box
  const scaled = Math.min(box.width / photo.width, box.height / photo.height)
  return { width: photo.width * scaled, height: photo.height * scaled }
}

interface Corner {
  readonly x: number
  readonly y: number
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
      writeLines(paper, paper.type.linesOf(leadOf(photo), captionLeadStyle, COLUMN), x, captionLeadStyle)
      writeLines(paper, paper.type.linesOf(photo.caption, captionStyle, COLUMN), x, captionStyle)
    })
  })
}

function captionHeight({ type }: Paper, photo: BookPhoto): number {
  const lead = type.linesOf(leadOf(photo), captionLeadStyle, COLUMN).length
  return (lead + type.linesOf(photo.caption, captionStyle, COLUMN).length) * captionStyle.leading
}

/** A photo with its caption, read but not drawn yet. */
export interface ReadPhoto extends Cell {
  readonly height: number
}

export async function readBookPhoto({ paper, photos }: BookContext, photo: BookPhoto): Promise<ReadPhoto> {
  const prepared = await photos(photo, BOX)
  const height = fitted(prepared).height + CAPTION_GAP + captionHeight(paper, photo)
  return { photo, prepared, height }
}

/** In the right one of the two columns. */
export function writeAtRight({ paper, wrotePhoto }: BookContext, parent: Struct, cell: ReadPhoto): void {
  const x = PAGE.left + COLUMN + GAP
  const size = fitted(cell.prepared)
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
