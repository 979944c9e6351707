import { expect, test } from 'vitest'
import { benchCoverage } from './coverage.ts'

test('the bench of the bands answers a row for each truth and amount of history, the same each time', () => {
  const figures = benchCoverage(['--workshops', '1'])
  expect(Object.keys(figures)).toEqual([
    'as stated, 0',
    'as stated, 1',
    'as stated, 3',
    'as stated, 10',
    'another, 0',
    'another, 2',
    'another, 6',
    'another, 15',
    'another, 30',
    'taken as proposed, 6',
    'taken as proposed, 15',
    'taken as proposed, 30',
  ])
  for (const row of Object.values(figures))
    for (const text of Object.values(row)) {
      expect(text).toMatch(/^\d+\.\d \/ \d+\.\d \/ \d+\.\d$/)
      const [p50 = 0, p80 = 0, p90 = 0] = text.split(' / ').map(Number)
      expect(p50 <= p80 && p80 <= p90, text).toBe(true)
    }
  expect(benchCoverage(['--workshops', '1'])).toEqual(figures)
})

test('no workshop is none to judge by', () => {
  expect(() => benchCoverage(['--workshops', '0'])).toThrow('whole number from 1 on')
})
