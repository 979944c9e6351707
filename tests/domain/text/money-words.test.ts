import { expect, test } from 'vitest'
import { minorDigits, moneyWords } from '../../../domain/text/money-words.ts'

test('an amount is said with the decimals of its currency (ISO 4217)', () => {
  expect(moneyWords(125_050, 'EUR')).toBe('€1,250.50')
  expect(moneyWords(125_050, 'GBP')).toBe('£1,250.50')
  expect(moneyWords(1_250, 'JPY')).toBe('JP¥1,250')
  expect([minorDigits('EUR'), minorDigits('JPY'), minorDigits('KWD')]).toEqual([2, 0, 3])
})
