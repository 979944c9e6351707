import { describe, expect, test } from 'vitest'
import { fitOf, foldWords } from '../../../domain/text/fold-words.ts'

describe('the words of a text', () => {
  // The first three by the decomposition mappings of UnicodeData.txt, the others as German, Danish, Polish and Greek write them
  // without these letters (common practice, no source).
  test.each([
    ['Müller', ['muller']],
    ['Façade ﬁtting, 2²', ['facade', 'fitting', '22']],
    ['ÅNGSTRÖM İstanbul', ['angstrom', 'istanbul']],
    ['Schweißnaht', ['schweissnaht']],
    ['Søren Łódź', ['soren', 'lodz']],
    ['ΟΔΟΣ οδός', ['οδοσ', 'οδοσ']],
    ['S-101/7: left sill', ['s', '101', '7', 'left', 'sill']],
    ['–, …', []],
  ])('of %s stand without case, marks and signs', (text, words) => {
    expect(foldWords(text)).toEqual(words)
  })

  test('are the same with combining marks as with letters that hold them', () => {
    expect(foldWords('Mu\u0308ller')).toEqual(foldWords('M\u00fcller'))
  })
})

describe('how words answer to those that were asked for', () => {
  test.each([
    ['left sill', 3],
    ['sill', 2],
    ['sill left', 2],
    ['si le', 1],
    ['sill right', null],
    ['ill', null],
  ] as const)('%s', (asked, fit) => {
    expect(fitOf(foldWords(asked), foldWords('Left sill'))).toBe(fit)
  })
})
