import Papa from 'papaparse'
import readExcelFile from 'read-excel-file/node'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { costIdSchema, entryIdSchema, type CarId, variationIdSchema } from '../../../domain/ids.ts'
import { usualSettings } from '../../../domain/usual-workshop.ts'
import { onGate } from '../../support/car-builder.ts'
import { createTestHost, type TestHost, type TestScreen } from '../../support/host.ts'
import { addRepair, bringInLarkspur } from '../../support/larkspur.ts'
import { manager, welder } from '../../support/workshop.ts'

const opened = onGate('Boot floor', 'opened')
const FILES = ['hours', 'gates', 'variations'].flatMap((of) => [`${of}.csv`, `${of}.xlsx`])

let host: TestHost
let screen: TestScreen
let carId: CarId
beforeAll(async () => {
  host = await createTestHost()
  carId = bringInLarkspur(host.workshop)
  addRepair(host.workshop, carId, 'Boot floor')
  // Half past midnight in Berlin, still the evening before in UTC.
  const night = { start: '2026-11-20T23:30:00Z', end: '2026-11-21T00:30:00Z' }
  logTime('one', { kind: 'day', date: '2026-11-18', hours: 2.25 }, '=cold chisel; "drill"')
  logTime('two', { kind: 'span', ...night }, '')
  host.workshop.run(
    'raiseVariation',
    {
      variationId: variationIdSchema.parse('variation-longer'),
      visitId: host.workshop.car(carId).currentVisit!,
      payer: 'owner',
      title: '+ longer section',
      why: 'The channel is holed further forward.',
      ifNot: '',
      findings: [],
      attachments: [],
      lines: [{ target: opened, hours: 6, low: 4, high: 11 }],
      costs: [
        {
          costId: costIdSchema.parse('cost-sheet'),
          repairId: null,
          kind: 'material',
          name: 'Sheet',
          amount: 4_550,
        },
      ],
    },
    { carId },
  )
  screen = await host.openScreen()
})
afterAll(() => host.close())

type Time = Parameters<typeof host.workshop.run<'logTime'>>[1]['time']

function logTime(id: string, time: Time, note: string): void {
  host.workshop.run(
    'logTime',
    {
      entryId: entryIdSchema.parse(`entry-${id}`),
      personId: welder,
      on: { kind: 'work', targets: [opened] },
      hotWork: false,
      cause: null,
      time,
      shares: null,
      note,
    },
    { carId, by: welder },
  )
}

const take = async (file: string) => {
  const answer = await screen.request(`/take-out/${file}`)
  expect([file, answer.status]).toEqual([file, 200])
  expect(answer.headers.get('cache-control')).toBe('no-store')
  return { answer, name: answer.headers.get('content-disposition') }
}

const csvOf = async (file: string) => {
  const { answer, name } = await take(file)
  expect(answer.headers.get('content-type')).toBe('text/csv; charset=utf-8')
  const text = new TextDecoder('utf-8').decode(await answer.arrayBuffer())
  const { data, errors } = Papa.parse<Record<string, string>>(text, { header: true, skipEmptyLines: true })
  expect(errors).toEqual([])
  return { lines: data, name }
}

const bookOf = async (file: string) => {
  const { answer, name } = await take(file)
  const [sheet] = await readExcelFile(Buffer.from(await answer.arrayBuffer()))
  const [heads = [], ...rows] = sheet?.data ?? []
  const lines = rows.map((row) => Object.fromEntries(heads.map((head, index) => [String(head), row[index]])))
  return { sheet: sheet?.sheet, lines, name }
}

const refusalTo = async (path: string) => {
  const answer = await screen.request(`/take-out/${path}`)
  return [answer.status, ((await answer.json()) as { refusal: { message: string } }).refusal.message]
}

