import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { createPlannedHost, type PlannedHost } from '../../support/planned-host.ts'
import { textOfPdf } from '../../support/pdf-text.ts'
import { metalBay, painter, storageBay, welder } from '../../support/workshop.ts'

let planned: PlannedHost
beforeAll(async () => {
  planned = await createPlannedHost()
  planned.host.planner.start()
  await planned.settled()
})
afterAll(() => planned.host.close())

const get = (path: string) => planned.screen.request(path)

describe('the plan of a person or a bay', () => {
  test('is given as a calendar', async () => {
    const answer = await get(`/plan/bay/${metalBay}.ics`)
    expect(answer.headers.get('content-type')).toBe('text/calendar; charset=utf-8')
    expect(answer.headers.get('content-disposition')).toBe('attachment; filename="Plan Metal 1.ics"')
    const text = await answer.text()
    expect(text.startsWith('BEGIN:VCALENDAR\r\n')).toBe(true)
    expect(text.replaceAll('\r\n ', '')).toContain('SUMMARY:Larkspur 4\\, Boot floor: opened')
  })

  test('is given as a PDF, marked as a proposal until it is taken', async () => {
    const { proposal } = await planned.settled()
    const [worker] = proposal?.plan.work[0]?.people ?? []
    const answer = await get(`/plan/person/${worker}.pdf`)
    expect(answer.headers.get('content-type')).toBe('application/pdf')
    expect(answer.headers.get('cache-control')).toBe('no-store')
    const bytes = new Uint8Array(await answer.arrayBuffer())
    expect(textOfPdf(bytes)).toContain('not taken')
    expect(textOfPdf(bytes)).toContain('Boot floor: opened')
  })

  test('is refused where there is none: another file, nobody known, nothing planned', async () => {
    for (const path of [
      `/plan/person/${welder}.txt`,
      '/plan/person/person-nobody.pdf',
      '/plan/bay/bay-nowhere.ics',
      `/plan/bay/${storageBay}.ics`,
    ]) {
      const answer = await get(path)
      expect([path, answer.status]).toEqual([path, 404])
      expect(await answer.json()).toMatchObject({ ok: false, refusal: { code: 'unknown' } })
    }
  })

  test('is for paired screens only', async () => {
    const { handler, authority } = planned.host
    const answer = await handler(new Request(`http://${authority}/plan/person/${painter}.pdf`))
    expect(answer.status).toBe(401)
  })
})
