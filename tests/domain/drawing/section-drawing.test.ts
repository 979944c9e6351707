import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { drawSection } from '../../../domain/drawing/section-drawing.ts'
import { sectionLegend } from '../../../domain/drawing/section/section-words.ts'
import type { Drawing, Shape } from '../../../domain/drawing/shapes.ts'
import { DECISIONS, GRADES } from '../../../domain/facts/shapes.ts'
import { layerIdSchema } from '../../../domain/ids.ts'
import type { SectionLayer, SectionView } from '../../../domain/views/shared-views.ts'

const layer = (name: string, more: Partial<SectionLayer> = {}): SectionLayer => ({
  id: layerIdSchema.parse(`layer-${name.replaceAll(/[^a-z]/g, '')}`),
  name,
  thicknessMm: 1.2,
  loadBearing: false,
  closing: false,
  grade: null,
  judgedBy: null,
  remainingMm: null,
  decision: null,
  state: 'not seen yet',
  photographed: false,
  ...more,
})

const section = (layers: readonly SectionLayer[], more: Partial<SectionView> = {}): SectionView => ({
  layers: layers.map((each, index) => ({ ...each, closing: index === layers.length - 1 })),
  open: false,
  sealed: false,
  primed: false,
  painted: false,
  ...more,
})

const two = (
  inner: Partial<SectionLayer>,
  outer: Partial<SectionLayer> = {},
  more: Partial<SectionView> = {},
) => section([layer('channel', inner), layer('closing plate', outer)], more)

const draw = (view: SectionView): Drawing => drawSection(view, { width: 360 })

const painted = ({ shapes }: Drawing, tone: string): readonly Shape[] =>
  shapes.filter((shape) => shape.kind === 'path' && (shape.stroke === tone || shape.fill === tone))

const written = ({ shapes }: Drawing): string =>
  shapes.flatMap((shape) => (shape.kind === 'text' ? [shape.text] : [])).join(' ')

/** All coordinates of absolute path commands; arcs and small relative steps stay near them. */
function absolutePoints(d: string): readonly (readonly [number, number])[] {
  return [...d.matchAll(/[ML](-?[\d.]+) (-?[\d.]+)/g)].map(([, x, y]) => [Number(x), Number(y)] as const)
}

