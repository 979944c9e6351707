import Papa from 'papaparse'
import readExcelFile from 'read-excel-file/node'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { entryIdSchema, type CarId } from '../../../domain/ids.ts'
import { usualSettings } from '../../../domain/usual-workshop.ts'
import { onGate } from '../../support/car-builder.ts'
import { createTestHost, type TestHost, type TestScreen } from '../../support/host.ts'
import { addRepair, bringInLarkspur } from '../../support/larkspur.ts'
import { manager, welder } from '../../support/workshop.ts'

let host: TestHost
let screen: TestScreen
let carId: CarId
beforeAll(async () => {
  host = await createTestHost()
  carId = bringInLarkspur(host.workshop)
  addRepair(host.workshop, carId, 'Boot floor')
  host.workshop.run(
    'logTime',
    {
      entryId: entryIdSchema.parse('entry-one'),
      personId: welder,
      on: { kind: 'work', targets: [onGate('Boot floor', 'opened')] },
      hotWork: false,
      cause: null,
      time: { kind: 'day', date: '2026-11-20', hours: 2.25 },
      shares: null,
      note: '=cold chisel; drill',
    },
    { carId, by: welder },
  )
  screen = await host.openScreen()
})
afterAll(() => host.close())

const linesOf = async (path: string) => {
  const answer = await screen.request(path)
  expect([path, answer.status]).toEqual([path, 200])
  expect(answer.headers.get('content-type')).toBe('text/csv; charset=utf-8')
  expect(answer.headers.get('cache-control')).toBe('no-store')
  const text = new TextDecoder('utf-8', { ignoreBOM: false }).decode(await answer.arrayBuffer())
  const { data, errors } = Papa.parse<Record<string, string>>(text, { header: true, skipEmptyLines: true })
  expect(errors).toEqual([])
  return { lines: data, file: answer.headers.get('content-disposition') }
}

const entriesPath = (grouping: string, key: string) =>
  `/variance/entries.csv?${new URLSearchParams({ grouping, key, carId }).toString()}`

describe('the figures of the Variance screen', () => {
  test('are given as CSV, a grouping each, with the figures that the screen shows', async () => {
    const view = await screen.client.variance.query()
    const { lines, file } = await linesOf('/variance/gate.csv')
    expect(file).toBe('attachment; filename="Variance Gates.csv"')
    expect(lines.map((line) => line.Gates)).toEqual(view.byGate.map(({ name }) => name))
    const opened = lines.find((line) => line.Gates === 'opened')
    expect(Number(opened?.['Spent h (AC)'])).toBe(2.25)
    expect(Number(opened?.['Authorised h (BAC)'])).toBeCloseTo(
      view.byGate.find(({ key }) => key === 'opened')?.hours.authorised ?? Number.NaN,
      2,
    )
    for (const by of ['car', 'type', 'zone', 'month']) await linesOf(`/variance/${by}.csv`)
  })

  test('are given as one workbook with a sheet for each grouping', async () => {
    const answer = await screen.request('/variance/all.xlsx')
    expect(answer.headers.get('content-disposition')).toBe('attachment; filename="Variance.xlsx"')
    const sheets = await readExcelFile(Buffer.from(await answer.arrayBuffer()))
    expect(sheets.map(({ sheet }) => sheet)).toEqual([
      'Cars',
      'Repair types',
      'Gates',
      'Zones',
      'Months',
      'Rework',
    ])
    const [heads, ...rows] = sheets[2]?.data ?? []
    const spent = heads?.indexOf('Spent h (AC)') ?? -1
    expect(rows.find(([name]) => name === 'opened')?.[spent]).toBe(2.25)
  })

  test('by person are given only where they are shown', async () => {
    expect((await screen.request('/variance/person.csv')).status).toBe(404)
    host.workshop.run('changeSettings', { ...usualSettings, figuresByPerson: true })
    expect((await screen.request('/variance/person.csv')).status).toBe(404)
    await screen.signIn(manager)
    expect((await linesOf('/variance/person.csv')).lines.length).toBeGreaterThan(0)
  })

  test('lead to their single time entries as CSV, with text that is no formula', async () => {
    const { lines } = await linesOf(entriesPath('gate', 'opened'))
    expect(lines).toEqual([
      expect.objectContaining({ Day: '2026-11-20', 'Hours h': '2.25', Note: "'=cold chisel; drill" }),
    ])
    expect((await linesOf(entriesPath('gate', 'welded'))).lines).toEqual([])
  })

  test('are refused where there are none, and to screens that are not paired', async () => {
    for (const path of ['/variance/nothing.csv', entriesPath('colour', 'red'), '/variance/entries.csv'])
      expect([path, (await screen.request(path)).status]).toEqual([path, 404])
    const answer = await host.handler(new Request(`http://${host.authority}/variance/gate.csv`))
    expect(answer.status).toBe(401)
  })
})