describe('what a workshop takes out', () => {
  test('is refused to everybody but a signed-in manager', async () => {
    for (const file of FILES) {
      expect(await refusalTo(file)).toEqual([
        403,
        'Only a manager who is signed in on this device may do this; a session ends after 30 minutes without use.',
      ])
      const unpaired = new Request(`http://${host.authority}/take-out/${file}`)
      expect((await host.handler(unpaired)).status).toBe(401)
    }
    await screen.signIn(manager)
    for (const file of FILES) await take(file)
  })

  test('are hours as CSV, with local days and text that is no formula, and without names while these are not shown', async () => {
    const { lines, name } = await csvOf('hours.csv')
    expect(name).toBe('attachment; filename="Hours without names.csv"')
    const shared = {
      Person: '',
      Car: 'Larkspur 4',
      'Shell number': 'S-101',
      Visit: 'visit 1',
      What: 'Boot floor: opened',
      'Rework cause': '',
      'By clock or hand': 'hand',
    }
    expect(lines).toEqual([
      { ...shared, Day: '2026-11-18', 'Hours h': '2.25', Note: `'=cold chisel; "drill"` },
      { ...shared, Day: '2026-11-21', 'Hours h': '1', Note: '' },
    ])
  })

  test('are hours of some days as a workbook, with names once figures by person are on', async () => {
    host.workshop.run('changeSettings', { ...usualSettings, figuresByPerson: true })
    const { sheet, lines, name } = await bookOf('hours.xlsx?from=2026-11-01&to=2026-11-20')
    expect(sheet).toBe('Hours')
    expect(name).toBe('attachment; filename="Hours from 2026-11-01 to 2026-11-20.xlsx"')
    expect(lines).toEqual([
      expect.objectContaining({
        Day: new Date('2026-11-18'),
        Person: 'Ilse Brandt',
        'Hours h': 2.25,
        Note: '=cold chisel; "drill"',
      }),
    ])
    expect((await csvOf('hours.csv?from=2026-11-21&to=')).lines.map(({ Day }) => Day)).toEqual(['2026-11-21'])
  })

  test('are gates, the same in both files', async () => {
    const { lines } = await csvOf('gates.csv')
    expect(lines).toHaveLength(8)
    expect(lines[0]).toMatchObject({
      Repair: 'Boot floor',
      Gate: 'opened',
      Status: 'open',
      'Spent h': '3.25',
    })
    const book = await bookOf('gates.xlsx')
    expect([book.sheet, book.lines.length]).toEqual(['Gates', 8])
    expect(book.lines[0]).toMatchObject({ Gate: 'opened', 'Spent h': 3.25, 'Earned h': 0 })
  })

  test('are variations with their money, in the main unit of the currency', async () => {
    const asked = { 'Asked at the least h': 4, 'Asked most likely h': 6, 'Asked at the most h': 11 }
    const money = 'Parts, materials and outside work asked EUR'
    expect((await bookOf('variations.xlsx')).lines).toEqual([
      expect.objectContaining({ Title: '+ longer section', ...asked, 'Accepted h': null, [money]: 45.5 }),
    ])
    expect((await csvOf('variations.csv')).lines).toEqual([
      expect.objectContaining({ Title: `'+ longer section`, Status: 'raised', [money]: '45.5' }),
    ])
  })

  test('is CSV still where no workbook can be made, which is said in words', async () => {
    const workerUrl = new URL('data:text/javascript,process.exit(3)')
    const other = await createTestHost({ workbooks: { workerUrl } })
    const desk = await other.openScreen()
    await desk.signIn(manager)
    const answer = await desk.request('/take-out/gates.xlsx')
    expect([answer.status, await answer.json()]).toMatchObject([
      500,
      {
        refusal: {
          message: 'The workbook could not be made: the worker ended with code 3.',
          next: 'Try again, or take the table as CSV.',
        },
      },
    ])
    expect(other.log).toEqual(['The workbook could not be made: the worker ended with code 3.'])
    expect((await desk.request('/take-out/gates.csv')).status).toBe(200)
    await other.close()
  })

  test('is refused in words for days the wrong way round, for no date, and for no such file', async () => {
    expect(await refusalTo('hours.csv?from=2026-11-24&to=2026-11-23')).toEqual([
      422,
      'The last day lies before the first one.',
    ])
    expect(await refusalTo('hours.xlsx?from=2026-13-01')).toEqual([422, 'One of the two days is no date.'])
    for (const file of ['hours.pdf', 'people.csv', 'hours'])
      expect(await refusalTo(file)).toEqual([404, 'There is no such file to take out.'])
  })
})
