import { inflateSync } from 'node:zlib'

/**
 * Unpacks a WOFF 1.0 file into the TrueType or OpenType file it holds (W3C Recommendation "WOFF File Format 1.0", sections
 * 3 to 5). pdfkit's font reader takes WOFF as well, but unpacks it in JavaScript, again for every document: ten times the
 * rest of its work.
 *
 * @throws RangeError when the bytes are no such file
 */
export function woffToSfnt(woff: Buffer): Buffer {
  if (woff.toString('latin1', 0, 4) !== 'wOFF') throw new RangeError('This is no WOFF file.')
  const tables = tablesOf(woff)
  const directory = Buffer.alloc(HEADER_BYTES + tables.length * ENTRY_BYTES)
  writeHeader(directory, woff.readUInt32BE(4), tables.length)
  const parts = [directory]
  let offset = directory.length
  tables.forEach(({ tag, checksum, data }, index) => {
    const at = HEADER_BYTES + index * ENTRY_BYTES
    directory.writeUInt32BE(tag, at)
    directory.writeUInt32BE(checksum, at + 4)
    directory.writeUInt32BE(offset, at + 8)
    directory.writeUInt32BE(data.length, at + 12)
    // Every table begins at a multiple of four.
    const padded = Buffer.alloc(Math.ceil(data.length / 4) * 4)
    data.copy(padded)
    parts.push(padded)
    offset += padded.length
  })
  return Buffer.concat(parts)
}

const WOFF_HEADER_BYTES = 44
const WOFF_ENTRY_BYTES = 20
const HEADER_BYTES = 12
const ENTRY_BYTES = 16

interface Table {
  readonly tag: number
  readonly checksum: number
  readonly data: Buffer
}

/** A table that would not shrink is stored as it is. */
function tablesOf(woff: Buffer): readonly Table[] {
  return Array.from({ length: woff.readUInt16BE(12) }, (_, index) => {
    const at = WOFF_HEADER_BYTES + index * WOFF_ENTRY_BYTES
    const offset = woff.readUInt32BE(at + 4)
    const packedLength = woff.readUInt32BE(at + 8)
    const length = woff.readUInt32BE(at + 12)
    const packed = woff.subarray(offset, offset + packedLength)
    const data = packedLength < length ? inflateSync(packed, { maxOutputLength: length }) : packed
    return { tag: woff.readUInt32BE(at), checksum: woff.readUInt32BE(at + 16), data }
  })
}

/** The header helps readers to search the directory by halves. */
function writeHeader(header: Buffer, flavour: number, tableCount: number): void {
  const halvings = Math.floor(Math.log2(tableCount))
  const searchRange = 2 ** halvings * ENTRY_BYTES
  header.writeUInt32BE(flavour, 0)
  header.writeUInt16BE(tableCount, 4)
  header.writeUInt16BE(searchRange, 6)
  header.writeUInt16BE(halvings, 8)
  header.writeUInt16BE(tableCount * ENTRY_BYTES - searchRange, 10)
}
