import { inflateSync } from 'node:zlib'

/**
 * The text of a PDF as our own printer writes it: uncompressed objects, Flate streams, fonts with a ToUnicode table
 * (ISO 32000-1, 9.10.3), glyphs shown by Tj and TJ. Lines are parted by line breaks.
 */
export function textOfPdf(bytes: Uint8Array): string {
  const objects = readObjects(Buffer.from(bytes).toString('latin1'))
  const pages = [...objects.values()].filter((body) => /\/Type\s*\/Page\b/.test(body))
  if (pages.length === 0) throw new Error('This PDF has no page.')
  return pages.map((page) => pageText(page, objects)).join('\n')
}

type Objects = ReadonlyMap<string, string>

function readObjects(text: string): Objects {
  const found = text.matchAll(/(?:^|\n)(\d+) 0 obj\b([\s\S]*?)\nendobj/g)
  return new Map([...found].map(([, number = '', body = '']) => [number, body]))
}

function pageText(page: string, objects: Objects): string {
  const fonts = readFonts(dictionaryIn(page, 'Resources', objects), objects)
  const contents = /\/Contents\s+(\d+) 0 R/.exec(page)?.[1] ?? ''
  return shownText(streamOf(objects.get(contents) ?? ''), fonts)
}

/** Glyph codes to letters, by the name a font has on its page. */
function readFonts(resources: string, objects: Objects): ReadonlyMap<string, ReadonlyMap<string, string>> {
  const named = dictionaryIn(resources, 'Font', objects).matchAll(/\/(\w+)\s+(\d+) 0 R/g)
  return new Map(
    [...named].map(([, name = '', number = '']) => {
      const table = /\/ToUnicode\s+(\d+) 0 R/.exec(objects.get(number) ?? '')?.[1] ?? ''
      return [name, readToUnicode(streamOf(objects.get(table) ?? ''))]
    }),
  )
}

/** The dictionary under a key, written in place or as an object of its own. */
function dictionaryIn(body: string, key: string, objects: Objects): string {
  const apart = new RegExp(`/${key}\\s+(\\d+) 0 R`).exec(body)?.[1]
  if (apart !== undefined) return objects.get(apart) ?? ''
  return new RegExp(`/${key}\\s*<<([\\s\\S]*?)>>`).exec(body)?.[1] ?? ''
}

function streamOf(body: string): string {
  const start = /stream\r?\n/.exec(body)
  if (start === null) return ''
  const raw = body.slice(start.index + start[0].length, body.lastIndexOf('endstream'))
  const isDeflated = body.slice(0, start.index).includes('FlateDecode')
  return isDeflated ? inflateSync(Buffer.from(raw, 'latin1')).toString('latin1') : raw
}

function readToUnicode(table: string): ReadonlyMap<string, string> {
  const letters = new Map<string, string>()
  for (const [, from = '', to = '', list] of table.matchAll(
    /<([0-9a-f]+)>\s*<([0-9a-f]+)>\s*(?:\[([^\]]*)\]|<[0-9a-f]+>)/gi,
  )) {
    const first = Number.parseInt(from, 16)
    const units = [...(list ?? '').matchAll(/<([0-9a-f\s]+)>/gi)].map(([, unit = '']) => unit)
    for (const [offset, unit] of units.entries())
      if (first + offset <= Number.parseInt(to, 16))
        letters.set((first + offset).toString(16).padStart(4, '0'), fromUtf16(unit))
  }
  return letters
}

/** A ligature is several letters: '0066 0069' is 'fi'. */
function fromUtf16(hex: string): string {
  return Buffer.from(hex.replaceAll(/\s/g, ''), 'hex').swap16().toString('utf16le')
}

function shownText(content: string, fonts: ReadonlyMap<string, ReadonlyMap<string, string>>): string {
  let letters: ReadonlyMap<string, string> = new Map()
  const lines: string[] = []
  for (const [, font, shown] of content.matchAll(
    /\/(\w+)\s+[\d.]+\s+Tf|(\[[^\]]*\]\s*TJ|<[0-9a-f]*>\s*Tj)/gi,
  )) {
    if (font !== undefined) letters = fonts.get(font) ?? letters
    else if (shown !== undefined) lines.push(decode(shown, letters))
  }
  return lines.join('\n')
}

function decode(shown: string, letters: ReadonlyMap<string, string>): string {
  const glyphs = [...shown.matchAll(/<([0-9a-f]*)>/gi)].flatMap(([, hex = '']) => hex.match(/.{4}/g) ?? [])
  return glyphs.map((glyph) => letters.get(glyph.toLowerCase()) ?? '�').join('')
}
