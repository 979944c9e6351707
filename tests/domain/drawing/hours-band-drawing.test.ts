import { describe, expect, it } from 'vitest'
import { bandRowWords, type BandRow, drawHoursBand } from '../../../domain/drawing/hours-band-drawing.ts'
import type { TextShape } from '../../../domain/drawing/shapes.ts'
import { textWidth } from '../../../domain/drawing/text-fit.ts'
import { bandSentence, likelyFigure, rangeWords } from '../../../domain/text/likely-words.ts'

const row = (over: Partial<BandRow> = {}): BandRow => ({
  agreed: 38,
  isAccepted: true,
  band: { p50: 41.2, p80: 52.4 },
  first: null,
  took: null,
  ...over,
})
const draw = (over: Partial<BandRow> = {}, width = 400, scale = 60) =>
  drawHoursBand(row(over), { width, scale })
const textsOf = (over: Partial<BandRow> = {}, width = 400, scale = 60) =>
  draw(over, width, scale).shapes.filter((shape): shape is TextShape => shape.kind === 'text')

describe('likely hours in words', () => {
  it('say the half and the four in five, in whole hours from twenty on', () => {
    expect(bandSentence({ p50: 211.6, p80: 250.9 })).toBe(
      'Half the time 212 h or less; four times in five 251 h or less.',
    )
    expect([likelyFigure(8.46), likelyFigure(9), likelyFigure(1234.5)]).toEqual(['8.5', '9', '1,235'])
    expect(rangeWords({ p50: 17.8, p80: 23.9 })).toBe('18 to 24 h')
    expect([rangeWords({ p50: 41.2, p80: 52.4 }), rangeWords({ p50: 41.2, p80: 41.4 })]).toEqual([
      '41 to 52 h',
      '41 h',
    ])
  })
})

describe('a drawn band of hours', () => {
  it('says in words what it shows', () => {
    expect(bandRowWords(row({ first: { p50: 40, p80: 58 } }))).toBe(
      'Agreed 38.0 h. Half the time 41 h or less; four times in five 52 h or less. Before it was opened: 40 to 58 h.',
    )
    expect(bandRowWords(row({ band: null, took: 24.5 }))).toBe('Agreed 38.0 h. It took 24.5 h.')
    expect(bandRowWords(row({ isAccepted: false, band: null }))).toBe('Proposed 38.0 h.')
    expect(bandRowWords(row({ agreed: null, band: null }))).toBe('Nothing is estimated.')
  })

  it('writes the agreed figure, the band, the first band and what it took beside their marks', () => {
    const texts = (over: Partial<BandRow>) => textsOf(over).map(({ text }) => text)
    expect(texts({})).toEqual(['41 to 52 h', 'agreed 38.0 h'])
    expect(texts({ isAccepted: false })).toContain('proposed 38.0 h')
    expect(texts({ first: { p50: 40, p80: 58 } })).toContain('first 40 to 58 h')
    expect(texts({ band: null, took: 24.5 })).toContain('took 24.5 h')
  })

  it('keeps every word inside its width, on a phone too and at both ends of the scale', () => {
    for (const width of [280, 400, 900])
      for (const at of [0, 0.5, 30, 60])
        for (const shape of textsOf(
          { agreed: at, band: { p50: at, p80: at }, first: { p50: at, p80: at } },
          width,
        )) {
          const wide = textWidth(shape.text, shape.size, shape.bold)
          const left = { start: shape.x, middle: shape.x - wide / 2, end: shape.x - wide }[shape.anchor]
          expect(left).toBeGreaterThanOrEqual(-0.01)
          expect(left + wide).toBeLessThanOrEqual(width + 0.01)
        }
  })

  it('draws nothing that is no number, on an empty scale either', () => {
    const { shapes } = draw({ agreed: 0, band: { p50: 0, p80: 0 }, took: 0 }, 300, 0)
    expect(JSON.stringify(shapes)).not.toMatch(/NaN|Infinity/)
    for (const shape of shapes) if (shape.kind === 'path') expect(shape.d).not.toContain('NaN')
  })
})
