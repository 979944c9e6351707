import { describe, expect, test } from 'vitest'
import { drawCardDay } from '../../../domain/drawing/card-day-drawing.ts'
import type { Drawing, PathShape } from '../../../domain/drawing/shapes.ts'

const at = (time: string) => Date.parse(`2026-11-24T${time}:00Z`)
const row = (key: string, from: string, to: string, passed: readonly string[] = []) => ({
  key,
  name: key,
  spans: [{ from: at(from), to: at(to) }],
  passed: passed.map(at),
})
const paths = ({ shapes }: Drawing): readonly PathShape[] => shapes.filter((shape) => shape.kind === 'path')
const texts = ({ shapes }: Drawing) => shapes.flatMap((shape) => (shape.kind === 'text' ? [shape.text] : []))
/** Where a path begins. */
const xOf = ({ d }: PathShape): number => Number(/^M(-?[\d.]+)/.exec(d)?.[1])

const day = {
  photos: [
    { at: at('08:30'), row: 'sill' },
    { at: at('11:15'), row: null },
  ],
  rows: [row('sill', '08:00', '09:00', ['09:10']), row('floor', '13:10', '15:40')],
  zone: 'UTC',
}

describe('the drawing of a day of a card', () => {
  test('has a bar for each clock, a flag for each passing and an upright for each photo, at its time', () => {
    const drawing = drawCardDay(day, 836)
    const bars = paths(drawing).filter(({ fill }) => fill === 'steel')
    const flags = paths(drawing).filter(({ fill }) => fill === 'passed')
    const uprights = paths(drawing).filter(({ width, fill }) => width === 2.25 && fill === null)
    // 8 hours from 08:00 to 16:00 on 800 units between margins of 18: 100 an hour.
    expect(bars.map(xOf)).toEqual([18, 534.67])
    expect(flags.map(xOf)).toEqual([134.67])
    expect(uprights.map((each) => [xOf(each), each.stroke])).toEqual([
      [343, 'accent'],
      [68, 'ink'],
    ])
    expect(texts(drawing)).toContain('without a place')
    expect(drawing.words).toBe('2 photos from 08:30 to 11:15 beside 2 pieces of work; 1 without a place.')
  })

  test('has no row for photos without a place when there are none, and room for its hours on a phone', () => {
    const drawing = drawCardDay({ ...day, photos: day.photos.slice(0, 1) }, 320)
    expect(texts(drawing)).toEqual(['08:00', '10:00', '12:00', '14:00', '16:00', 'sill', 'floor'])
  })

  test('reads its hours on the workshop’s wall', () => {
    expect(texts(drawCardDay({ ...day, zone: 'Europe/Berlin' }, 836))).toContain('09:00')
  })
})
