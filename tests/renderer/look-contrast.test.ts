import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { contrastRatio } from '../support/contrast.ts'

/**
 * The look's own bar: text at 7:1 or better on every ground it is set on (WCAG 2.2, 1.4.6 enhanced contrast), marks and
 * the edges of controls at 3:1 (1.4.11 non-text contrast). The ratio itself is checked against published values in
 * tests/contrast.test.ts.
 */
const css = readFileSync(new URL('../../renderer/look/tokens.css', import.meta.url), 'utf8')
const tokens = new Map(
  [...css.matchAll(/--([a-z-]+): light-dark\((#[0-9a-f]{6}), (#[0-9a-f]{6})\)/g)].map(
    ([, name = '', light = '', dark = '']) => [name, { light, dark }] as const,
  ),
)
const grounds = ['ground', 'sheet', 'raised'] as const
const schemes = ['light', 'dark'] as const

const token = (name: string, scheme: 'light' | 'dark'): string => {
  const found = tokens.get(name)
  if (found === undefined) throw new Error(`tokens.css has no --${name} for both schemes`)
  return found[scheme]
}

describe.each(schemes)('the %s look', (scheme) => {
  test.each(['ink', 'quiet', 'accent-ink', 'passed-ink'])('sets --%s at 7:1 on every ground', (name) => {
    for (const ground of grounds) {
      expect(
        contrastRatio(token(name, scheme), token(ground, scheme)),
        `on ${ground}`,
      ).toBeGreaterThanOrEqual(7)
    }
  })

  test.each([
    ['ink', 'shade'],
    ['ink', 'accent-tint'],
    ['ink', 'passed-tint'],
  ])('sets --%s at 7:1 on --%s', (name, ground) => {
    expect(contrastRatio(token(name, scheme), token(ground, scheme))).toBeGreaterThanOrEqual(7)
  })

  test.each(['accent', 'passed', 'edge', 'rule', 'focus'])('draws --%s at 3:1 on every ground', (name) => {
    for (const ground of grounds) {
      expect(
        contrastRatio(token(name, scheme), token(ground, scheme)),
        `on ${ground}`,
      ).toBeGreaterThanOrEqual(3)
    }
  })
})
