import { describe, expect, test } from 'vitest'
import { drawMarks } from '../../../domain/photo-marks/draw-marks.ts'
import { markFromStroke, markInMiddle, movedBy, sizedBy } from '../../../domain/photo-marks/edit-marks.ts'
import { marksInCrop } from '../../../domain/photo-marks/marks-in-crop.ts'
import { marksWords } from '../../../domain/photo-marks/marks-words.ts'
import {
  MOST_LINE_POINTS,
  MOST_MARKS,
  type PhotoMark,
  photoMarksSchema,
} from '../../../domain/photo-marks/photo-marks.ts'

const at = (x: number, y: number) => ({ x, y })
const arrow = (from: ReturnType<typeof at>, to: ReturnType<typeof at>): PhotoMark => ({
  kind: 'arrow',
  from,
  to,
})
const circle = (from: ReturnType<typeof at>, to: ReturnType<typeof at>): PhotoMark => ({
  kind: 'circle',
  from,
  to,
})
const isGood = (marks: readonly PhotoMark[]) => photoMarksSchema.safeParse(marks).success

describe('marks on a photo', () => {
  test('lie inside it', () => {
    expect(isGood([arrow(at(0, 0), at(1, 1))])).toBe(true)
    expect(isGood([arrow(at(0, 0), at(1.001, 1))])).toBe(false)
    expect(isGood([circle(at(-0.001, 0), at(0.5, 0.5))])).toBe(false)
    expect(isGood([{ kind: 'line', points: [at(0, 0), at(0.5, Number.NaN)] }])).toBe(false)
  })

  test('are large enough to be seen: an arrow in one direction, a circle in both, a line anywhere', () => {
    expect(isGood([arrow(at(0.5, 0.5), at(0.5, 0.51))])).toBe(true)
    expect(isGood([arrow(at(0.5, 0.5), at(0.505, 0.505))])).toBe(false)
    expect(isGood([circle(at(0.2, 0.2), at(0.8, 0.205))])).toBe(false)
    // A line may end where it began.
    expect(isGood([{ kind: 'line', points: [at(0.2, 0.2), at(0.4, 0.2), at(0.2, 0.2)] }])).toBe(true)
  })

  test('are twenty at most', () => {
    const many = (count: number) => Array.from({ length: count }, () => circle(at(0.1, 0.1), at(0.2, 0.2)))
    expect(isGood(many(MOST_MARKS))).toBe(true)
    expect(isGood(many(MOST_MARKS + 1))).toBe(false)
  })

  test('are told to those who do not see them', () => {
    const round = circle(at(0.1, 0.1), at(0.2, 0.2))
    expect(marksWords([arrow(at(0, 0), at(1, 1)), round, round])).toBe('marked: 1 arrow and 2 circles')
    expect(marksWords([])).toBe('')
  })
})

describe('in a part of the photo', () => {
  // The right half, and of it the middle half of the height: x' = (x - 0.5) / 0.5, y' = (y - 0.25) / 0.5.
  const part = { left: 0.5, top: 0.25, width: 0.5, height: 0.5 }

  test('they stand where the same metal stands', () => {
    // By hand: (0.6, 0.5) -> (0.2, 0.5) and (0.9, 0.7) -> (0.8, 0.9).
    const [moved] = marksInCrop([arrow(at(0.6, 0.5), at(0.9, 0.7))], part)
    expect(moved).toMatchObject({ kind: 'arrow' })
    if (moved?.kind !== 'arrow') throw new Error('the arrow is gone')
    expect(moved.from.x).toBeCloseTo(0.2, 12)
    expect(moved.from.y).toBeCloseTo(0.5, 12)
    expect(moved.to.x).toBeCloseTo(0.8, 12)
    expect(moved.to.y).toBeCloseTo(0.9, 12)
  })

  test('one that the edge cuts keeps its shape and reaches beyond it', () => {
    // By hand: x 0.4 -> -0.2, 0.6 -> 0.2; y 0.3 -> 0.1, 0.5 -> 0.5.
    const [cut] = marksInCrop([circle(at(0.4, 0.3), at(0.6, 0.5))], part)
    expect(cut?.kind === 'circle' && cut.from.x).toBeCloseTo(-0.2, 12)
    expect(cut?.kind === 'circle' && cut.to.x).toBeCloseTo(0.2, 12)
  })

  test.each([
    ['an arrow beside it', arrow(at(0.1, 0.1), at(0.4, 0.9)), false],
    // Its box meets the part; the line itself passes the corner (0.5, 0.25): at x = 0.5 it is at y = 0.2.
    ['an arrow that passes its corner', arrow(at(0.4, 0.3), at(0.6, 0.1)), false],
    ['an arrow right across it', arrow(at(0.1, 0.5), at(0.99, 0.5)), true],
    ['an arrow above it, level', arrow(at(0.1, 0.2), at(0.9, 0.2)), false],
    ['a circle within', circle(at(0.6, 0.4), at(0.7, 0.5)), true],
    // Centre (0.75, 0.5), radii 0.25: the corners of the part lie outside, its edges touch it.
    ['a circle that touches all its edges', circle(at(0.5, 0.25), at(1, 0.75)), true],
    // Centre (0.5, 0.5), radii 0.5: the nearest point of the part is the centre, its far corners lie at
    // hypot(1, 0.5) = 1.118 radii, outside.
    ['a circle half around it', circle(at(0, 0), at(1, 1)), true],
    ['a circle beside it', circle(at(0.1, 0.3), at(0.45, 0.7)), false],
    // Its box meets the part's corner (0.5, 0.25), its outline does not: hypot(0.2, 0.15) / 0.2 > 1 from (0.3, 0.1).
    ['a circle whose box alone meets it', circle(at(0.1, -0.1), at(0.5001, 0.3)), false],
    ['a line that ends in it', { kind: 'line', points: [at(0, 0), at(0.2, 0.4), at(0.7, 0.5)] }, true],
    ['a line around it', { kind: 'line', points: [at(0.4, 0.9), at(0.4, 0.1), at(0.9, 0.1)] }, false],
  ] as const)('%s', (_, mark, isShown) => {
    expect(marksInCrop([mark], part)).toHaveLength(isShown ? 1 : 0)
  })

  test('a circle all around a part is not seen in it', () => {
    // Centre 0.5, radii 0.5; the far corner of the part lies at hypot(0.1, 0.1) / 0.5 = 0.28 radii, inside.
    expect(
      marksInCrop([circle(at(0, 0), at(1, 1))], { left: 0.4, top: 0.4, width: 0.2, height: 0.2 }),
    ).toEqual([])
  })

  test('the whole photo keeps them as they are', () => {
    const marks = [arrow(at(0.1, 0.1), at(0.4, 0.9))]
    expect(marksInCrop(marks, null)).toBe(marks)
  })
})

