import { describe, expect, test } from 'vitest'
import { drawHoursCurves, type HoursCurves } from '../../../domain/drawing/hours-curves-drawing.ts'
import type { PathShape, TextShape } from '../../../domain/drawing/shapes.ts'

const week = (number: number, planned: number, earned: number | null, spent: number | null) => ({
  week: `2026-W${number}`,
  words: `week ${number}`,
  planned,
  earned,
  earnedOfPlanned: earned,
  spent,
  schedule: null,
})

const total = (authorised: number, expected: number): HoursCurves['total'] => ({
  baseline: authorised,
  hours: { authorised, waiting: 0, earned: 30, spent: 42, rework: 0, givenBack: 0 },
  expected,
  atCompletion: authorised - expected,
  onReleased: 0,
  spentOnOpen: 0,
  variance: -12,
  index: 30 / 42,
  planned: 40,
  scheduleVariance: -10,
  scheduleIndex: 0.75,
})

const weeks = [week(46, 10, 8, 12), week(47, 40, 30, 42), week(48, 100, null, null)]
const draw = (over: Partial<HoursCurves> = {}, width = 700) => {
  const drawing = drawHoursCurves({ weeks, total: total(100, 130), ...over }, width)
  if (drawing === null) throw new Error('Nothing was drawn.')
  return drawing
}
const texts = (shapes: ReturnType<typeof draw>['shapes']) =>
  shapes.filter((shape): shape is TextShape => shape.kind === 'text')
const strokes = (shapes: ReturnType<typeof draw>['shapes'], tone: PathShape['stroke']) =>
  shapes.filter((shape): shape is PathShape => shape.kind === 'path' && shape.stroke === tone)

describe('the curves of hours', () => {
  test('are not drawn without a week', () => {
    expect(drawHoursCurves({ weeks: [], total: total(10, 10) }, 700)).toBeNull()
  })

  test('go as far as there are figures: planned to the last week, earned and spent to this one', () => {
    const { shapes } = draw()
    const points = (d: string) => d.split('L').length - 1
    const [planned] = strokes(shapes, 'quiet').filter(({ dash }) => dash.length > 0)
    const [earned] = strokes(shapes, 'passed')
    const [spent] = strokes(shapes, 'accent')
    expect([planned, earned, spent].map((path) => points(path?.d ?? ''))).toEqual([3, 2, 2])
  })

  test('are on one scale in round steps that holds everything', () => {
    const labels = texts(draw().shapes).filter(({ anchor, x }) => anchor === 'end' && x < 60)
    expect(labels.map(({ text }) => text)).toEqual(['0 h', '50', '100', '150'])
  })

  test.each([0, 50, 100])(
    'that all end at %d h have names beside each other, inside the drawing',
    (value) => {
      const drawing = draw({ weeks: [week(46, value, value, value)] })
      const names = texts(drawing.shapes).filter(({ bold }) => bold)
      expect(names.map(({ text }) => text)).toEqual(['planned', 'earned', 'spent'])
      const heights = names.map(({ y }) => y)
      expect(heights[1]! - heights[0]!).toBeGreaterThanOrEqual(13)
      expect(heights[2]! - heights[1]!).toBeGreaterThanOrEqual(13)
      for (const { x, y } of names) {
        expect(x).toBeLessThan(drawing.width)
        expect(y).toBeLessThan(drawing.height - 20)
      }
    },
  )

  test('name only as many weeks as there is room for, the last one always', () => {
    const many = Array.from({ length: 40 }, (_, at) => week(10 + at, at, null, null))
    const named = texts(draw({ weeks: many }, 400).shapes).filter(({ text }) => text.startsWith('week'))
    expect(named.length).toBeLessThan(8)
    expect(named.at(-1)?.text).toBe('week 49')
  })

  test('say the same in words', () => {
    expect(draw().words).toBe(
      'week 47: 40.0 h planned, 30.0 h earned, 42.0 h spent of 100.0 h authorised; 130.0 h expected at completion, over 3 weeks',
    )
  })
})
