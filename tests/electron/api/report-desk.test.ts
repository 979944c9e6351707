import { createHash } from 'node:crypto'
import { readdirSync, rmSync } from 'node:fs'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { photosFolder } from '../../../db/data-paths.ts'
import { openDatabase } from '../../../db/open-database.ts'
import { originalPath } from '../../../db/photos/photo-files.ts'
import { sharp } from '../../../db/photos/sharp.ts'
import { readDraft } from '../../../db/reports-in-preparation.ts'
import { commandIdSchema, reportIdSchema, type CarId } from '../../../domain/ids.ts'
import { reportPhotos } from '../../../domain/report/owner-week-shapes.ts'
import type { ReportChoices } from '../../../domain/report/report-choices.ts'
import { usualReports } from '../../../domain/usual-workshop.ts'
import { refusalOf, createTestHost, type TestHost, type TestScreen } from '../../support/host.ts'
import { choicesOf } from '../../support/owner-report.ts'
import { bringInReported } from '../../support/reported-car.ts'

const week = '2026-W48'

let host: TestHost
let screen: TestScreen
let carId: CarId
/** What the disk says to the next file of a report; null while it is well. */
let disk: NodeJS.ErrnoException | null = null

beforeAll(async () => {
  host = await createTestHost({ beforeStoringReport: () => disk })
  screen = await host.openScreen()
  carId = (await bringInReported(host, screen)).carId
})
afterAll(() => host.close())

const visitId = () => host.workshop.car(carId).currentVisit!
const line = async () => (await screen.client.ownerReports.query({ week })).reports[0]!
const draft = async (more: Partial<ReportChoices> = {}) => {
  const answer = await screen.client.draftReport.mutate({
    visitId: visitId(),
    week,
    choices: choicesOf(more),
  })
  if (!answer.ok) throw new Error(answer.refusal.message)
  return answer.content
}
const prepare = () => screen.client.prepareReport.mutate({ visitId: visitId(), week })
const issue = async (choices: ReportChoices) => {
  const reportId = reportIdSchema.parse(crypto.randomUUID())
  const commandId = commandIdSchema.parse(crypto.randomUUID())
  return screen.client.issueReport.mutate({ visitId: visitId(), week, choices, reportId, commandId })
}
const issued = async (choices: ReportChoices): Promise<string> => {
  const answer = await issue(choices)
  if (!answer.ok) throw new Error(answer.refusal.message)
  return answer.reportId
}
const files = () => readdirSync(join(host.workshop.dataDir!, 'reports'), { recursive: true })
const sha256 = (bytes: ArrayBuffer) => createHash('sha256').update(new Uint8Array(bytes)).digest('hex')

