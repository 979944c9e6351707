import { Buffer } from 'node:buffer'
import { crc32 } from 'node:zlib'
import sharp, { type Sharp } from 'sharp'

export interface TestPhoto {
  readonly width: number
  readonly height: number
  /** Any CSS colour. */
  readonly color: string
  /** What is written as DateTimeOriginal: usually 'YYYY:MM:DD HH:MM:SS', but a camera may leave anything. */
  readonly taken?: string
  /** What is written as OffsetTimeOriginal, such as '+01:00'. */
  readonly offset?: string
  readonly orientation?: number
  readonly format?: 'jpeg' | 'png' | 'webp'
}

/** A real photo file of one colour with some grain, so that two of the same colour and size have different bytes. */
export async function createTestPhoto(photo: TestPhoto): Promise<Buffer> {
  const { width, height, color } = photo
  const grain = { type: 'gaussian', mean: 128, sigma: 12 } as const
  const noise = await sharp({ create: { width, height, channels: 3, background: '#000', noise: grain } })
    .png()
    .toBuffer()
  const image = sharp({ create: { width, height, channels: 3, background: color } })
  return finish(image.composite([{ input: noise, blend: 'soft-light' }]), photo)
}

/**
 * A photo, upright 60 x 40 px when shown, with a red, a green, a blue and a white quarter from top left to bottom right,
 * whose stored pixels lie as the orientation says. The table is that of EXIF 2.32, tag 0x0112: where the first stored
 * row and the first stored column are when the photo is shown.
 */
export function createQuarteredPhoto(
  orientation: 1 | 2 | 3 | 4 | 5 | 6 | 7 | 8,
  format: 'jpeg' | 'png' | 'webp' = 'jpeg',
): Promise<Buffer> {
  const [firstRow, firstColumn] = EXIF_ORIENTATIONS[orientation]
  const isTurned = firstRow === 'left' || firstRow === 'right'
  const [storedWidth, storedHeight] = isTurned ? [40, 60] : [60, 40]
  const data = Buffer.alloc(storedWidth * storedHeight * 3)
  for (let row = 0; row < storedHeight; row++)
    for (let column = 0; column < storedWidth; column++) {
      const across = isTurned ? row : column
      const down = isTurned ? column : row
      const isFromRight = firstRow === 'right' || firstColumn === 'right'
      const isFromBottom = firstRow === 'bottom' || firstColumn === 'bottom'
      const x = isFromRight ? 59 - across : across
      const y = isFromBottom ? 39 - down : down
      data.set(QUARTERS[(y < 20 ? 0 : 2) + (x < 30 ? 0 : 1)] ?? [], (row * storedWidth + column) * 3)
    }
  const image = sharp(data, { raw: { width: storedWidth, height: storedHeight, channels: 3 } })
  return finish(image, { orientation, format })
}

export const QUARTERS = [
  [200, 30, 30],
  [30, 160, 60],
  [40, 60, 190],
  [250, 250, 250],
] as const

const EXIF_ORIENTATIONS = {
  1: ['top', 'left'],
  2: ['top', 'right'],
  3: ['bottom', 'right'],
  4: ['bottom', 'left'],
  5: ['left', 'top'],
  6: ['right', 'top'],
  7: ['right', 'bottom'],
  8: ['left', 'bottom'],
} as const

/** A PNG that says it is this large and holds nothing else: what an attack by pixel count looks like. */
export function createPngHeader(width: number, height: number): Buffer {
  const header = Buffer.alloc(13)
  header.writeUInt32BE(width, 0)
  header.writeUInt32BE(height, 4)
  header.set([8, 2, 0, 0, 0], 8)
  const signature = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a])
  return Buffer.concat([signature, pngChunk('IHDR', header), pngChunk('IDAT', Buffer.alloc(64))])
}

/** A whole small JPEG whose frame header is rewritten to say it is this large. */
export async function createJpegHeader(width: number, height: number): Promise<Buffer> {
  const jpeg = await createTestPhoto({ width: 16, height: 16, color: '#777' })
  const frame = jpeg.indexOf(Buffer.from([0xff, 0xc0]))
  if (frame < 0) throw new Error('No baseline frame header in the test photo.')
  jpeg.writeUInt16BE(height, frame + 5)
  jpeg.writeUInt16BE(width, frame + 7)
  return jpeg
}

function pngChunk(name: string, data: Buffer): Buffer {
  const body = Buffer.concat([Buffer.from(name, 'latin1'), data])
  const chunk = Buffer.alloc(body.length + 8)
  chunk.writeUInt32BE(data.length, 0)
  body.copy(chunk, 4)
  chunk.writeUInt32BE(crc32(body), body.length + 4)
  return chunk
}

function finish(
  image: Sharp,
  photo: Pick<TestPhoto, 'taken' | 'offset' | 'orientation' | 'format'>,
): Promise<Buffer> {
  const { taken, offset, orientation = 1, format = 'jpeg' } = photo
  const camera = {
    ...(taken === undefined ? {} : { DateTimeOriginal: taken }),
    ...(offset === undefined ? {} : { OffsetTimeOriginal: offset }),
  }
  const dated = image.withMetadata({ orientation, exif: { IFD2: camera } })
  switch (format) {
    case 'jpeg':
      return dated.jpeg({ quality: 92, chromaSubsampling: '4:4:4' }).toBuffer()
    case 'png':
      return dated.png().toBuffer()
    case 'webp':
      return dated.webp({ quality: 92 }).toBuffer()
  }
}
