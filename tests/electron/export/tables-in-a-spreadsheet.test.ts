import { afterAll, beforeAll, expect, test } from 'vitest'
import { contactBook } from '../../../db/contacts.ts'
import { recordPhoto } from '../../../db/photo-rows.ts'
import { readAllCars, readWorkshop } from '../../../db/reads.ts'
import { costIdSchema, entryIdSchema, variationIdSchema, type CarId } from '../../../domain/ids.ts'
import { gatesTable } from '../../../domain/report/gates-table.ts'
import { hoursTable } from '../../../domain/report/hours-table.ts'
import type { Cell, Table } from '../../../domain/report/table.ts'
import { VARIANCE_TABLES, varianceTables } from '../../../domain/report/variance-table.ts'
import { variationsTable } from '../../../domain/report/variations-table.ts'
import { rounded } from '../../../domain/text/words.ts'
import { usualSettings } from '../../../domain/usual-workshop.ts'
import { createViewContext } from '../../../domain/views/view-context.ts'
import { atOnce } from '../../support/at-once.ts'
import { onGate } from '../../support/car-builder.ts'
import { createTestHost, type TestHost } from '../../support/host.ts'
import { addRepair } from '../../support/larkspur.ts'
import {
  describeSpreadsheet,
  openInSpreadsheet,
  type OpenedCell,
  type OpenedSheet,
} from '../../support/spreadsheet.ts'
import { manager, welder, type Workshop } from '../../support/workshop.ts'
import { recordEveryKind } from '../../db/every-kind.ts'

/** Starts as a formula would (OWASP ASVS 5.0, 1.2.10), looks like a number, a day or an escape, or holds signs of CSV and XML. */
const NOTES = [
  '=1+1',
  '+1 of them',
  '-2',
  '@SUM(A1)',
  '007',
  '1,5',
  '2026-11-18',
  'TRUE',
  "'quoted'",
  'a "b"; c,\nd <e> & f',
  '_x0041_ Türschwelle 学 🔧',
]

/** Those that every spreadsheet takes for something else when they stand in a CSV. */
const LOST_IN_CSV = new Set(['007', '1,5', 'TRUE', 'November 2026'])

const BOOKS = {
  hours: '/take-out/hours.xlsx',
  gates: '/take-out/gates.xlsx',
  variations: '/take-out/variations.xlsx',
  variance: '/variance/all.xlsx',
}

const TEXTS = {
  hours: '/take-out/hours.csv',
  gates: '/take-out/gates.csv',
  variations: '/take-out/variations.csv',
  ...Object.fromEntries(VARIANCE_TABLES.map((by) => [by, `/variance/${by}.csv`])),
}

describeSpreadsheet('in LibreOffice', () => {
  let host: TestHost
  let sheets: ReadonlyMap<string, OpenedSheet>
  let texts: ReadonlyMap<string, OpenedSheet>
  let tables: ReadonlyMap<string, Table>
  beforeAll(async () => {
    host = await createTestHost()
    tellMuch(host.workshop)
    const screen = await host.openScreen()
    await screen.signIn(manager)
    const taken = async (paths: Readonly<Record<string, string>>) => {
      const files: Record<string, Uint8Array> = {}
      for (const [name, path] of Object.entries(paths))
        files[name] = await (await screen.request(path)).bytes()
      return files
    }
    sheets = await openInSpreadsheet('xlsx', await taken(BOOKS))
    texts = await openInSpreadsheet('csv', await taken(TEXTS))
    tables = new Map([
      ...tablesOf(host.workshop).map(
        (table) => [`${table.name.toLowerCase()}/${table.name}`, table] as const,
      ),
      ...varianceTables(await screen.client.variance.query()).map(
        (table) => [`variance/${table.name}`, table] as const,
      ),
    ])
  }, 120_000)
  afterAll(() => host.close())

  test('a workbook has the sheets of its tables', () => {
    expect([...sheets.keys()].toSorted()).toEqual([...tables.keys()].toSorted())
    expect(sheets.size).toBe(10)
  })

  test('it holds every cell of them, numbers as numbers, days as days and text as text', () => {
    for (const [name, table] of tables) {
      const [heads, ...rows] = sheets.get(name) ?? []
      expect([name, heads]).toEqual([name, table.columns.map(({ head }) => ({ text: head }))])
      expect([name, rows.map((row) => row.map(comparable))]).toEqual([
        name,
        table.rows.map(expectedRow(table)),
      ])
    }
  })

  test('it shows text as it was written, whatever it looks like', () => {
    const { columns } = tables.get('hours/Hours')!
    const at = columns.findIndex(({ head }) => head === 'Note')
    const notes = sheets.get('hours/Hours')?.map((row) => row[at])
    for (const text of NOTES) expect(notes).toContainEqual({ text })
  })

  test('a CSV has the same cells, with numbers as they are printed and no text run as a formula', () => {
    const names = { hours: 'hours/Hours', gates: 'gates/Gates', variations: 'variations/Variations' }
    const variance = { car: 'Cars', type: 'Repair types', gate: 'Gates', zone: 'Zones', month: 'Months' }
    const all = [
      ...Object.entries(names),
      ...Object.entries({ ...variance, person: 'People' }).map(
        ([by, name]) => [by, `variance/${name}`] as const,
      ),
    ]
    expect([...texts.keys()].toSorted()).toEqual(all.map(([file]) => `${file}/${file}`).toSorted())
    for (const [file, name] of all) {
      const table = tables.get(name)!
      const [, ...rows] = texts.get(`${file}/${file}`) ?? []
      const shown = rows.map((row, at) => row.map((cell, index) => inCsv(cell, table.rows[at]?.[index])))
      expect([name, shown]).toEqual([name, table.rows.map(printedRow(table))])
    }
  })
})

