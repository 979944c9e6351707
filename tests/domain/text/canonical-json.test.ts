import { describe, expect, test } from 'vitest'
import { canonicalJson } from '../../../domain/text/canonical-json.ts'

describe('canonical JSON', () => {
  // RFC 8785, section 3.2.2: the numbers of its sample.
  test('writes numbers as RFC 8785 does', () => {
    expect(canonicalJson(JSON.parse('[333333333.33333329,1E30,4.50,2e-3]'))).toBe(
      '[333333333.3333333,1e+30,4.5,0.002]',
    )
  })

  // RFC 8785, section 3.2.3: keys are sorted by UTF-16 code units; the sample from memory.
  test('sorts keys by their UTF-16 code units, at every depth', () => {
    const sample = {
      '\u20ac': 'Euro Sign',
      '\r': 'Carriage Return',
      '\ufb33': 'Hebrew Letter Dalet With Dagesh',
      '1': 'One',
      '\ud83d\ude00': 'Emoji: Grinning Face',
      '\u0080': 'Control',
      '\u00f6': 'Latin Small Letter O With Diaeresis',
    }
    const form = canonicalJson(sample)
    const places = Object.values(sample).map((name) => form.indexOf(name))
    // JSON.parse would put the key '1' first whatever its place, so the places in the text are compared.
    expect(Object.values(sample).toSorted((a, b) => form.indexOf(a) - form.indexOf(b))).toEqual([
      'Carriage Return',
      'One',
      'Control',
      'Latin Small Letter O With Diaeresis',
      'Euro Sign',
      'Emoji: Grinning Face',
      'Hebrew Letter Dalet With Dagesh',
    ])
    expect(places).not.toContain(-1)
    expect(canonicalJson({ b: { d: 1, c: 2 }, a: [] })).toBe('{"a":[],"b":{"c":2,"d":1}}')
  })

  test.each([undefined, Number.NaN, Number.POSITIVE_INFINITY, { a: Number.NaN }, 'lone \ud83d surrogate'])(
    'has no form for %s',
    (value) => {
      expect(() => canonicalJson(value)).toThrow(/is not allowed|no JSON form/)
    },
  )
})
