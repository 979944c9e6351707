import { describe, expect, test } from 'vitest'
import { bayWords, emptyBayWords } from '../../../domain/text/bay-words.ts'

describe('a bay in words', () => {
  test('is called a bay where its name is a number alone', () => {
    expect(['3', 'Bay 3', 'Jig'].map(bayWords)).toEqual(['bay 3', 'Bay 3', 'Jig'])
  })

  test.each([
    [['Bay 3', 'Bay 4', 'Bay 6'], 'Bays 3, 4 and 6 are empty.'],
    [['3', '4'], 'Bays 3 and 4 are empty.'],
    [['3'], 'Bay 3 is empty.'],
    [['Jig'], 'Jig is empty.'],
    [['Bay 3', 'Jig'], 'Bay 3 and Jig are empty.'],
  ])('%j stand empty', (names, words) => {
    expect(emptyBayWords(names)).toBe(words)
  })
})
