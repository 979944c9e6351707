import type { OpenFont, PrintFonts } from './fonts.ts'

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
 * accents or becomes a question mark; pictures among the letters are left out. Words are measured once: a line is as wide
 * as its words and the spaces between them.
 */
export function createTypesetter(doc: PDFKit.PDFDocument, fonts: PrintFonts): Typesetter {
  const faces = { regular: register(doc, 'regular', fonts.regular), bold: register(doc, 'bold', fonts.bold) }
  const facesOf = (bold: boolean): Faces => (bold ? faces.bold : faces.regular)
  const letters = new Map<string, string>()
  const widths = new Map<string, number>()

  const printable = (text: string): string => {
    let clean = ''
    for (const letter of text.normalize('NFC')) {
      const known = letters.get(letter) ?? replaceUnknown(letter, faces.regular)
      letters.set(letter, known)
      clean += known
    }
    return clean
  }
  /** At 1 point. */
  const unitWidth = (text: string, bold: boolean): number => {
    const key = `${bold ? 'b' : 'r'}${text}`
    const known = widths.get(key)
    if (known !== undefined) return known
    const width = runsOf(text, facesOf(bold)).reduce(
      (sum, run) => sum + doc.font(run.font).fontSize(100).widthOfString(run.text) / 100,
      0,
    )
    widths.set(key, width)
    return width
  }

  return {
    widthOf: (text, { size, bold }) => unitWidth(printable(text), bold) * size,
    linesOf: (text, { size, bold }, width) =>
      breakLines(printable(text), width / size, (part) => unitWidth(part, bold)).map((line) => ({
        runs: runsOf(line.text, facesOf(bold)),
        width: line.width * size,
      })),
    write: ({ runs }, x, y, { size, colour }) => {
      let at = x
      for (const { font, text } of runs) {
        doc.font(font).fontSize(size).fillColor(colour)
        doc.text(text, at, y, { lineBreak: false, baseline: 'alphabetic' })
        if (runs.length > 1) at += doc.widthOfString(text)
      }
    },
  }
}

interface Face {
  readonly name: string
  readonly has: (letter: string) => boolean
}

type Faces = readonly [Face, ...Face[]]

function register(doc: PDFKit.PDFDocument, weight: string, fonts: readonly OpenFont[]): Faces {
  const faces = fonts.map((font, index): Face => {
    const name = `${weight}-${index}`
    doc.registerFont(name, font as unknown as string)
    return { name, has: (letter) => font.hasGlyphForCodePoint(letter.codePointAt(0) ?? 0) }
  })
  const [first, ...rest] = faces
  if (first === undefined) throw new Error('no font was given')
  return [first, ...rest]
}

function runsOf(text: string, faces: Faces): readonly Run[] {
  const runs: { font: string; text: string }[] = []
  for (const letter of text) {
    const font = (faces.find((face) => face.has(letter)) ?? faces[0]).name
    const last = runs.at(-1)
    if (last?.font === font) last.text += letter
    else runs.push({ font, text: letter })
  }
  return runs
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

interface BrokenLine {
  readonly text: string
  readonly width: number
}

type Measure = (text: string) => number

/** Breaks at spaces, and inside a word only where it is wider than the line. */
function breakLines(text: string, width: number, measure: Measure): readonly BrokenLine[] {
  const lines: { text: string; width: number }[] = []
  const space = measure(' ')
  for (const word of wordsOf(text)) {
    const line = lines.at(-1)
    const own = measure(word)
    if (line !== undefined && line.width + space + own <= width) {
      line.text += ` ${word}`
      line.width += space + own
    } else if (own <= width) lines.push({ text: word, width: own })
    else lines.push(...breakWord(word, width, measure))
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

function breakWord(word: string, width: number, measure: Measure): readonly BrokenLine[] {
  const pieces = [{ text: '', width: 0 }]
  for (const letter of word) {
    const own = measure(letter)
    const piece = pieces.at(-1)
    if (piece !== undefined && (piece.text === '' || piece.width + own <= width)) {
      piece.text += letter
      piece.width += own
    } else pieces.push({ text: letter, width: own })
  }
  return pieces
}
