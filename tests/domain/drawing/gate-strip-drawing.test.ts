import { describe, expect, it } from 'vitest'
import {
  drawGateStrip,
  drawMark,
  markWords,
  stripWords,
  type StripMark,
} from '../../../domain/drawing/gate-strip-drawing.ts'
import type { PathShape } from '../../../domain/drawing/shapes.ts'
import { GATES } from '../../../domain/gates.ts'
import type { MarkKind } from '../../../domain/views/shared-views.ts'

const strip = (marks: readonly MarkKind[]): readonly StripMark[] =>
  GATES.map((gate, index) => ({ gate, mark: marks[index] ?? 'later' }))

const KINDS = Object.keys(markWords) as readonly MarkKind[]

describe('a gate strip', () => {
  it('says in words how far the repair has come', () => {
    expect(stripWords(strip(['passed', 'passed', 'held']))).toBe(
      'opened and assessed passed; fabricated next, held; sealed, primed, trial-fitted, welded and painted later',
    )
    expect(stripWords(strip(Array<MarkKind>(8).fill('passed')))).toBe(
      'opened, assessed, fabricated, sealed, primed, trial-fitted, welded and painted passed',
    )
  })

  it('draws every kind of mark with a shape of its own, not by colour alone', () => {
    const shapes = KINDS.map((kind) =>
      drawMark(kind)
        .shapes.map((shape) => (shape.kind === 'path' ? shape.d : shape.text))
        .join(),
    )
    expect(new Set(shapes).size).toBe(KINDS.length)
  })

  it('is solid for passed and open for next', () => {
    const fillOf = (kind: MarkKind) => (drawMark(kind).shapes[0] as PathShape).fill
    expect(fillOf('passed')).toBe('passed')
    expect(fillOf('next')).toBe('sheet')
  })

  it('leaves the line open at a gate that was not needed', () => {
    const rails = (marks: readonly MarkKind[]) =>
      drawGateStrip(strip(marks), { width: 280 }).shapes.slice(0, 7) as readonly PathShape[]
    const [, whole] = rails(['passed', 'passed', 'passed'])
    const [, gap] = rails(['passed', 'passed', 'not needed'])
    const end = (rail: PathShape | undefined) => Number(/H(.+)$/.exec(rail?.d ?? '')?.[1])
    expect(end(gap)).toBeLessThan(end(whole))
  })

  it('keeps all stations inside its width and in order', () => {
    const { shapes, width } = drawGateStrip(strip(Array<MarkKind>(8).fill('passed')), { width: 250 })
    const bars = shapes.slice(7).map((shape) => Number(/^M(-?[\d.]+)/.exec((shape as PathShape).d)?.[1]))
    expect(bars).toHaveLength(8)
    expect(bars).toEqual(bars.toSorted((a, b) => a - b))
    expect(Math.min(...bars)).toBeGreaterThanOrEqual(0)
    expect(Math.max(...bars) + 5).toBeLessThanOrEqual(width)
  })

  it('writes the gates below their stations when asked, the next one in bold', () => {
    const { shapes } = drawGateStrip(strip(['passed', 'next']), { width: 520, names: true })
    const names = shapes.flatMap((shape) => (shape.kind === 'text' ? [shape] : []))
    expect(names.map((name) => name.text)).toEqual([...GATES])
    expect(names.filter((name) => name.bold).map((name) => name.text)).toEqual(['assessed'])
  })
})
