import PostalMime from 'postal-mime'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { commandIdSchema, reportIdSchema, type CarId, type ReportId } from '../../../domain/ids.ts'
import type { ReportChoices } from '../../../domain/report/report-choices.ts'
import { reportPhotos } from '../../../domain/report/owner-week-shapes.ts'
import { createTestHost, type TestHost, type TestScreen } from '../../support/host.ts'
import { bringInReported } from '../../support/reported-car.ts'
import { choicesOf } from '../../support/owner-report.ts'
import { manager, welder } from '../../support/workshop.ts'

const week = '2026-W48'

let host: TestHost
let screen: TestScreen
let carId: CarId
let reportId: ReportId
beforeAll(async () => {
  host = await createTestHost()
  screen = await host.openScreen()
  carId = (await bringInReported(host, screen)).carId
  reportId = await issue(choicesOf())
})
afterAll(() => host.close())

async function issue(choices: ReportChoices): Promise<ReportId> {
  const id = reportIdSchema.parse(crypto.randomUUID())
  const commandId = commandIdSchema.parse(crypto.randomUUID())
  await screen.client.issueReport.mutate({ visitId: visit().id, week, choices, reportId: id, commandId })
  return id
}

function visit() {
  const car = host.workshop.car(carId)
  return car.visits.get(car.currentVisit!)!
}

const page = () => `/report-preview/${visit().id}/${week}.html`
const mail = (id = reportId) => `/reports/${id}.eml`
const refusalOf = async (answer: Response) => ({
  status: answer.status,
  refusal: ((await answer.json()) as { readonly refusal: { readonly code: string; readonly next: string } })
    .refusal,
})

describe('a draft as one page', () => {
  test('is saved with its photos and the manager’s words, and may run and load nothing', async () => {
    const words = 'Cold week, <b>warm</b> welds.'
    const draft = { visitId: visit().id, week, choices: choicesOf({ words }) }
    const prepared = await screen.client.draftReport.mutate(draft)
    const photos = prepared.ok ? reportPhotos(prepared.content) : []
    expect(photos).not.toEqual([])
    const answer = await screen.request(page())
    expect(answer.status).toBe(200)
    expect(answer.headers.get('content-type')).toBe('text/html; charset=utf-8')
    expect(answer.headers.get('content-disposition')).toBe(
      `attachment; filename="${week} R-1 not issued.html"`,
    )
    expect(answer.headers.get('content-security-policy')).toContain("default-src 'none'")
    expect(answer.headers.get('x-content-type-options')).toBe('nosniff')
    expect(answer.headers.get('cache-control')).toBe('no-store')
    const html = await answer.text()
    expect(html).toContain('Cold week, &#60;b&#62;warm&#60;/b&#62; welds.')
    expect(html).toContain('Draft, not issued')
    expect(html.match(/src="data:image\/jpeg;base64,\/9j\//g)).toHaveLength(photos.length)
    expect(html).not.toContain('could not be read')
  })
})

describe('an issued report as an e-mail', () => {
  test('is refused without the owner’s address, and the list of reports says so beforehand', async () => {
    const [line] = (await screen.client.ownerReports.query({ week })).reports
    expect(line?.ownerHasEmail).toBe(false)
    expect(await refusalOf(await screen.request(mail()))).toMatchObject({
      status: 422,
      refusal: {
        code: 'not-now',
        next: 'Enter the owner’s e-mail address on the Workshop screen under Contacts.',
      },
    })
  })

  test('goes from the workshop to the owner with the very file that was issued', async () => {
    const owner = { name: 'Jürgen "Jo" Weiß', phone: '', email: 'jo@weiss.example', address: '' }
    await screen.run('changeContact', { id: visit().ownerId, contact: owner })
    const [line] = (await screen.client.ownerReports.query({ week })).reports
    expect(line?.ownerHasEmail).toBe(true)
    const answer = await screen.request(mail())
    expect(answer.status).toBe(200)
    expect(answer.headers.get('content-type')).toBe('message/rfc822')
    expect(answer.headers.get('content-disposition')).toBe(`attachment; filename="${week} R-1.eml"`)
    const read = await PostalMime.parse(await answer.arrayBuffer())
    expect(read.to).toMatchObject([{ name: owner.name, address: owner.email }])
    expect(read.from).toBeUndefined()
    expect(read.subject).toMatch(/^Larkspur 4, shell R-1, Week 48, 23 to 29 Nov 2026 \(.+\)$/)
    expect(read.text).toContain(`Dear ${owner.name},`)
    expect(read.date).toBe(new Date(host.workshop.now).toISOString())
    const pdf = await (await screen.request(`/reports/${reportId}.pdf`)).arrayBuffer()
    expect(new Uint8Array(read.attachments[0]?.content as ArrayBuffer)).toEqual(new Uint8Array(pdf))
    expect(read.attachments[0]?.filename).toBe('Larkspur 4, shell R-1, Week 48, 23 to 29 Nov 2026.pdf')
  })

  test('is written in the language of its report', async () => {
    const german = await issue(choicesOf({ language: 'de' }))
    const read = await PostalMime.parse(await (await screen.request(mail(german))).arrayBuffer())
    expect(read.subject).toMatch(/^Larkspur 4, Karosserie R-1, Woche 48, 23\. bis 29\. November 2026 \(.+\)$/)
    expect(read.text).toMatch(/^Guten Tag, .+!\s+Anbei erhalten Sie unseren Bericht/)
  })

  test('names the workshop as its sender where the manager’s address is known', async () => {
    const contact = { name: 'Mara Lindqvist', phone: '', email: 'mara@harrow.example', address: '' }
    await screen.run('changeContact', { id: manager, contact })
    const read = await PostalMime.parse(await (await screen.request(mail())).arrayBuffer())
    expect(read.from?.address).toBe('mara@harrow.example')
    expect(read.subject).toContain(`(${read.from?.name})`)
  })
})

describe('what is refused', () => {
  test('both files to a technician and to a device that nobody is signed in on', async () => {
    const tablet = await host.openScreen()
    for (const path of [page(), mail()])
      expect(await refusalOf(await tablet.request(path))).toMatchObject({
        status: 403,
        refusal: { code: 'not-allowed' },
      })
    await tablet.signIn(welder)
    for (const path of [page(), mail()]) expect((await tablet.request(path)).status).toBe(403)
  })

  test('both files to a device that is not paired', async () => {
    for (const path of [page(), mail()])
      expect((await host.handler(new Request(`http://${host.authority}${path}`))).status).toBe(401)
  })

  test.each([
    '/reports/report-unknown.eml',
    '/report-preview/visit-unknown/2026-W48.html',
    '/report-preview/x/2026-W99.html',
  ])('there is nothing at %s', async (path) => {
    expect((await screen.request(path)).status).toBe(404)
  })
})
