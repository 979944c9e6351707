import { describe, expect, test } from 'vitest'
import { numberToText, readNumber } from '../../renderer/parts/form/read-number.ts'

describe('a figure as it is typed', () => {
  test.each([
    ['4.5', 4.5],
    ['4,5', 4.5],
    [' 12 ', 12],
    ['-0.5', -0.5],
    ['.75', 0.75],
    ['3.', 3],
  ])('%s is read as %d', (text, value) => {
    expect(readNumber(text)).toBe(value)
  })

  test('is nothing when nothing is typed', () => {
    expect(readNumber('  ')).toBeNull()
  })

  test.each(['four', '1.2.3', '1e5', '0x10', '4 mm', 'Infinity', '1,234,5'])('%s is no figure', (text) => {
    expect(readNumber(text)).toBeNaN()
  })

  test('stands in its field again as it was', () => {
    expect([4.5, 0, -2, null, Number.NaN].map((value) => numberToText(value))).toEqual([
      '4.5',
      '0',
      '-2',
      '',
      '',
    ])
  })

  test('has the decimals of money where it is money, and loses none', () => {
    const shown = [84.5, 84, 0.05, 1.125, null].map((value) => numberToText(value, 2))
    expect(shown).toEqual(['84.50', '84.00', '0.05', '1.125', ''])
  })
})