describe('a section', () => {
  it('names every layer with its thickness, from the inside out', () => {
    const view = two({ thicknessMm: 1.6 }, { thicknessMm: 2 })
    expect(draw(view).words).toBe(
      'Cut through 2 layers, from the inside out: channel, 1.6 mm, not seen yet; closing plate, 2 mm, not seen yet.',
    )
  })

  it('ghosts a layer that nobody has seen, with a question mark', () => {
    const drawing = draw(two({}, { grade: 'sound', decision: 'keep', state: 'found' }))
    expect(drawing.shapes.filter((shape) => shape.kind === 'text' && shape.text === '?')).toHaveLength(1)
  })

  it('draws rust until the layer is put right, and says what it was', () => {
    const found = draw(two({ grade: 'pitted', remainingMm: 0.75, decision: 'patch', state: 'found' }))
    const done = draw(two({ grade: 'pitted', remainingMm: 0.75, decision: 'patch', state: 'repaired' }))
    expect(painted(found, 'rust')).not.toHaveLength(0)
    expect(painted(done, 'rust')).toHaveLength(0)
    expect(written(found)).toContain('1.2 mm, pitted, 0.75 mm left, to be patched')
    expect(written(done)).toContain('1.2 mm, was pitted, patched')
  })

  it('shows each grade differently', () => {
    const drawn = GRADES.map((grade) =>
      JSON.stringify(
        draw(two({ grade, decision: 'replace', state: 'found' })).shapes.filter(
          (shape) => shape.kind === 'path',
        ),
      ),
    )
    expect(new Set(drawn).size).toBe(GRADES.length)
  })

  it('draws thicker metal thicker', () => {
    const height = (thicknessMm: number): number => {
      const [body] = painted(draw(section([layer('skin', { thicknessMm, grade: 'sound' })])), 'steel')
      if (body?.kind !== 'path') throw new Error('no metal drawn')
      const atFlange = absolutePoints(body.d).filter(([x]) => x === 12)
      return Math.max(...atFlange.map(([, y]) => y)) - Math.min(...atFlange.map(([, y]) => y))
    }
    expect(height(1)).toBeCloseTo(6.2, 1)
    expect(height(2)).toBeGreaterThan(height(1))
    expect(height(0.8)).toBeLessThan(height(1))
  })

  it('keeps as much of a pitted sheet as was measured', () => {
    const thinnest = (remainingMm: number): number => {
      const view = section([
        layer('skin', { grade: 'pitted', remainingMm, decision: 'keep', state: 'found' }),
      ])
      const [body] = painted(draw(view), 'steel')
      if (body?.kind !== 'path') throw new Error('no metal drawn')
      const run = absolutePoints(body.d).filter(([x]) => x > 90 && x < 150)
      const byPlace = Map.groupBy(run, ([x]) => x)
      return Math.min(
        ...[...byPlace.values()].map(
          (at) => Math.max(...at.map(([, y]) => y)) - Math.min(...at.map(([, y]) => y)),
        ),
      )
    }
    expect(thinnest(0.4)).toBeLessThan(thinnest(0.9))
  })

  it('lifts the closing panel off while the repair stands open, and only then', () => {
    const grade = { grade: 'sound', decision: 'keep', state: 'found' } as const
    expect(written(draw(two(grade, grade, { open: true })))).toContain('off, 1.2 mm, sound, kept')
    expect(written(draw(two(grade, grade)))).not.toContain('off,')
  })

  it('never takes off the only sheet', () => {
    const view = section([layer('door skin', { grade: 'holed', decision: 'patch', state: 'found' })], {
      open: true,
    })
    expect(written(draw(view))).not.toContain('off,')
  })

  it('shows primer and sealer where they are', () => {
    const done = { grade: 'holed', decision: 'replace', state: 'coated' } as const
    const bare = draw(two({ ...done, state: 'repaired' }, done, { open: true }))
    const sealed = draw(two(done, done, { open: true, sealed: true, primed: true }))
    expect(painted(bare, 'sealer')).toHaveLength(0)
    expect(painted(sealed, 'sealer')).not.toHaveLength(0)
    expect(painted(sealed, 'coat').length).toBeGreaterThan(painted(bare, 'coat').length)
    expect(sealed.words).toContain('Seams sealed.')
  })

  it('explains in its legend only what is drawn', () => {
    const done = { grade: 'holed', decision: 'replace', state: 'coated' } as const
    expect(sectionLegend(two({}))).toBe('Hatching is cut metal; dashed: not seen; thickness enlarged')
    expect(sectionLegend(two(done, done, { open: true, sealed: true, primed: true }))).toBe(
      'Hatching is cut metal, hatched the other way where it is new; dashed: off; ochre: sealer; green: primer; thickness enlarged',
    )
  })

  it('is drawn the same way every time', () => {
    const view = two({ grade: 'holed', decision: 'replace', state: 'found' })
    expect(draw(view)).toEqual(draw(view))
  })

  it('stays inside its box, whatever the layers and the width', () => {
    const anyLayer = fc.record({
      name: fc.string({ minLength: 1, maxLength: 60 }),
      thicknessMm: fc.double({ min: 0.2, max: 12, noNaN: true }),
      loadBearing: fc.boolean(),
      grade: fc.constantFrom(...GRADES, 'not seen' as const, null),
      remainingMm: fc.option(fc.double({ min: 0, max: 12, noNaN: true }), { nil: null }),
      decision: fc.constantFrom(...DECISIONS, null),
      state: fc.constantFrom('not seen yet', 'found', 'repaired', 'coated', 'closed over'),
    }) satisfies fc.Arbitrary<Partial<SectionLayer>>
    const anySection = fc.record({
      layers: fc.array(anyLayer, { minLength: 1, maxLength: 12 }),
      open: fc.boolean(),
      sealed: fc.boolean(),
      primed: fc.boolean(),
      painted: fc.boolean(),
    })
    const widths = fc.integer({ min: 300, max: 900 })
    fc.assert(
      fc.property(anySection, widths, fc.boolean(), ({ layers, ...more }, width, labels) => {
        const view = section(
          layers.map(({ name, ...rest }) => ({ ...layer('any', rest), name })),
          more,
        )
        const drawing = drawSection(view, { width, labels })
        const points = drawing.shapes.flatMap((shape) =>
          shape.kind === 'path' ? absolutePoints(shape.d) : [[shape.x, shape.y] as const],
        )
        const xs = points.map(([x]) => x)
        const ys = points.map(([, y]) => y)
        expect(JSON.stringify(drawing)).not.toMatch(/NaN|Infinity|[xy]":null/)
        expect(Math.min(...xs, ...ys)).toBeGreaterThanOrEqual(-1)
        expect(Math.max(...xs)).toBeLessThanOrEqual(width + 1)
        expect(Math.max(...ys)).toBeLessThanOrEqual(drawing.height + 1)
      }),
      { numRuns: 120 },
    )
  })
})