/** One car with every kind of fact, and one whose texts are hard. */
function tellMuch(workshop: Workshop): void {
  const photos = ['a', 'b', 'c'].map((letter) => letter.repeat(64))
  const facts = { type: 'jpeg', width: 60, height: 40, orientation: 1, taken: null } as const
  for (const sha256 of photos) recordPhoto(workshop.db, { sha256, byteCount: 1234, facts }, workshop.now)
  recordEveryKind(workshop, photos, 'd'.repeat(64))
  workshop.run('changeSettings', { ...usualSettings, figuresByPerson: true })
  const carId = workshop.addCar('=Tern 2', '202')
  addRepair(workshop, carId, 'Boot floor')
  NOTES.forEach((note, index) => logTime(workshop, carId, { note, index }))
  raiseVariation(workshop, carId)
}

function logTime(
  workshop: Workshop,
  carId: CarId,
  { note, index }: { readonly note: string; readonly index: number },
): void {
  workshop.run(
    'logTime',
    {
      entryId: entryIdSchema.parse(`entry-hard-${index}`),
      personId: welder,
      on: { kind: 'work', targets: [onGate('Boot floor', 'opened')] },
      hotWork: false,
      cause: null,
      // Sevenths of an hour have no end in decimals.
      time: { kind: 'day', date: '2026-11-18', hours: (index + 1) / 7 },
      shares: null,
      note,
    },
    { carId, by: welder },
  )
}

function raiseVariation(workshop: Workshop, carId: CarId): void {
  workshop.run(
    'raiseVariation',
    {
      variationId: variationIdSchema.parse('variation-hard'),
      visitId: workshop.car(carId).currentVisit!,
      payer: 'owner',
      title: '@longer section',
      why: 'The channel is holed further forward.',
      ifNot: '',
      findings: [],
      attachments: [],
      lines: [{ target: onGate('Boot floor', 'opened'), hours: 6, low: 4, high: 11 }],
      costs: [
        {
          costId: costIdSchema.parse('cost-hard'),
          repairId: null,
          kind: 'material',
          name: 'Sheet',
          amount: 4_555,
        },
      ],
    },
    { carId },
  )
}

/** What the files are made from, by the functions that make them. */
function tablesOf({ db, now }: Workshop): readonly Table[] {
  const context = createViewContext({ now, workshop: readWorkshop(db), nameOf: contactBook(db).nameOf })
  const cars = readAllCars(db)
  return [
    hoursTable(cars, { by: manager, range: { from: null, to: null }, context }),
    gatesTable(cars, context),
    variationsTable(cars, context),
  ].map(atOnce)
}

/** LibreOffice writes 15 digits, the last one not always as rounded here. */
const inTwelveDigits = (value: number): number => Number(value.toPrecision(12))

const comparable = (cell: OpenedCell) =>
  cell !== null && 'value' in cell && Number.isFinite(Number(cell.value))
    ? { number: inTwelveDigits(Number(cell.value)) }
    : cell

const expectedRow =
  ({ columns }: Table) =>
  (row: readonly Cell[]) =>
    row.map((cell, index) => {
      if (cell === null || cell === '') return null
      if (typeof cell === 'number') return { number: inTwelveDigits(cell) }
      return columns[index]?.kind === 'date' ? { value: cell } : { text: cell }
    })

/** As a person sees it: a spreadsheet makes a number of a shell number and a day of a note with a date. */
const inCsv = (cell: OpenedCell, meant: Cell | undefined) => {
  if (cell === null) return ''
  const shown = 'text' in cell ? cell.text : cell.value
  if (LOST_IN_CSV.has(String(meant))) return String(meant)
  return 'value' in cell && typeof meant === 'number' ? Number(shown) : shown
}

const printedRow =
  ({ columns }: Table) =>
  (row: readonly Cell[]) =>
    row.map((cell, index) =>
      typeof cell === 'number'
        ? rounded(cell, columns[index]?.kind === 'money' ? 3 : 2)
        : (cell ?? '').replace(/^(?=[=+\-@])/, "'"),
    )
