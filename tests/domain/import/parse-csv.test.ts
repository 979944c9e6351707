import fc from 'fast-check'
import Papa from 'papaparse'
import { describe, expect, test } from 'vitest'
import { CSV_LIMIT, parseCsv } from '../../../domain/import/parse-csv.ts'

const cellsOf = (text: string) => {
  const parsed = parseCsv(text)
  if (!parsed.ok) throw new Error(parsed.refusal.message)
  return parsed.value.map((row) => row.cells)
}
const linesOf = (text: string) => {
  const parsed = parseCsv(text)
  return parsed.ok ? parsed.value.map((row) => row.line) : []
}
const refusalOf = (text: string) => {
  const parsed = parseCsv(text)
  return parsed.ok ? null : parsed.refusal
}

describe('a CSV file', () => {
  test.each([
    ['commas', 'a,b\n1,2'],
    ['semicolons', 'a;b\n1;2'],
    ['tabs', 'a\tb\n1\t2'],
    ['CRLF line ends', 'a,b\r\n1,2\r\n'],
    ['a byte order mark', '\uFEFFa,b\n1,2'],
    ['quotation marks it would not need', '"a","b"\n"1","2"'],
    ['empty lines, also of separators only', '\na,b\n\n,\n1,2\n\n'],
  ])('is read with %s', (_what, text) => {
    expect(cellsOf(text)).toEqual([
      ['a', 'b'],
      ['1', '2'],
    ])
  })

  test('keeps separators, line ends and doubled quotation marks inside quoted cells', () => {
    expect(cellsOf('a;b\n"1;2";"say ""so""\nand go"')).toEqual([
      ['a', 'b'],
      ['1;2', 'say "so"\nand go'],
    ])
  })

  test('keeps a quotation mark in a cell that does not start with one', () => {
    expect(cellsOf('a,b\n6" panel,2')).toEqual([
      ['a', 'b'],
      ['6" panel', '2'],
    ])
  })

  test('takes the separator from the first line even when its names hold others', () => {
    expect(cellsOf('"a, or so, and so";b\n1,5;2')[1]).toEqual(['1,5', '2'])
  })

  test('counts lines as an editor does, also over cells of several lines and empty lines', () => {
    expect(linesOf('a,b\r\n"1\r\n2",3\r\n\r\n4,5')).toEqual([1, 2, 5])
  })

  test.each([
    ['UTF-16', new TextDecoder().decode(Buffer.from('\uFEFFa,b\n1,2', 'utf16le')), 'UTF-16'],
    ['Latin-1', new TextDecoder().decode(Buffer.from('name\nMüller', 'latin1')), 'Latin-1'],
  ])('saved as %s is refused with what to do', (_what, text, named) => {
    expect(refusalOf(text)?.message).toContain(named)
    expect(refusalOf(text)?.next).toContain('CSV UTF-8')
  })

  test.each(['', '\n\n', '\uFEFF', ';;;\n'])('without anything in it is refused: %j', (text) => {
    expect(refusalOf(text)?.message).toBe('This file is empty.')
  })

  test('with a quotation that never ends is refused with its line', () => {
    expect(refusalOf('a,b\n1,2\n"3,4\n5,6')?.message).toContain('Line 3')
  })

  test('with text after the end of a quotation is refused with its line', () => {
    expect(refusalOf('a,b\n"1" x,2')?.message).toContain('Line 2')
  })

  test('over the limit is refused with what to do', () => {
    expect(refusalOf(`a\n${'x'.repeat(CSV_LIMIT)}`)?.next).toContain('Split it')
  })

  // Reference: papaparse 5.7, an independent reader of RFC 4180.
  test('is read as the reference library reads it, whatever its cells hold', () => {
    const cell = fc.string({
      unit: fc.constantFrom('a', ' ', ',', ';', '"', '\n', '\r\n', 'é', '🚗', '<b>'),
      maxLength: 8,
    })
    const table = fc
      .integer({ min: 2, max: 4 })
      .chain((width) =>
        fc.array(fc.array(cell, { minLength: width, maxLength: width }), { minLength: 1, maxLength: 6 }),
      )
    fc.assert(
      fc.property(table, fc.constantFrom(',', ';', '\t'), (body, delimiter) => {
        const header = body[0]!.map((_, index) => `column ${index}`)
        const text = Papa.unparse([header, ...body], { delimiter })
        const expected = Papa.parse<string[]>(text, { delimiter }).data
        expect(cellsOf(text)).toEqual(expected.filter((row) => row.some((each) => each.trim() !== '')))
      }),
      { numRuns: 300 },
    )
  })
})
