import { describe, expect, it, test } from 'vitest'
import {
  countFound,
  HIDDEN_GRADE_PRIOR,
  hiddenGrades as gradesOf,
  hiddenGradeWords,
  PRIOR_REPAIRS,
  type FoundLayer,
} from '../../../domain/estimate/hidden-grades.ts'
import { GRADES, type Grade } from '../../../domain/facts/shapes.ts'

const HANGERS = { what: 'spring hangers', seen: 'from below', hidden: 'above' }
const layers = (count: number, outside: Grade, inside: Grade): readonly FoundLayer[] =>
  Array.from({ length: count }, () => ({ outside, inside }))
const hiddenGrades = (outside: Grade | null, found: readonly FoundLayer[]) =>
  gradesOf(outside, countFound(found))
const FOURTEEN = [
  ...layers(9, 'pitted', 'holed'),
  ...layers(4, 'pitted', 'pitted'),
  ...layers(1, 'pitted', 'gone'),
  ...layers(5, 'surface', 'pitted'),
]

describe('the prior of hidden layers', () => {
  test.each(GRADES)('for %s outside adds up to 1 and leaves nothing impossible', (outside) => {
    const row = Object.values(HIDDEN_GRADE_PRIOR[outside])
    expect(row.reduce((sum, share) => sum + share, 0)).toBeCloseTo(1, 12)
    expect(Math.min(...row)).toBeGreaterThan(0)
  })

  const worseThan = (outside: Grade, from: number): number =>
    GRADES.slice(from).reduce((sum, inside) => sum + HIDDEN_GRADE_PRIOR[outside][inside], 0)

  test.each(GRADES.slice(0, -1))('for %s outside expects worse inside rather than better', (outside) => {
    const at = GRADES.indexOf(outside)
    expect(worseThan(outside, at + 1)).toBeGreaterThan(1 - worseThan(outside, at))
  })

  test.each(GRADES.slice(1))('expects no better inside for %s than for the grade before it', (outside) => {
    const before = GRADES[GRADES.indexOf(outside) - 1]!
    const better = GRADES.keys().filter((from) => worseThan(outside, from) < worseThan(before, from) - 1e-12)
    expect([...better]).toEqual([])
  })
})

describe('hidden grades', () => {
  it('without finished repairs are the prior', () => {
    const { seen, grades } = hiddenGrades('surface', [])
    expect(seen).toBe(0)
    for (const { grade, likelihood } of grades)
      expect(likelihood.mean).toBeCloseTo(HIDDEN_GRADE_PRIOR.surface[grade], 12)
  })

  it('count the repairs with the same grade outside, on top of the prior (Dirichlet; by hand)', () => {
    const { seen, grades } = hiddenGrades('pitted', FOURTEEN)
    expect(seen).toBe(14)
    expect(grades.map(({ found }) => found)).toEqual([0, 0, 4, 9, 1])
    const holed = grades[3]!.likelihood
    expect(holed.mean).toBeCloseTo((9 + PRIOR_REPAIRS * 0.4) / (14 + PRIOR_REPAIRS), 12)
    // Quantiles of beta(10.6, 7.4), reckoned with scipy 1.17.
    expect(holed.low).toBeCloseTo(0.361311154, 8)
    expect(holed.high).toBeCloseTo(0.797759239, 8)
    expect(grades.reduce((sum, { likelihood }) => sum + likelihood.mean, 0)).toBeCloseTo(1, 12)
  })

  it('get surer with more repairs', () => {
    const width = (count: number): number => {
      const { low, high } = hiddenGrades('pitted', layers(count, 'pitted', 'holed')).grades[3]!.likelihood
      return high - low
    }
    expect(width(40)).toBeLessThan(width(10))
    expect(width(10)).toBeLessThan(width(1))
  })
})

describe('what hidden grades rest on', () => {
  const words = (found: readonly FoundLayer[], grade: Grade): string =>
    hiddenGradeWords(hiddenGrades('pitted', found), grade, HANGERS)

  it('is said in counts', () => {
    expect(words(FOURTEEN, 'holed')).toBe(
      'Of 14 spring hangers graded pitted from below, 9 were holed above.',
    )
    expect(words(FOURTEEN, 'gone')).toBe('Of 14 spring hangers graded pitted from below, 1 was gone above.')
    expect(words(FOURTEEN, 'sound')).toBe(
      'Of 14 spring hangers graded pitted from below, none were sound above.',
    )
  })

  it('is the usual belief where there are few or none', () => {
    expect(words(layers(2, 'pitted', 'holed'), 'holed')).toBe(
      'Of 2 spring hangers graded pitted from below, 2 were holed above; with so few, the usual belief "worse inside than out" counts most.',
    )
    expect(words([], 'holed')).toBe(
      'No spring hangers graded pitted from below are finished yet; the usual belief "worse inside than out" counts most.',
    )
  })
})
