import Papa from 'papaparse'
import { describe, expect, test } from 'vitest'
import type { LongTable, Table } from '../../../domain/report/table.ts'
import { tableToCsv } from '../../../electron/export/table-to-csv.ts'

const csvOf = (of: LongTable): string => [...tableToCsv(of)].join('')

const table: Table = {
  name: 'Gates',
  columns: [
    { head: 'Gate', kind: 'text' },
    { head: 'Spent h', kind: 'hours' },
    { head: 'Variance h', kind: 'hours' },
  ],
  rows: [
    ['welded; "seam"\nnew line', 12.25, -3.5],
    ['=HYPERLINK("x")', 0, null],
    [' +1 of them, -2', 1 / 3, -0],
  ],
}

describe('a table as CSV', () => {
  // Reference: papaparse 5.7 reads RFC 4180.
  test('is read back cell by cell, with numbers of two decimals', () => {
    const csv = csvOf(table)
    expect(csv.charCodeAt(0)).toBe(0xfeff)
    expect(csv.endsWith('\r\n')).toBe(true)
    const { data, errors } = Papa.parse<string[]>(csv.slice(1).trimEnd())
    expect(errors).toEqual([])
    expect(data).toEqual([
      ['Gate', 'Spent h', 'Variance h'],
      ['welded; "seam"\nnew line', '12.25', '-3.5'],
      [`'=HYPERLINK("x")`, '0', ''],
      [`' +1 of them, -2`, '0.33', '0'],
    ])
  })

  test('is worked out piece by piece, none before it is asked for', () => {
    let asked = 0
    const rows = Array.from({ length: 1_001 }, (_, number) => [`row ${number}`, number, null])
    const counted = function* () {
      for (const row of rows) {
        asked += 1
        yield row
      }
    }
    const pieces = tableToCsv({ ...table, rows: counted() })
    const [heads] = [pieces.next().value, pieces.next().value]
    expect([heads, asked > 0, asked < 400]).toEqual(['\uFEFFGate,Spent h,Variance h\r\n', true, true])
    expect(csvOf({ ...table, rows })).toBe(heads + rows.map((row) => `${row[0]},${row[1]},\r\n`).join(''))
  })

  // ISO 4217: the Kuwaiti dinar has 1,000 fils.
  test('keeps the third decimal of money', () => {
    const csv = csvOf({
      name: 'x',
      columns: [
        { head: 'Asked KWD', kind: 'money' },
        { head: 'Asked h', kind: 'hours' },
      ],
      rows: [[12.345, 12.345]],
    })
    expect(Papa.parse<string[]>(csv.slice(1)).data[1]).toEqual(['12.345', '12.35'])
  })

  // OWASP ASVS 5.0, 1.2.10: leading = + - @ tab.
  test.each(['=1+1', '+1', '-1', '@SUM(A1)', '\t=1', '  =1'])('%j is text, not a formula', (words) => {
    const csv = csvOf({
      name: 'x',
      columns: [{ head: 'Note', kind: 'text' }],
      rows: [[words]],
    })
    expect(Papa.parse<string[]>(csv.slice(1)).data[1]).toEqual([`'${words}`])
  })
})
