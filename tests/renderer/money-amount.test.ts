import { describe, expect, test } from 'vitest'
import { amountWords, minorToMajor, typedMoneySchema } from '../../renderer/parts/form/money-amount.ts'

const read = (currency: string, major: unknown) => {
  const { data, error } = typedMoneySchema(currency).safeParse(major)
  return data ?? error?.issues[0]?.message
}

describe('an amount as it is typed', () => {
  test('is read in whole minor units, by the decimals of its currency', () => {
    expect(read('EUR', 60.5)).toBe(6_050)
    // 4.35 × 100 and 0.29 × 100 are no whole numbers in binary floating point.
    expect([read('EUR', 4.35), read('GBP', 0.29)]).toEqual([435, 29])
    expect(read('JPY', 1_200)).toBe(1_200)
    expect(read('KWD', 1.125)).toBe(1_125)
    expect(read('EUR', 0)).toBe(0)
  })

  test('is refused in words when it cannot be one', () => {
    expect(read('EUR', 60.125)).toBe('Amounts in EUR have at most 2 decimals.')
    expect(read('JPY', 0.5)).toBe('Amounts in JPY have no decimals.')
    expect(read('EUR', -1)).toBe('An amount of money cannot be negative.')
    expect(read('EUR', 1e9)).toBe('More than 100 million on one line is not believable; split the line.')
    expect(read('EUR', null)).toBe('Give an amount.')
  })

  test('comes back into its field as it was typed', () => {
    for (const typed of [60.5, 4.35, 0.07])
      expect(minorToMajor(Number(read('EUR', typed)), 'EUR')).toBe(typed)
  })
})

test('hours without a rate stand beside an amount, never as nothing', () => {
  const amount = { labour: 1_000, goods: 0, total: 1_000, unpricedHours: 0 }
  expect(amountWords(amount, 'EUR')).toBe('€10.00')
  expect(amountWords({ ...amount, unpricedHours: 4 }, 'EUR')).toBe('€10.00 + 4.0 h')
  expect(amountWords({ labour: null, goods: 0, total: null, unpricedHours: 4 }, 'EUR')).toBe('4.0 h')
})
