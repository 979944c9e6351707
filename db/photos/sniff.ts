/** The kinds of photo that are taken. HEIC stands for HEIF files whose pictures are coded in HEVC. */
export type PhotoType = 'jpeg' | 'png' | 'webp' | 'heic'

export type Sniffed =
  | { readonly kind: 'photo'; readonly type: PhotoType }
  /** What it is instead, with its article, such as 'a GIF picture'. */
  | { readonly kind: 'other'; readonly looksLike: string }

/** How many bytes from the start `sniff` looks at; an SVG may begin with long comments. */
export const SNIFF_BYTES = 4096

/**
 * Tells the kind of a file by its first bytes alone: names and declared types are never asked.
 * It says what a file claims to be; whether it can be read is found by decoding it.
 *
 * @param head the first `SNIFF_BYTES` of the file, or all of a shorter one
 */
export function sniff(head: Uint8Array): Sniffed {
  if (startsWith(head, [0xff, 0xd8, 0xff])) return photo('jpeg')
  if (startsWith(head, [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a])) return photo('png')
  if (ascii(head, 0, 4) === 'RIFF' && ascii(head, 8, 12) === 'WEBP') return photo('webp')
  if (ascii(head, 4, 8) === 'ftyp') return sniffBrands(head)
  return other(nameOfOther(head))
}

/** Brands of HEIF with HEVC pictures, ISO/IEC 23008-12 annex B. */
const HEIC_BRANDS = new Set(['heic', 'heix', 'heim', 'heis', 'hevc', 'hevx', 'hevm', 'hevs'])

/**
 * ISO base media files name their major brand at byte 8 and the compatible ones from byte 16 (ISO/IEC 14496-12, ftyp).
 * The general brands 'mif1' and 'msf1' say nothing about the coding: a HEIC or AVIF brand beside them does.
 */
function sniffBrands(head: Uint8Array): Sniffed {
  const boxEnd = Math.min(readUint32(head, 0), head.length)
  const brands = [ascii(head, 8, 12)]
  for (let at = 16; at + 4 <= boxEnd; at += 4) brands.push(ascii(head, at, at + 4))
  if (brands.some((brand) => brand === 'avif' || brand === 'avis')) return other('an AVIF picture')
  if (brands.some((brand) => HEIC_BRANDS.has(brand))) return photo('heic')
  if (brands[0] === 'mif1' || brands[0] === 'msf1') return photo('heic')
  return other('a film or sound file')
}

const OTHER_SIGNATURES: readonly (readonly [string, readonly number[]])[] = [
  ['a GIF picture', [0x47, 0x49, 0x46, 0x38]],
  ['a TIFF or camera raw picture', [0x49, 0x49, 0x2a, 0x00]],
  ['a TIFF or camera raw picture', [0x4d, 0x4d, 0x00, 0x2a]],
  ['a BMP picture', [0x42, 0x4d]],
  ['a JPEG XL picture', [0xff, 0x0a]],
  ['a JPEG XL picture', [0x00, 0x00, 0x00, 0x0c, 0x4a, 0x58, 0x4c, 0x20]],
  ['a JPEG 2000 picture', [0x00, 0x00, 0x00, 0x0c, 0x6a, 0x50, 0x20, 0x20]],
  ['a PDF document', [0x25, 0x50, 0x44, 0x46]],
  ['an archive or office document', [0x50, 0x4b, 0x03, 0x04]],
  ['a program', [0x4d, 0x5a]],
  ['a program', [0x7f, 0x45, 0x4c, 0x46]],
]

function nameOfOther(head: Uint8Array): string {
  const known = OTHER_SIGNATURES.find(([, signature]) => startsWith(head, signature))
  if (known !== undefined) return known[0]
  if (!isText(head)) return 'a file of unknown kind'
  const text = new TextDecoder('utf-8').decode(head).toLowerCase()
  if (/<svg[\s>]/.test(text)) return 'an SVG drawing'
  return /^\s*<(!doctype html|html)/.test(text) ? 'a web page' : 'a text'
}

/** Text as people save it: UTF-8 or UTF-16 with its mark, no control characters but tab, line feeds and form feed. */
function isText(head: Uint8Array): boolean {
  if (startsWith(head, [0xff, 0xfe]) || startsWith(head, [0xfe, 0xff])) return true
  return head.length > 0 && head.every((byte) => byte >= 0x20 || (byte >= 0x09 && byte <= 0x0d))
}

function photo(type: PhotoType): Sniffed {
  return { kind: 'photo', type }
}

function other(looksLike: string): Sniffed {
  return { kind: 'other', looksLike }
}

function startsWith(head: Uint8Array, signature: readonly number[]): boolean {
  return signature.every((byte, index) => head[index] === byte)
}

function ascii(head: Uint8Array, start: number, end: number): string {
  return String.fromCharCode(...head.subarray(start, end))
}

function readUint32(head: Uint8Array, at: number): number {
  return head.length < at + 4 ? 0 : new DataView(head.buffer, head.byteOffset + at, 4).getUint32(0)
}
