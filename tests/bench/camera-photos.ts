import { randomBytes } from 'node:crypto'
import sharp from 'sharp'

/** Of a camera of 24 megapixels. */
const PHOTO = { width: 6_000, height: 4_000 }
export const MEGAPIXELS = (PHOTO.width * PHOTO.height) / 1e6

/** How much a photo weighs: finer and stronger grain makes it heavier. */
export interface Grain {
  /** The grain is drawn in this share of each side, then stretched. */
  readonly share: number
  /** Standard deviation of the grain, of 255. */
  readonly sigma: number
  /** Of the JPEG, 1 to 100. */
  readonly quality: number
}

/** A picture with shades and grain as a camera's, as a JPEG; each hue (degrees) is another picture. */
export async function drawPicture(hue: number, { share, sigma, quality }: Grain): Promise<Buffer> {
  const drawn = { width: PHOTO.width * share, height: PHOTO.height * share }
  const noise = { type: 'gaussian', mean: 128, sigma } as const
  const grain = await sharp({ create: { ...drawn, channels: 3, background: '#000', noise } })
    .png()
    .toBuffer()
  const shades = Buffer.from(
    `<svg width="${drawn.width}" height="${drawn.height}"><linearGradient id="g" x2="1" y2="1"><stop stop-color="hsl(${hue},40%,30%)"/><stop offset="1" stop-color="hsl(${hue + 40},50%,70%)"/></linearGradient><rect width="100%" height="100%" fill="url(#g)"/></svg>`,
  )
  const picture = await sharp(shades)
    .composite([{ input: grain, blend: 'soft-light' }])
    .png()
    .toBuffer()
  return sharp(picture).resize(PHOTO.width, PHOTO.height).jpeg({ quality }).toBuffer()
}

/** After the first marker of a JPEG comes a comment segment (ISO/IEC 10918-1, marker COM, 0xfffe): no two files are the same photo. */
export function withComment(jpeg: Buffer): Uint8Array<ArrayBuffer> {
  const comment = Buffer.concat([Buffer.from([0xff, 0xfe, 0, 18]), randomBytes(16)])
  return new Uint8Array(Buffer.concat([jpeg.subarray(0, 2), comment, jpeg.subarray(2)]))
}