describe('drawn', () => {
  const size = { width: 400, height: 300, line: 0.01 }

  test('each lies on a wider white line of the same course', () => {
    const { shapes, words } = drawMarks([circle(at(0.25, 0.2), at(0.75, 0.6))], size)
    const [casing, line] = shapes.flatMap((shape) => (shape.kind === 'path' ? [shape] : []))
    // By hand: left 100, right 300, middle (60 + 180) / 2 = 120, radii 100 and 60; 1 % of 400 is 4, with 60 % on either side 8.8.
    expect(line).toMatchObject({
      d: 'M100 120A100 60 0 1 1 300 120A100 60 0 1 1 100 120Z',
      stroke: 'accent',
      width: 4,
    })
    expect(casing).toMatchObject({ d: line?.d, stroke: 'sheet', width: 8.8 })
    expect(words).toBe('marked: 1 circle')
  })

  test('an arrow has its head at its end', () => {
    const [, line] = drawMarks([arrow(at(0.25, 0.5), at(0.75, 0.5))], size).shapes
    // By hand: from (100, 150) to (300, 150); head 5 x 4 = 20 long, opened 28 degrees: 20 cos = 17.66, 20 sin = 9.39.
    expect(line?.kind === 'path' && line.d).toBe('M100 150L300 150M282.34 140.61L300 150L282.34 159.39')
  })
})

describe('a stroke of a finger', () => {
  test('becomes an arrow or a circle from its first point to its last, kept inside the photo', () => {
    const stroke = [at(0.2, 0.3), at(0.5, 0.5), at(1.2, 0.9)]
    expect(markFromStroke('arrow', stroke)).toEqual(arrow(at(0.2, 0.3), at(1, 0.9)))
    expect(markFromStroke('circle', stroke)).toEqual(circle(at(0.2, 0.3), at(1, 0.9)))
  })

  test('that is a mere touch leaves nothing', () => {
    expect(markFromStroke('circle', [at(0.2, 0.3)])).toBeNull()
    expect(markFromStroke('arrow', [at(0.2, 0.3), at(0.203, 0.3)])).toBeNull()
    expect(markFromStroke('line', [])).toBeNull()
  })

  test('as a line keeps its bends and few points', () => {
    const bend = [...Array.from({ length: 50 }, (_, i) => at(0.1 + i * 0.01, 0.1)), at(0.6, 0.5)]
    expect(markFromStroke('line', bend)).toEqual({
      kind: 'line',
      points: [at(0.1, 0.1), at(0.59, 0.1), at(0.6, 0.5)],
    })
    const scribble = Array.from({ length: 900 }, (_, i) => at((i % 2) * 0.9, i / 900))
    const line = markFromStroke('line', scribble)
    expect(line?.kind === 'line' && line.points.length).toBeLessThanOrEqual(MOST_LINE_POINTS)
  })
})

describe('by keyboard', () => {
  test('a mark moves with its shape kept, as far as the photo goes', () => {
    const moved = movedBy(circle(at(0.7, 0.4), at(0.9, 0.6)), at(0.5, -0.1))
    expect(moved).toEqual(circle(at(0.8, 0.3), at(1, 0.5)))
  })

  test('its end moves alone, and not so near that nothing is left', () => {
    const middle = markInMiddle('circle')
    expect(sizedBy(middle, at(0.1, 0))).toEqual(circle(at(0.4, 0.4), at(0.7, 0.6)))
    expect(sizedBy(middle, at(-0.2, 0))).toEqual(middle)
  })
})
