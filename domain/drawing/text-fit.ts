/**
 * Width of a line in the program's typeface, estimated from classes of letters: a drawing is laid out where no font can
 * be asked. Within about 6 % of the real width for ordinary words, and rather too wide than too narrow.
 */
export function textWidth(text: string, size: number, bold = false): number {
  return letterSum(text) * size * (bold ? 1.06 : 1)
}

function letterSum(text: string): number {
  let sum = 0
  for (const letter of text) sum += letterWidth(letter)
  return sum
}

/** Lines no wider than `width`; a word longer than that is broken, and what is beyond `most` lines ends in an ellipsis. */
export function wrapText(text: string, width: number, size: number, most: number): readonly string[] {
  const fits = (line: string): boolean => textWidth(line, size) <= width
  const lines: string[] = []
  for (const word of text.split(' ').flatMap((each) => breakWord(each, fits))) {
    const line = lines.at(-1)
    if (line !== undefined && fits(`${line} ${word}`)) lines[lines.length - 1] = `${line} ${word}`
    else lines.push(word)
  }
  if (lines.length <= most) return lines
  return [...lines.slice(0, most - 1), shorten(`${lines.slice(most - 1).join(' ')}`, width, size)]
}

/** The text, or as much of it as fits followed by an ellipsis. */
export function shorten(text: string, width: number, size: number, bold = false): string {
  if (textWidth(text, size, bold) <= width) return text
  const letters = lettersOf(text)
  const scale = size * (bold ? 1.06 : 1)
  let room = width - textWidth('…', size, bold) - textWidth(letters.join(''), size, bold)
  while (letters.length > 1 && room < 0) room += letterSum(letters.pop() ?? '') * scale
  return `${letters.join('').trimEnd()}…`
}

const segmenter = new Intl.Segmenter('en', { granularity: 'grapheme' })

/** As people count them: a letter with its accents, an emoji with its skin tone. */
const lettersOf = (text: string): string[] =>
  // Drawings shorten hundreds of names while one scrolls, and plain ones need no segmenter.
  PLAIN.test(text) ? text.split('') : Array.from(segmenter.segment(text), ({ segment }) => segment)

const PLAIN = /^[ -~]*$/

const NARROW = new Set("iljftrI.,;:'|!()[]/ ")
const WIDE = new Set('mwMW%@—…')

function letterWidth(letter: string): number {
  if (NARROW.has(letter)) return 0.31
  if (WIDE.has(letter)) return 0.86
  if (letter >= 'A' && letter <= 'Z') return 0.66
  return letter > '\u{2E80}' ? 1 : 0.56
}

function breakWord(word: string, fits: (line: string) => boolean): readonly string[] {
  if (fits(word) || word.length < 2) return [word]
  const letters = lettersOf(word)
  let count = 1
  while (count < letters.length - 1 && fits(letters.slice(0, count + 1).join(''))) count += 1
  return [letters.slice(0, count).join(''), ...breakWord(letters.slice(count).join(''), fits)]
}
