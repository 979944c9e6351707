import { sharp } from '../../db/photos/sharp.ts'
import type { PhotoMarks } from '../../domain/photo-marks/photo-marks.ts'
import { markedJpeg } from './mark-photo.ts'
import { CONTENT_WIDTH } from './paper.ts'

/** Box of one photo, in points. */
export interface PhotoBox {
  readonly width: number
  readonly height: number
}

/** Upper left of a photo on its page, in points. */
export interface Corner {
  readonly x: number
  readonly y: number
}

/** A photo ready to be placed; its sides are pixels. */
export interface PreparedPhoto {
  readonly jpeg: Buffer
  readonly width: number
  readonly height: number
}

/** Between the two columns that photos stand in, points. */
export const PHOTO_GAP = 14
/** Width of one of them. */
export const PHOTO_COLUMN = (CONTENT_WIDTH - PHOTO_GAP) / 2

export interface PhotoPrint {
  readonly box: PhotoBox
  readonly dotsPerInch: number
  /** How it is coded, by the names of sharp. */
  readonly jpeg: Parameters<typeof markedJpeg>[2]
}

/** Scales a photo to its box, never up, and draws its marks into this copy. Null for bytes that are no image. */
export async function preparePhoto(
  bytes: Buffer,
  marks: PhotoMarks,
  { box, dotsPerInch, jpeg }: PhotoPrint,
): Promise<PreparedPhoto | null> {
  const toPixels = (points: number) => Math.round((points * dotsPerInch) / 72)
  try {
    const photo = sharp(bytes, { failOn: 'error' }).resize(toPixels(box.width), toPixels(box.height), {
      fit: 'inside',
      withoutEnlargement: true,
    })
    return await markedJpeg(photo, marks, jpeg)
  } catch {
    // Its place on the paper says that the photo could not be read.
    return null
  }
}

/** As large as a photo is drawn in its box, blown up to it where it is smaller; a lost one takes the whole box. */
export function fitted(photo: PreparedPhoto | null, box: PhotoBox): PhotoBox {
  if (photo === null) return box
  const scale = Math.min(box.width / photo.width, box.height / photo.height)
  return { width: photo.width * scale, height: photo.height * scale }
}
