import { sharp } from '../../db/photos/sharp.ts'

export interface Difference {
  /** Of all blocks, 0 to 1; all of them where the pictures have not the same size. */
  readonly share: number
  /** The blocks that differ, in CSS px of the screen. */
  readonly blocks: readonly { readonly left: number; readonly top: number }[]
}

/** Kept pictures are a quarter as wide and high as the screen: one still sees what they show, and all of them weigh 300 kB. */
const SHRUNK = 4
/** Side of a block, CSS px: a few letters of one line. */
const BLOCK_PX = 16
/**
 * By how much the mean of a block's red, green or blue may differ, of 255. Other versions of the browser draw the edges of letters
 * a little otherwise; letters that are gone change it by 20 to 60.
 */
const MOST_LEVELS = 12
/** So few blocks may differ, as a share of all: ten of a desktop's, three of a phone's. */
const MOST_SHARE = 0.002

export const isSame = ({ share }: Difference): boolean => share <= MOST_SHARE

/** The form in which a picture of a screen is kept. @param picture PNG as large as the screen */
export function keptForm(picture: Uint8Array): Promise<Buffer> {
  return shrunk(picture).then((small) => small.png({ palette: true, dither: 0, effort: 10 }).toBuffer())
}

/**
 * Where a picture looks otherwise than the kept one. Means of blocks are compared, so that what a machine does to single pixels
 * does not count and what a person would see does.
 */
export async function compareWithKept(picture: Uint8Array, kept: Uint8Array): Promise<Difference> {
  const [now, then] = [await blocksOf(await shrunk(picture)), await blocksOf(sharp(kept))]
  const isComparable = now.across === then.across && now.means.length === then.means.length
  const blocks = now.means
    .keys()
    .filter((index) => !isComparable || farApart(now.means[index], then.means[index]))
    .map((index) => ({
      left: (index % now.across) * BLOCK_PX,
      top: Math.floor(index / now.across) * BLOCK_PX,
    }))
    .toArray()
  return { share: blocks.length / now.means.length, blocks }
}

type Colour = readonly [red: number, green: number, blue: number]

interface Blocks {
  readonly across: number
  /** Row by row. */
  readonly means: readonly Colour[]
}

const farApart = (one: Colour = [0, 0, 0], other: Colour = [0, 0, 0]): boolean =>
  one.some((level, channel) => Math.abs(level - (other[channel] ?? 0)) > MOST_LEVELS)

async function shrunk(picture: Uint8Array): Promise<ReturnType<typeof sharp>> {
  const { width, height } = await sharp(picture).metadata()
  return sharp(picture).resize(Math.round(width / SHRUNK), Math.round(height / SHRUNK), { fit: 'fill' })
}

async function blocksOf(image: ReturnType<typeof sharp>): Promise<Blocks> {
  const { data, info } = await image.removeAlpha().raw().toBuffer({ resolveWithObject: true })
  const side = BLOCK_PX / SHRUNK
  const across = Math.ceil(info.width / side)
  const sums = Array.from({ length: across * Math.ceil(info.height / side) }, () => [0, 0, 0, 0])
  for (let pixel = 0; pixel < info.width * info.height; pixel++) {
    const column = Math.floor((pixel % info.width) / side)
    const row = Math.floor(pixel / info.width / side)
    const sum = sums[row * across + column] ?? []
    for (const channel of [0, 1, 2]) sum[channel] = (sum[channel] ?? 0) + (data[pixel * 3 + channel] ?? 0)
    sum[3] = (sum[3] ?? 0) + 1
  }
  const means = sums.map(([red = 0, green = 0, blue = 0, count = 1]): Colour => [
    red / count,
    green / count,
    blue / count,
  ])
  return { across, means }
}

/** The picture with a frame around each block that differs. */
export function marked(picture: Uint8Array, { blocks }: Difference): Promise<Buffer> {
  const frames = blocks.map(
    ({ left, top }) =>
      `<rect x="${left}" y="${top}" width="${BLOCK_PX}" height="${BLOCK_PX}" fill="none" stroke="#f0f"/>`,
  )
  return sharp(picture)
    .metadata()
    .then(({ width, height }) => `<svg width="${width}" height="${height}">${frames.join('')}</svg>`)
    .then((svg) =>
      sharp(picture)
        .composite([{ input: Buffer.from(svg) }])
        .png()
        .toBuffer(),
    )
}
