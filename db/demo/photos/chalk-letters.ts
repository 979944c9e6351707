import type { Random } from './random.ts'

/**
 * Capitals, figures and signs as strokes, so that captions look the same on every machine, fonts or none. Each stroke is a
 * list of points on a grid 4 wide and 8 high, written as two digits; strokes are parted by commas.
 */
const STROKES: Readonly<Record<string, string>> = {
  A: '08 20 48,15 35',
  B: '08 00 30 41 43 34 04,34 45 47 38 08',
  C: '41 30 10 01 07 18 38 47',
  D: '08 00 20 41 47 28 08',
  E: '40 00 08 48,04 34',
  F: '40 00 08,04 34',
  G: '41 30 10 01 07 18 38 47 44 24',
  H: '00 08,40 48,04 44',
  I: '20 28',
  J: '40 46 38 18 07',
  K: '00 08,40 04 48',
  L: '00 08 48',
  M: '08 00 24 40 48',
  N: '08 00 48 40',
  O: '10 01 07 18 38 47 41 30 10',
  P: '08 00 30 41 43 34 04',
  Q: '10 01 07 18 38 47 41 30 10,26 48',
  R: '08 00 30 41 43 34 04,24 48',
  S: '41 30 10 01 03 14 34 45 47 38 18 07',
  T: '00 40,20 28',
  U: '00 07 18 38 47 40',
  V: '00 28 40',
  W: '00 18 23 38 40',
  X: '00 48,40 08',
  Y: '00 24 40,24 28',
  Z: '00 40 08 48',
  0: '10 01 07 18 38 47 41 30 10',
  1: '11 20 28',
  2: '01 10 30 41 43 08 48',
  3: '01 10 30 41 43 34 14,34 45 47 38 18 07',
  4: '38 30 05 45',
  5: '40 00 04 34 45 47 38 18 07',
  6: '40 20 03 07 18 38 47 45 34 14 05',
  7: '00 40 18',
  8: '14 03 01 10 30 41 43 34 14 05 07 18 38 47 45 34',
  9: '43 34 14 03 01 10 30 41 45 28',
  '-': '14 34',
  '–': '04 44',
  '.': '27 28',
  ',': '27 19',
  ':': '22 23,26 27',
  '/': '08 40',
  '(': '30 22 26 38',
  ')': '10 22 26 18',
  '+': '04 44,22 26',
  "'": '20 22',
  '?': '01 10 30 41 43 24 25,27 28',
  '!': '20 25,27 28',
  ' ': '',
}

/** What has no strokes is written as a small box. */
const UNKNOWN = '12 32 36 16 12'

/** Grid units from one letter to the next. */
const ADVANCE = 5.6

/** Width of a line of text, in px, at this letter height. */
export function textWidth(text: string, height: number): number {
  return (Math.max(0, Array.from(plainText(text)).length * ADVANCE - 1.6) * height) / 8
}

/** SVG path data for one line, written by a hand that is not quite steady; its top left corner is at x, y. */
export function textPath(text: string, x: number, y: number, height: number, random: Random): string {
  const scale = height / 8
  const shake = () => random.between(-0.22, 0.22)
  return Array.from(plainText(text))
    .map((letter, position) => {
      const lift = shake()
      const pointAt = (digits: string) => {
        const column = Number(digits[0]) + position * ADVANCE + shake() * 0.8
        const down = Number(digits[1]) + lift + shake() * 0.8
        return `${(x + column * scale).toFixed(1)} ${(y + down * scale).toFixed(1)}`
      }
      const strokes = (STROKES[letter] ?? UNKNOWN).split(',').filter((stroke) => stroke !== '')
      return strokes.map((stroke) => `M${stroke.split(' ').map(pointAt).join('L')}`).join('')
    })
    .join('')
}

/** Capitals without accents. */
function plainText(text: string): string {
  return text.normalize('NFD').replaceAll(/\p{M}/gu, '').toUpperCase()
}
