/*
 * The two containers that Windows and macOS take icons in. Both are a table and pictures; a package for it would bring
 * more than these lines. Sides are in pixels.
 */

/** A drawn icon: `pixels` are RGBA, four bytes each, rows from the top; `png` is the same picture. */
export interface DrawnIcon {
  readonly side: number
  readonly pixels: Buffer
  readonly png: Buffer
}

/** From this side on an entry of an `.ico` may be a PNG; older parts of Windows read smaller ones as bitmaps only. */
const ICO_PNG_FROM = 256

/**
 * An `.ico`: ICONDIR, ICONDIRENTRY for each picture, the pictures.
 *
 * @param icons sides up to 256, each once
 */
export function iconsToIco(icons: readonly DrawnIcon[]): Buffer {
  const pictures = icons.map((icon) => (icon.side >= ICO_PNG_FROM ? icon.png : bitmapOf(icon)))
  const head = Buffer.alloc(6 + 16 * icons.length)
  head.writeUInt16LE(1, 2)
  head.writeUInt16LE(icons.length, 4)
  let offset = head.length
  for (const [index, { side }] of icons.entries()) {
    const at = 6 + 16 * index
    // One byte a side: 256 is written as 0.
    head.writeUInt8(side % 256, at)
    head.writeUInt8(side % 256, at + 1)
    head.writeUInt16LE(1, at + 4)
    head.writeUInt16LE(32, at + 6)
    head.writeUInt32LE(pictures[index]?.length ?? 0, at + 8)
    head.writeUInt32LE(offset, at + 12)
    offset += pictures[index]?.length ?? 0
  }
  return Buffer.concat([head, ...pictures])
}

/** BITMAPINFOHEADER, BGRA rows from the bottom, then the mask of one bit a pixel that goes by the same alpha. */
function bitmapOf({ side, pixels }: DrawnIcon): Buffer {
  const head = Buffer.alloc(40)
  head.writeUInt32LE(40, 0)
  head.writeInt32LE(side, 4)
  // Twice the height: picture and mask.
  head.writeInt32LE(side * 2, 8)
  head.writeUInt16LE(1, 12)
  head.writeUInt16LE(32, 14)
  const colours = Buffer.alloc(side * side * 4)
  const maskRow = Math.ceil(side / 32) * 4
  const mask = Buffer.alloc(maskRow * side)
  for (let y = 0; y < side; y++)
    for (let x = 0; x < side; x++) {
      const from = (y * side + x) * 4
      const row = side - 1 - y
      const [red = 0, green = 0, blue = 0, alpha = 0] = pixels.subarray(from, from + 4)
      colours.set([blue, green, red, alpha], (row * side + x) * 4)
      const byte = row * maskRow + (x >> 3)
      if (alpha === 0) mask[byte] = (mask[byte] ?? 0) | (0x80 >> (x & 7))
    }
  return Buffer.concat([head, colours, mask])
}

/** Types of an `.icns` that hold a PNG, by the side of the picture; twice where it is also that of a finer screen. */
const ICNS_PNG: readonly (readonly [string, number])[] = [
  ['ic11', 32],
  ['ic12', 64],
  ['ic07', 128],
  ['ic13', 256],
  ['ic08', 256],
  ['ic14', 512],
  ['ic09', 512],
  ['ic10', 1024],
]
/** The two smallest sides as colours and mask of their own: as PNG macOS shows them wrongly. */
const ICNS_PLAIN: readonly (readonly [string, string, number])[] = [
  ['is32', 's8mk', 16],
  ['il32', 'l8mk', 32],
]

/**
 * An `.icns` with every side that macOS asks for.
 *
 * @throws Error when one of 16, 32, 64, 128, 256, 512 and 1024 is not among the icons
 */
export function iconsToIcns(icons: readonly DrawnIcon[]): Buffer {
  const ofSide = (side: number): DrawnIcon => {
    const icon = icons.find((each) => each.side === side)
    if (icon === undefined) throw new Error(`There is no icon of ${side} pixels.`)
    return icon
  }
  const plain = ICNS_PLAIN.flatMap(([colours, mask, side]) => [
    chunk(colours, Buffer.concat([0, 1, 2].map((channel) => unpacked(ofSide(side), channel)))),
    chunk(mask, channelOf(ofSide(side), 3)),
  ])
  const pictures = ICNS_PNG.map(([type, side]) => chunk(type, ofSide(side).png))
  return chunk('icns', Buffer.concat([...plain, ...pictures]))
}

/** Type, length with these eight bytes, content. */
function chunk(type: string, content: Buffer): Buffer {
  const head = Buffer.alloc(8)
  head.write(type, 'latin1')
  head.writeUInt32BE(8 + content.length, 4)
  return Buffer.concat([head, content])
}

function channelOf({ pixels }: DrawnIcon, channel: number): Buffer {
  return Buffer.from(pixels.filter((_value, index) => index % 4 === channel))
}

/** The run-length form that these types have, without a run: up to 128 bytes after a byte that counts them from 0. */
function unpacked(icon: DrawnIcon, channel: number): Buffer {
  const bytes = channelOf(icon, channel)
  const parts: Buffer[] = []
  for (let at = 0; at < bytes.length; at += 128) {
    const part = bytes.subarray(at, at + 128)
    parts.push(Buffer.from([part.length - 1]), part)
  }
  return Buffer.concat(parts)
}