describe('a draft', () => {
  test('is on the disk as soon as it is answered, with all that was chosen', async () => {
    const [photo] = reportPhotos(await draft())
    const chosen = choicesOf({
      words: 'A good week.',
      photos: [photo!.attachmentId],
      crops: [{ attachmentId: photo!.attachmentId, crop: { left: 0.5, top: 0, width: 0.5, height: 1 } }],
      names: true,
      dates: 'none',
    })
    await draft(chosen)
    // As the next start of the host would find it: on a connection of its own.
    const db = openDatabase(host.workshop.dataDir!, { readonly: true })
    try {
      expect(readDraft(db, visitId(), week)).toEqual(chosen)
    } finally {
      db.close()
    }
    expect((await line()).draft).toEqual(chosen)
  })

  test('that differs in nothing from what a report starts with is none, and follows what the workshop sets', async () => {
    await draft()
    expect((await line()).draft).toBeNull()
    await screen.run('setReports', { ...usualReports, names: true, dates: 'later date', language: 'de' })
    expect(await line()).toMatchObject({
      draft: null,
      start: { names: true, dates: 'later date', language: 'de' },
    })
    await screen.run('setReports', usualReports)
  })

  test('shows of a photo the part that was chosen, from the original', async () => {
    const [photo] = reportPhotos(await draft())
    const crop = { left: 0.5, top: 0.25, width: 0.25, height: 0.5 }
    const content = await draft({ crops: [{ attachmentId: photo!.attachmentId, crop }] })
    expect(reportPhotos(content)[0]?.crop).toEqual(crop)
    const page = await (await screen.request(`/report-preview/${visitId()}/${week}.html`)).text()
    const [first = ''] = page.match(/(?<=data:image\/jpeg;base64,)[^"]+/) ?? []
    const shown = await sharp(Buffer.from(first, 'base64')).metadata()
    const whole = await sharp(originalPath(photosFolder(host.workshop.dataDir!), photo!.sha256)).metadata()
    expect([shown.width, shown.height]).toEqual([whole.width / 4, whole.height / 2])
    await draft()
  })
})

describe('preparing', () => {
  test('by hand says when, and that nothing is wrong', async () => {
    expect(await prepare()).toEqual({ ok: true, problems: [] })
    expect((await line()).prepared).toEqual({ at: host.workshop.now, problems: [] })
    expect((await line()).issued).toEqual([])
  })

  test('is refused to a device that no manager is signed in on', async () => {
    const tablet = await host.openScreen()
    const asked = tablet.client.prepareReport.mutate({ visitId: visitId(), week })
    expect((await refusalOf(asked)).code).toBe('not-allowed')
  })
})

describe('what goes wrong', () => {
  test.each([
    ['ENOSPC', 'The disk with the data folder is full', 'Make room on it'],
    ['EACCES', 'cannot be written to (EACCES)', 'this account may write to it'],
  ])('on the disk (%s) is said, and nothing is issued or left', async (code, message, next) => {
    disk = Object.assign(new Error(code), { code, syscall: 'write' })
    const answer = await issue(choicesOf())
    disk = null
    expect(answer).toMatchObject({ ok: false, refusal: { code: 'storage' } })
    expect(answer.ok ? '' : answer.refusal.message).toContain(message)
    expect(answer.ok ? '' : answer.refusal.next).toContain(next)
    expect(host.workshop.car(carId).reports.size).toBe(0)
  })
})

describe('a database on a full disk', () => {
  test('keeps no draft, and says so', async () => {
    const { sqlite } = host.workshop.db.writer
    const pages = sqlite.pragma('page_count', { simple: true }) as number
    sqlite.pragma(`max_page_count = ${pages}`)
    const full = { ok: false, refusal: { message: 'The disk with the data folder is full.' } }
    const choices = choicesOf({ words: 'A long week. '.repeat(700) })
    const answer = await screen.client.draftReport.mutate({ visitId: visitId(), week, choices })
    sqlite.pragma('max_page_count = 1000000')
    expect(answer).toMatchObject(full)
    expect((await line()).draft).toBeNull()
  })
})

describe('an issued report', () => {
  test('is kept as a PDF and as a page, which is served byte for byte and may run nothing', async () => {
    const reportId = await issued(choicesOf({ words: 'Cold week.', names: true }))
    const fact = host.workshop.car(carId).reports.get(reportIdSchema.parse(reportId))!
    expect(fact.choices).toMatchObject({ words: 'Cold week.', names: true, dates: 'range' })
    expect(files()).toEqual(expect.arrayContaining([`${fact.sha256}.pdf`, `${fact.page}.html`]))
    const answer = await screen.request(`/reports/${reportId}.html`)
    expect(answer.status).toBe(200)
    expect(answer.headers.get('content-type')).toBe('text/html; charset=utf-8')
    expect(answer.headers.get('content-security-policy')).toMatch(/^default-src 'none'.*; sandbox$/)
    expect(answer.headers.get('x-content-type-options')).toBe('nosniff')
    const bytes = await answer.arrayBuffer()
    expect(sha256(bytes)).toBe(fact.page)
    const page = new TextDecoder().decode(bytes)
    expect(page).toContain('Cold week.')
    expect(page).not.toContain('not issued')
    expect((await line()).draft).toBeNull()
    expect((await line()).prepared).toBeNull()
  })

  test('is corrected from where it was: the new one names it, and it stays as it was', async () => {
    const [first] = (await line()).issued
    const before = await (await screen.request(`/reports/${first!.reportId}.pdf`)).arrayBuffer()
    const { start } = await line()
    expect(start).toMatchObject({ words: 'Cold week.', names: true })
    expect(start.photos).toHaveLength(1)
    const content = await draft({ ...start, words: 'Warm week.' })
    expect(content.number).toBe(2)
    expect(content.opening[0]).toContain('report 1')
    await issued({ ...start, words: 'Warm week.' })
    expect((await line()).issued.map(({ number, hasPage }) => [number, hasPage])).toEqual([
      [2, true],
      [1, true],
    ])
    const after = await (await screen.request(`/reports/${first!.reportId}.pdf`)).arrayBuffer()
    expect(sha256(after)).toBe(sha256(before))
  })

  test('never has a hole where a photo was: it is refused, and the photo is named with what to do', async () => {
    const [photo] = reportPhotos(await draft())
    rmSync(originalPath(photosFolder(host.workshop.dataDir!), photo!.sha256))
    const words = `The file of the photo '${photo!.caption}' (${photo!.taken}) is gone from the photo folder.`
    const answer = await issue(choicesOf())
    expect(answer).toMatchObject({ ok: false, refusal: { code: 'storage', message: words } })
    const prepared = await prepare()
    expect(prepared.ok && prepared.problems).toEqual([expect.stringContaining(words)])
    expect(prepared.ok && prepared.problems[0]).toContain('or choose other photos for this report.')
    expect(host.workshop.car(carId).reports.size).toBe(2)
  })
})
