/**
 * The twelve hatchings that tell cars apart on the plan. Each is one tile, repeated in both directions, so that the screen
 * (an SVG pattern) and the paper (a clipped run of tiles) draw the same. In section drawings hatching is cut metal; every
 * legend says which of the two is meant.
 */
export interface Hatch {
  /** As a legend names it: 'slanting lines'. */
  readonly words: string
  /** Side lengths of the tile, in units of the drawing. */
  readonly width: number
  readonly height: number
  /** Path data that is stroked; lines run past the edges of the tile so that tiles join without gaps. */
  readonly lines: string
  /** Path data that is filled. */
  readonly dots: string
}

const DOT = 'a1 1 0 1 0 2 0a1 1 0 1 0 -2 0Z'

export const HATCHES: readonly Hatch[] = [
  { words: 'plain', width: 8, height: 8, lines: '', dots: '' },
  { words: 'lines rising', width: 8, height: 8, lines: 'M-1 1L1 -1M-1 9L9 -1M7 9L9 7', dots: '' },
  { words: 'dots', width: 8, height: 8, lines: '', dots: `M1 2${DOT}M5 6${DOT}` },
  { words: 'upright lines', width: 6, height: 6, lines: 'M3 -1V7', dots: '' },
  { words: 'waves', width: 12, height: 7, lines: 'M-3 3.5Q0 0.5 3 3.5T9 3.5T15 3.5', dots: '' },
  { words: 'lines falling', width: 8, height: 8, lines: 'M-1 7L1 9M-1 -1L9 9M7 -1L9 1', dots: '' },
  { words: 'level lines', width: 6, height: 6, lines: 'M-1 3H7', dots: '' },
  { words: 'lattice', width: 9, height: 9, lines: 'M-1 -1L10 10M-1 10L10 -1', dots: '' },
  { words: 'bricks', width: 14, height: 10, lines: 'M-1 0H15M-1 5H15M3.5 0V5M10.5 5V10', dots: '' },
  { words: 'small crosses', width: 10, height: 10, lines: 'M5 2.5V7.5M2.5 5H7.5', dots: '' },
  { words: 'zigzag', width: 8, height: 9, lines: 'M-2 4.5L0 6.5L4 2.5L8 6.5L10 4.5', dots: '' },
  { words: 'squares', width: 8, height: 8, lines: 'M-1 4H9M4 -1V9', dots: '' },
]

/** The hatching of a car's number; numbers past the twelve begin again. */
export function hatchOf(number: number): Hatch {
  const hatch = HATCHES[((Math.trunc(number) % HATCHES.length) + HATCHES.length) % HATCHES.length]
  if (hatch === undefined) throw new RangeError(`There is no hatching ${number}.`)
  return hatch
}
