import { expect, test } from 'vitest'
import { contrastRatio, relativeLuminance } from './support/contrast.ts'

test('grey #777 on white just fails 4.5 to 1 and #767676 just passes', () => {
  // Well-known border case of WCAG 2, figures printed to four decimals.
  expect(contrastRatio('#777', '#fff')).toBeCloseTo(4.4781, 4)
  expect(contrastRatio('#767676', '#ffffff')).toBeCloseTo(4.5422, 4)
})

test('black on white is 21 to 1, either way round', () => {
  // WCAG 2.2, definition of contrast ratio.
  expect(contrastRatio('#000', '#fff')).toBeCloseTo(21, 10)
  expect(contrastRatio('#FFFFFF', '#000000')).toBeCloseTo(21, 10)
  expect(contrastRatio('#b4532a', '#b4532a')).toBe(1)
})

test('the three colours weigh what the definition says', () => {
  expect(['#f00', '#0f0', '#00f'].map(relativeLuminance)).toEqual([0.2126, 0.7152, 0.0722])
})

test.each(['white', '#ffff', 'rgb(0,0,0)', '', '#ggg'])('%j is not taken for a colour', (text) => {
  expect(() => contrastRatio(text, '#fff')).toThrow(RangeError)
})
