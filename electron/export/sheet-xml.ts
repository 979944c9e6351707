import type { Cell, Column } from '../../domain/report/table.ts'
import { isLocalDate } from '../../domain/time/local-date.ts'
import { escapeHtml } from './escape-html.ts'

/*
 * The parts of a workbook as ECMA-376 part 1 (Office Open XML) wants them, and no more than a table needs: text stands in
 * its cells (inlineStr), so that a sheet is written from top to bottom and nothing of it has to be kept.
 */

export interface Part {
  /** Inside the archive. */
  readonly path: string
  readonly xml: string
}

export const sheetPath = (index: number): string => `xl/worksheets/sheet${index + 1}.xml`

/** Everything in a workbook of these sheets but the sheets themselves. */
export function workbookParts(names: readonly string[]): readonly Part[] {
  const each = (toXml: (name: string, number: number) => string) =>
    names.map((name, index) => toXml(name, index + 1)).join('')
  return [
    {
      path: '[Content_Types].xml',
      xml:
        `${DECLARATION}<Types xmlns="${PACKAGE}/content-types">` +
        '<Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>' +
        `<Override PartName="/xl/workbook.xml" ContentType="${SPREADSHEET}.sheet.main+xml"/>` +
        `<Override PartName="/xl/styles.xml" ContentType="${SPREADSHEET}.styles+xml"/>` +
        each(
          (_, n) =>
            `<Override PartName="/xl/worksheets/sheet${n}.xml" ContentType="${SPREADSHEET}.worksheet+xml"/>`,
        ) +
        '</Types>',
    },
    { path: '_rels/.rels', xml: relationships(relationship('book', 'officeDocument', 'xl/workbook.xml')) },
    {
      path: 'xl/workbook.xml',
      xml:
        `${DECLARATION}<workbook xmlns="${MAIN}" xmlns:r="${RELATIONSHIPS}"><sheets>` +
        each((name, n) => `<sheet name="${escaped(name)}" sheetId="${n}" r:id="sheet${n}"/>`) +
        '</sheets></workbook>',
    },
    {
      path: 'xl/_rels/workbook.xml.rels',
      xml: relationships(
        each((_, n) => relationship(`sheet${n}`, 'worksheet', `worksheets/sheet${n}.xml`)) +
          relationship('styles', 'styles', 'styles.xml'),
      ),
    },
    { path: 'xl/styles.xml', xml: STYLES },
  ]
}

/** A sheet up to its first row under the heads, which stay in sight. */
export function sheetStart(columns: readonly Column[]): string {
  const widths = columns.map(({ kind }, index) => {
    const at = index + 1
    return `<col min="${at}" max="${at}" width="${kind === 'text' ? 32 : 14}" customWidth="1"/>`
  })
  const heads = columns.map(({ head, kind }, index) =>
    textCell(head, cellName(index, 1), isNumber(kind) ? STYLE.headOfNumbers : STYLE.head),
  )
  return (
    `${DECLARATION}<worksheet xmlns="${MAIN}"><sheetViews><sheetView workbookViewId="0">` +
    '<pane ySplit="1" topLeftCell="A2" activePane="bottomLeft" state="frozen"/></sheetView></sheetViews>' +
    `<cols>${widths.join('')}</cols><sheetData><row r="1">${heads.join('')}</row>`
  )
}

/** @param number of the row on its sheet; the heads are 1 */
export function sheetRow(columns: readonly Column[], cells: readonly Cell[], number: number): string {
  const xml = cells.map((cell, index) => cellXml(cell, columns[index], cellName(index, number)))
  return `<row r="${number}">${xml.join('')}</row>`
}

export const SHEET_END = '</sheetData></worksheet>'

function cellXml(cell: Cell, column: Column | undefined, at: string): string {
  if (cell === null || cell === '') return ''
  if (typeof cell === 'number')
    return numberCell(cell, at, column?.kind === 'money' ? STYLE.money : STYLE.number)
  if (column?.kind === 'date' && isLocalDate(cell)) return numberCell(dayNumber(cell), at, STYLE.date)
  return textCell(cell, at, STYLE.text)
}

const numberCell = (value: number, at: string, style: number): string =>
  `<c r="${at}" s="${style}"><v>${value}</v></c>`

