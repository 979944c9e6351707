import { sharp } from '../../db/photos/sharp.ts'
import { drawMarks, MARK_LINE } from '../../domain/photo-marks/draw-marks.ts'
import type { PhotoMarks } from '../../domain/photo-marks/photo-marks.ts'
import { paperTones } from './tones.ts'

type Image = ReturnType<typeof sharp>

interface PhotoPixels {
  readonly width: number
  readonly height: number
}

/** A photo in the size it is shown in, as JPEG, with its marks drawn into this copy. @throws Error for what is no image */
export async function markedJpeg(
  photo: Image,
  marks: PhotoMarks,
  jpeg: Parameters<Image['jpeg']>[0],
): Promise<PhotoPixels & { readonly jpeg: Buffer }> {
  const marked = marks.length === 0 ? photo : await withMarks(photo, marks)
  const { data, info } = await marked.jpeg(jpeg).toBuffer({ resolveWithObject: true })
  return { jpeg: data, width: info.width, height: info.height }
}

/** The marks are laid over finished pixels: laid over in the same run, they would be drawn before these are scaled. */
async function withMarks(photo: Image, marks: PhotoMarks): Promise<Image> {
  const { data, info } = await photo.raw().toBuffer({ resolveWithObject: true })
  const { width, height, channels } = info
  return sharp(data, { raw: { width, height, channels } }).composite([
    { input: Buffer.from(marksSvg(marks, { width, height })), left: 0, top: 0 },
  ])
}

function marksSvg(marks: PhotoMarks, { width, height }: PhotoPixels): string {
  const { shapes } = drawMarks(marks, { width, height, line: MARK_LINE.print })
  const paths = shapes.flatMap((shape) =>
    shape.kind === 'path' && shape.stroke !== null
      ? [`<path d="${shape.d}" stroke="${paperTones[shape.stroke]}" stroke-width="${shape.width}"/>`]
      : [],
  )
  return `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}" fill="none" stroke-linecap="round" stroke-linejoin="round">${paths.join('')}</svg>`
}
