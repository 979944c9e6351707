import { mkdtemp, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { pathToFileURL } from 'node:url'
import readExcelFile from 'read-excel-file/node'
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import type { Table } from '../../../domain/report/table.ts'
import {
  createWorkbookMaker,
  PORTION,
  type WorkbookMaker,
  type WorkbookMakerOptions,
} from '../../../electron/export/workbook-maker.ts'
import { writeWorkbook } from '../../../electron/export/write-workbook.ts'

let folder: string
let maker: WorkbookMaker | null = null

beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'panelwright-workbooks-'))
})
afterEach(async () => {
  await maker?.close()
  maker = null
  await rm(folder, { recursive: true })
})

const start = (options: WorkbookMakerOptions = {}): WorkbookMaker => {
  maker = createWorkbookMaker(options)
  return maker
}

/** A worker made of a few lines, for what the real one never does. */
const workerOf = async (source: string): Promise<URL> => {
  const path = join(folder, 'worker.mjs')
  await writeFile(path, `import { parentPort } from 'node:worker_threads'\n${source}`)
  return pathToFileURL(path)
}

const gates: Table = {
  name: 'Gates',
  columns: [
    { head: 'Gate', kind: 'text' },
    { head: 'Done on', kind: 'date' },
    { head: 'Spent h', kind: 'hours' },
    { head: 'Asked KWD', kind: 'money' },
  ],
  rows: [
    ['welded; "seam"\nnew <line> & more', '2026-11-20', 12.25, 12.345],
    ['=HYPERLINK("x")', 'not known', 0, null],
    ['', null, 1 / 3, -0],
  ],
}

const numbered = (count: number): Table => ({
  name: 'Numbered',
  columns: [{ head: 'Number', kind: 'hours' }],
  rows: Array.from({ length: count }, (_, index) => [index]),
})

describe('tables as a workbook', () => {
  // Reference: read-excel-file 9.3.
  test('are read back sheet by sheet: text as text, numbers as numbers, days as days', async () => {
    const book = await start().toXlsx([gates, { ...gates, name: 'Zones & "rest"', rows: [] }])
    const sheets = await readExcelFile(Buffer.from(book))
    expect(sheets.map(({ sheet }) => sheet)).toEqual(['Gates', 'Zones & "rest"'])
    const heads = ['Gate', 'Done on', 'Spent h', 'Asked KWD']
    expect(sheets[0]?.data).toEqual([
      heads,
      ['welded; "seam"\nnew <line> & more', new Date('2026-11-20'), 12.25, 12.345],
      ['=HYPERLINK("x")', 'not known', 0, null],
      [null, null, 1 / 3, 0],
    ])
    expect(sheets[1]?.data).toEqual([heads])
  })

  test('longer than a portion keep their rows, each sheet its own', async () => {
    const lengths = [2 * PORTION, 0, 2 * PORTION + 1, 1]
    const book = await start().toXlsx(lengths.map(numbered))
    const sheets = await readExcelFile(Buffer.from(book))
    const rowsOf = (count: number) => [['Number'], ...numbered(count).rows]
    expect(sheets.map(({ data }) => data)).toEqual(lengths.map(rowsOf))
  })

  // ECMA-376 has 1,048,576 rows and 32,767 characters a cell.
  test('stop where the format ends', async () => {
    const { columns } = numbered(0)
    const tooMany: never[][] = []
    tooMany.length = 1_048_576
    const portions = async function* () {
      yield tooMany
    }
    await expect(writeWorkbook([{ name: 'Numbered', columns, portions: portions() }])).rejects.toThrow(
      'the sheet Numbered would have more than 1,048,576 rows',
    )
    const long = { ...gates, rows: [['x'.repeat(40_000), null, null, null]] }
    const [sheet] = await readExcelFile(Buffer.from(await start().toXlsx([long])))
    expect(sheet?.data[1]?.[0]).toBe(`${'x'.repeat(32_765)} …`)
  })
})

describe('the maker of workbooks', () => {
  test('leaves the work to its worker, and hands it rows by the portion, one for each asking', async () => {
    const counts = `
      parentPort.on('message', ({ sheets, rows }) => {
        const lengths = []
        let left = sheets.length
        rows.on('message', (portion) => {
          lengths.push(portion?.length ?? null)
          if (portion === null) left -= 1
          if (left > 0) return rows.postMessage('next')
          parentPort.postMessage({ ok: true, bytes: new TextEncoder().encode(JSON.stringify(lengths)) })
        })
        rows.postMessage('next')
      })`
    const { toXlsx } = start({ workerUrl: await workerOf(counts) })
    const answer = await toXlsx([numbered(2 * PORTION + 1), numbered(0), numbered(1)])
    expect(JSON.parse(new TextDecoder().decode(answer))).toEqual([PORTION, PORTION, 1, null, null, 1, null])
  })

  test('writes a sheet that is larger than the memory of its worker', { timeout: 60_000 }, async () => {
    const note = 'Seam opened. '.repeat(400)
    const rows = Array.from({ length: 14_000 }, () => [note, null, null, null])
    expect((await start().toXlsx([{ ...gates, rows }])).length).toBeGreaterThan(100_000)
  })

  test('starts anew after its worker has ended in the middle of a workbook', async () => {
    const ends = `parentPort.on('message', () => process.exit(3))`
    const { toXlsx } = start({ workerUrl: await workerOf(ends) })
    for (let time = 0; time < 2; time += 1)
      await expect(toXlsx([gates])).rejects.toThrow(
        'The workbook could not be made: the worker ended with code 3.',
      )
  })

  test('says why a workbook could not be made, and makes the next one', async () => {
    const { toXlsx } = start()
    const bad = { ...gates, columns: [null as never] }
    await expect(toXlsx([bad])).rejects.toThrow(/^The workbook could not be made: .+\.$/)
    expect((await toXlsx([gates])).length).toBeGreaterThan(1000)
  })

  test('gives up a workbook that takes too long', async () => {
    const { toXlsx } = start({
      workerUrl: await workerOf(`parentPort.on('message', () => {})`),
      jobTimeoutMs: 50,
    })
    await expect(toXlsx([gates])).rejects.toThrow('it took longer than 0.05 s')
  })

  test('answers what waits when it is closed, and takes no more', async () => {
    const { toXlsx, close } = start({ workerUrl: await workerOf(`parentPort.on('message', () => {})`) })
    const waiting = [toXlsx([gates]), toXlsx([gates])].map((each) =>
      each.catch((error: Error) => error.message),
    )
    await close()
    const closing = 'The workbook could not be made: the program is closing.'
    expect(await Promise.all(waiting)).toEqual([closing, closing])
    await expect(toXlsx([gates])).rejects.toThrow(closing)
  })
})