const textCell = (text: string, at: string, style: number): string =>
  `<c r="${at}" s="${style}" t="inlineStr"><is><t xml:space="preserve">${escaped(cut(text))}</t></is></c>`

const isNumber = (kind: Column['kind']): boolean => kind !== 'text' && kind !== 'date'

/** 'A1', 'AB12'. */
function cellName(column: number, row: number): string {
  let letters = ''
  for (let left = column + 1; left > 0; left = Math.floor((left - 1) / 26))
    letters = String.fromCharCode(65 + ((left - 1) % 26)) + letters
  return `${letters}${row}`
}

/** Days since 30 December 1899, as spreadsheets count them from 1 March 1900 on. */
const dayNumber = (date: string): number => Date.parse(`${date}T00:00:00Z`) / 86_400_000 + 25_569

/** A longer text makes a spreadsheet take the whole file for a damaged one. In UTF-16 units. */
const LONGEST_TEXT = 32_767

const cut = (text: string): string =>
  text.length <= LONGEST_TEXT ? text : `${text.slice(0, LONGEST_TEXT - 2)} …`.toWellFormed()

/** `_xHHHH_` is how a sheet writes a character that XML has no place for, so a text that looks so is kept from it. */
const escaped = (text: string): string => escapeHtml(text).replaceAll(/_(?=x[0-9A-Fa-f]{4}_)/g, '_x005F_')

const DECLARATION = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>'
const PACKAGE = 'http://schemas.openxmlformats.org/package/2006'
const RELATIONSHIPS = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships'
const MAIN = 'http://schemas.openxmlformats.org/spreadsheetml/2006/main'
const SPREADSHEET = 'application/vnd.openxmlformats-officedocument.spreadsheetml'

const relationships = (all: string): string =>
  `${DECLARATION}<Relationships xmlns="${PACKAGE}/relationships">${all}</Relationships>`

const relationship = (id: string, type: string, target: string): string =>
  `<Relationship Id="${id}" Type="${RELATIONSHIPS}/${type}" Target="${target}"/>`

/** By their place among the cell formats of {@link STYLES}. */
const STYLE = { text: 0, number: 1, money: 2, date: 3, head: 4, headOfNumbers: 5 } as const

/** Format 4 is the built-in '#,##0.00'; some currencies have a third decimal. */
const STYLES =
  `${DECLARATION}<styleSheet xmlns="${MAIN}">` +
  '<numFmts count="2"><numFmt numFmtId="164" formatCode="yyyy\\-mm\\-dd"/>' +
  '<numFmt numFmtId="165" formatCode="#,##0.00#"/></numFmts>' +
  '<fonts count="2"><font><sz val="11"/><name val="Calibri"/></font>' +
  '<font><b/><sz val="11"/><name val="Calibri"/></font></fonts>' +
  '<fills count="2"><fill><patternFill patternType="none"/></fill><fill><patternFill patternType="gray125"/></fill></fills>' +
  '<borders count="1"><border><left/><right/><top/><bottom/><diagonal/></border></borders>' +
  '<cellStyleXfs count="1"><xf numFmtId="0" fontId="0" fillId="0" borderId="0"/></cellStyleXfs>' +
  '<cellXfs count="6">' +
  '<xf numFmtId="49" fontId="0" fillId="0" borderId="0" xfId="0" applyNumberFormat="1"/>' +
  '<xf numFmtId="4" fontId="0" fillId="0" borderId="0" xfId="0" applyNumberFormat="1"/>' +
  '<xf numFmtId="165" fontId="0" fillId="0" borderId="0" xfId="0" applyNumberFormat="1"/>' +
  '<xf numFmtId="164" fontId="0" fillId="0" borderId="0" xfId="0" applyNumberFormat="1"/>' +
  '<xf numFmtId="0" fontId="1" fillId="0" borderId="0" xfId="0" applyFont="1" applyAlignment="1"><alignment wrapText="1"/></xf>' +
  '<xf numFmtId="0" fontId="1" fillId="0" borderId="0" xfId="0" applyFont="1" applyAlignment="1"><alignment horizontal="right" wrapText="1"/></xf>' +
  '</cellXfs></styleSheet>'
