import type { PrintFonts } from './fonts.ts'

export interface TextStyle {
  /** Points. */
  readonly size: number
  readonly bold: boolean
  /** '#rrggbb' */
  readonly colour: string
  /** Points from baseline to baseline. */
  readonly leading: number
}

export interface Line {
  readonly runs: readonly Run[]
  readonly width: number
}

/** Letters of one font. */
interface Run {
  readonly font: string
  readonly text: string
}

export interface Typesetter {
  readonly linesOf: (text: string, style: TextStyle, width: number) => readonly Line[]
  readonly widthOf: (text: string, style: Pick<TextStyle, 'size' | 'bold'>) => number
  /** Writes one line; `y` is its baseline. */
  readonly write: (line: Line, x: number, y: number, style: TextStyle) => void
}

/**
 * Breaks text into lines and writes it, letter by letter from the font that has it. A letter that no font has loses its
 * accents or becomes a question mark; pictures among the letters are left out.
 */
export function createTypesetter(doc: PDFKit.PDFDocument, fonts: PrintFonts): Typesetter {
  const faces = { regular: register(doc, 'regular', fonts.regular), bold: register(doc, 'bold', fonts.bold) }
  const known = new Map<string, string>()

  const runsOf = (text: string, bold: boolean): readonly Run[] => {
    const runs: { font: string; text: string }[] = []
    for (const letter of printable(text, faces.regular)) {
      const font = fontFor(letter, bold ? faces.bold : faces.regular)
      const last = runs.at(-1)
      if (last?.font === font) last.text += letter
      else runs.push({ font, text: letter })
    }
    return runs
  }
  const printable = (text: string, among: readonly Face[]): string => {
    let clean = ''
    for (const letter of text.normalize('NFC')) {
      const done = known.get(letter) ?? replaceUnknown(letter, among)
      known.set(letter, done)
      clean += done
    }
    return clean
  }
  const measure = (runs: readonly Run[], size: number): number =>
    runs.reduce((sum, { font, text }) => sum + doc.font(font).fontSize(size).widthOfString(text), 0)
  const lineOf = (text: string, { size, bold }: Pick<TextStyle, 'size' | 'bold'>): Line => {
    const runs = runsOf(text, bold)
    return { runs, width: measure(runs, size) }
  }

  return {
    widthOf: (text, style) => lineOf(text, style).width,
    linesOf: (text, style, width) =>
      breakLines(text, (part) => lineOf(part, style).width <= width).map((part) => lineOf(part, style)),
    write: ({ runs }, x, y, { size, colour }) => {
      let at = x
      for (const { font, text } of runs) {
        doc.font(font).fontSize(size).fillColor(colour)
        doc.text(text, at, y, { lineBreak: false, baseline: 'alphabetic' })
        at += doc.widthOfString(text)
      }
    },
  }
}

interface Face {
  readonly name: string
  readonly has: (letter: string) => boolean
}

/** Fonts are asked through pdfkit's own reading of them: it has no public way to ask for a letter. */
interface OpenedFont {
  readonly _font: { readonly font: { hasGlyphForCodePoint(codePoint: number): boolean } }
}

function register(
  doc: PDFKit.PDFDocument,
  weight: string,
  files: readonly Buffer[],
): readonly [Face, ...Face[]] {
  const faces = files.map((file, index): Face => {
    const name = `${weight}-${index}`
    doc.registerFont(name, file)
    doc.font(name)
    const { font } = (doc as unknown as OpenedFont)._font
    return { name, has: (letter) => font.hasGlyphForCodePoint(letter.codePointAt(0) ?? 0) }
  })
  const [first, ...rest] = faces
  if (first === undefined) throw new Error('no font was given')
  return [first, ...rest]
}

function fontFor(letter: string, faces: readonly [Face, ...Face[]]): string {
  return (faces.find((face) => face.has(letter)) ?? faces[0]).name
}

function replaceUnknown(letter: string, faces: readonly Face[]): string {
  const has = (each: string) => faces.some((face) => face.has(each))
  if (has(letter)) return letter
  const stand = STAND_INS.get(letter) ?? letter.normalize('NFKD').replaceAll(/\p{M}/gu, '')
  if (stand !== '' && Array.from(stand).every(has)) return stand
  return /\p{L}|\p{N}/u.test(letter) ? '?' : ''
}

const STAND_INS: ReadonlyMap<string, string> = new Map([
  ['\t', ' '],
  ['\n', ' '],
  ['\u00ad', ''],
  ['\u2212', '\u2013'],
  ['\u2192', '>'],
  ['\u2264', '<='],
  ['\u2265', '>='],
])

/** Breaks at spaces, and inside a word only where it is wider than the line. */
function breakLines(text: string, fits: (line: string) => boolean): readonly string[] {
  const lines: string[] = []
  for (const word of wordsOf(text)) {
    const line = lines.at(-1)
    if (line !== undefined && fits(`${line} ${word}`)) lines[lines.length - 1] = `${line} ${word}`
    else lines.push(...breakWord(word, fits))
  }
  return lines
}

/** A figure and its unit are one word: '4 mm' is never torn apart. */
function wordsOf(text: string): readonly string[] {
  const words: string[] = []
  for (const word of text.split(/\s+/).filter((each) => each !== '')) {
    const last = words.at(-1)
    if (last !== undefined && /^[\d.,]+$/.test(last) && /^(h|mm|%|°C)(?!\p{L})/u.test(word))
      words[words.length - 1] = `${last} ${word}`
    else words.push(word)
  }
  return words
}

function breakWord(word: string, fits: (line: string) => boolean): readonly string[] {
  if (fits(word)) return [word]
  const pieces: string[] = []
  let piece = ''
  for (const letter of word) {
    if (piece !== '' && !fits(piece + letter)) {
      pieces.push(piece)
      piece = ''
    }
    piece += letter
  }
  return [...pieces, piece]
}
