import { createHash } from 'node:crypto'
import { readdirSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { commandIdSchema, reportIdSchema, visitIdSchema, type CarId } from '../../../domain/ids.ts'
import type { ReportChoices } from '../../../domain/report/report-choices.ts'
import type { Floor } from '../../support/floor.ts'
import { createTestHost, refusalOf, type TestHost, type TestScreen } from '../../support/host.ts'
import { bringInReported } from '../../support/reported-car.ts'
import { choicesOf } from '../../support/owner-report.ts'
import { manager, welder } from '../../support/workshop.ts'

/** The week of the workshop's first morning. */
const week = '2026-W48'

let host: TestHost
let screen: TestScreen
let floor: Floor
let carId: CarId
beforeAll(async () => {
  host = await createTestHost()
  screen = await host.openScreen()
  const reported = await bringInReported(host, screen)
  carId = reported.carId
  floor = reported.floor
})
afterAll(() => host.close())

const visitId = () => host.workshop.car(carId).currentVisit!
const draft = ({ week: of = week, ...more }: Partial<ReportChoices> & { readonly week?: string } = {}) => ({
  visitId: visitId(),
  week: of,
  choices: choicesOf(more),
})
const order = (words = '') => ({
  ...draft({ words }),
  reportId: reportIdSchema.parse(crypto.randomUUID()),
  commandId: commandIdSchema.parse(crypto.randomUUID()),
})
const lines = async (of = week) => (await screen.client.ownerReports.query({ week: of })).reports
const pdf = async (path: string) => {
  const answer = await screen.request(path)
  return { status: answer.status, headers: answer.headers, bytes: new Uint8Array(await answer.arrayBuffer()) }
}
const isPdf = (bytes: Uint8Array) => new TextDecoder('latin1').decode(bytes).startsWith('%PDF-1.7')

describe('a report', () => {
  test('can be written for every car that is here in that week', async () => {
    const view = await screen.client.ownerReports.query({ week })
    expect([view.previous, view.next]).toEqual(['2026-W47', '2026-W49'])
    expect(view.reports).toEqual([
      {
        carId,
        carName: 'Larkspur 4',
        shellNumber: 'R-1',
        visitId: visitId(),
        owner: 'R. Okafor',
        ownerHasEmail: false,
        status: 'in work',
        issued: [],
        before: null,
        draft: null,
        start: choicesOf(),
        prepared: null,
      },
    ])
    expect(await lines('2026-W47')).toEqual([])
  })

  test('is prepared: its content is shown, the words are kept, and its preview is a PDF that is issued to nobody', async () => {
    const prepared = await screen.client.draftReport.mutate(draft({ words: 'A good week.' }))
    expect(prepared).toMatchObject({
      ok: true,
      content: { title: 'Larkspur 4, shell R-1', words: ['A good week.'] },
    })
    expect((await lines())[0]?.draft).toEqual(choicesOf({ words: 'A good week.' }))
    const preview = await pdf(`/report-preview/${visitId()}/${week}.pdf`)
    expect(preview.status).toBe(200)
    expect(preview.headers.get('content-type')).toBe('application/pdf')
    expect(preview.headers.get('cache-control')).toBe('no-store')
    expect(isPdf(preview.bytes)).toBe(true)
    expect((await lines())[0]?.issued).toEqual([])
  })

  test('is issued once, kept as its file and never changes', async () => {
    const issued = order('Issued words.')
    expect(await screen.client.issueReport.mutate(issued)).toEqual({ ok: true, reportId: issued.reportId })
    const [line] = await lines()
    expect(line?.issued).toMatchObject([{ reportId: issued.reportId, week, by: 'Mara Lindqvist' }])
    expect(line?.draft).toBeNull()

    const first = await pdf(`/reports/${issued.reportId}.pdf`)
    expect(first.status).toBe(200)
    expect(isPdf(first.bytes)).toBe(true)
    expect(first.headers.get('content-disposition')).toBe(`inline; filename="${week} R-1.pdf"`)
    const { sha256, head } = host.workshop.car(carId).reports.get(issued.reportId)!
    expect(createHash('sha256').update(first.bytes).digest('hex')).toBe(sha256)
    expect(head).toMatch(/^[0-9a-f]{64}$/)

    // A repeat and more work change nothing of it.
    expect(await screen.client.issueReport.mutate(issued)).toEqual({ ok: true, reportId: issued.reportId })
    await floor.run('addNote', { text: 'later' }, { by: welder })
    expect((await pdf(`/reports/${issued.reportId}.pdf`)).bytes).toEqual(first.bytes)
    expect((await lines())[0]?.issued).toHaveLength(1)
  })

  test('of a later week shows the one before', async () => {
    host.workshop.pass({ hours: 7 * 24 })
    await screen.signIn(manager)
    const [line] = await lines('2026-W49')
    expect(line).toMatchObject({ issued: [], before: { week, by: 'Mara Lindqvist' } })
  })
})

describe('what is refused', () => {
  test('preparing and issuing by a technician', async () => {
    const tablet = await host.openScreen()
    await tablet.signIn(welder)
    expect((await refusalOf(tablet.client.draftReport.mutate(draft()))).code).toBe('not-allowed')
    expect((await refusalOf(tablet.client.issueReport.mutate(order()))).code).toBe('not-allowed')
  })

  test('a visit that is unknown, a week before it and a week that does not exist', async () => {
    await screen.signIn(manager)
    const unknown = { ...draft(), visitId: visitIdSchema.parse('visit-unknown') }
    expect(await screen.client.draftReport.mutate(unknown)).toMatchObject({ refusal: { code: 'unknown' } })
    const early = await screen.client.draftReport.mutate(draft({ week: '2026-W20' }))
    expect(early).toMatchObject({ ok: false, refusal: { code: 'not-now' } })
    expect((await refusalOf(screen.client.ownerReports.query({ week: '2025-W53' }))).code).toBe('bad-input')
  })

  test.each([
    '/reports/report-unknown.pdf',
    '/report-preview/visit-unknown/2026-W48.pdf',
    '/report-preview/x/2026-W99.pdf',
  ])('there is nothing at %s', async (path) => {
    expect((await pdf(path)).status).toBe(404)
  })

  test('a report whose file was changed on the disk is not handed out', async () => {
    const issued = order()
    await screen.signIn(manager)
    await screen.client.issueReport.mutate(issued)
    const folder = join(host.workshop.dataDir!, 'reports')
    const { sha256 } = host.workshop.car(carId).reports.get(issued.reportId)!
    expect(readdirSync(folder)).toContain(`${sha256}.pdf`)
    writeFileSync(join(folder, `${sha256}.pdf`), 'something else')
    const answer = await screen.request(`/reports/${issued.reportId}.pdf`)
    expect(answer.status).toBe(404)
    expect(await answer.json()).toMatchObject({ refusal: { code: 'storage' } })
  })
})

test('a report that cannot be printed is not issued, says so and leaves nothing behind', async () => {
  const failing = await createTestHost({
    printReport: () => Promise.reject(new Error('The report could not be printed: the worker ended.')),
  })
  try {
    const car = failing.workshop.addCar('Larkspur 5', 'R-2')
    const desk = await failing.openScreen()
    await desk.signIn(manager)
    const wanted = { ...order(), visitId: failing.workshop.car(car).currentVisit! }
    expect(await desk.client.issueReport.mutate(wanted)).toMatchObject({
      ok: false,
      refusal: { code: 'storage', message: 'The report could not be printed: the worker ended.' },
    })
    expect(failing.workshop.car(car).reports.size).toBe(0)
    expect(failing.log).toEqual([
      'Larkspur 5, shell R-2, 2026-W48: The report could not be printed: the worker ended.',
    ])
  } finally {
    await failing.close()
  }
})
