import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { readAllCars } from '../../../db/reads.ts'
import { createTestHost, type TestHost, type TestScreen } from '../../support/host.ts'
import { tellEverything } from '../../support/whole.ts'
import { manager } from '../../support/workshop.ts'

const week = '2026-W48'
let host: TestHost
let screen: TestScreen
beforeAll(async () => {
  host = await createTestHost()
  await tellEverything(host)
  screen = await host.openScreen()
  await screen.signIn(manager)
})
afterAll(() => host.close())

async function saved(path: string): Promise<unknown> {
  const answer = await screen.request(path)
  expect([answer.status, answer.headers.get('content-type')]).toEqual([
    200,
    'application/json; charset=utf-8',
  ])
  expect(answer.headers.get('content-disposition')).toMatch(/^attachment; filename="[\w .-]+\.json"$/)
  expect(answer.headers.get('cache-control')).toBe('no-store')
  return answer.json()
}

const cars = () => readAllCars(host.workshop.db)

describe('what is printed can be had as data', () => {
  test('the owner’s week: all that the manager reads before issuing it', async () => {
    const { reports } = await screen.client.ownerReports.query({ week })
    expect(reports.length).toBeGreaterThan(1)
    for (const { visitId, start } of reports) {
      const shown = await screen.client.draftReport.mutate({ visitId, week, choices: start })
      expect(await saved(`/report-preview/${visitId}/${week}.json`)).toEqual(shown.ok && shown.content)
    }
  })

  test('the estimate: its letter, and the figures in it as numbers', async () => {
    const { id } = cars().find(({ shellNumber }) => shellNumber === 'S-102')!
    expect(await saved(`/estimate/${id}.json`)).toMatchObject({
      letter: { title: 'Marrick 2, shell S-102', greeting: 'Dear R. Okafor,' },
      figures: await screen.client.estimate.query({ carId: id }),
    })
  })

  test('each variation: its letter', async () => {
    const variations = cars().flatMap((car) =>
      [...car.variations.values()].map(({ id, title }) => [car.id, id, title]),
    )
    expect(variations.length).toBeGreaterThan(0)
    for (const [carId, id, title] of variations) {
      const capital = `${title!.slice(0, 1).toUpperCase()}${title!.slice(1)}`
      const letter = { title: capital, workshop: 'Brookside Metalwork', sections: expect.any(Array) }
      expect(await saved(`/variations/${carId}/${id}.json`)).toMatchObject(letter)
    }
  })

  test('by a signed-in manager only', async () => {
    const { id, visits, variations } = cars().find((car) => car.variations.size > 0)!
    const tablet = await host.openScreen()
    for (const path of [
      `/report-preview/${[...visits.keys()][0]}/${week}.json`,
      `/estimate/${id}.json`,
      `/variations/${id}/${[...variations.keys()][0]}.json`,
    ])
      expect((await tablet.request(path)).status, path).toBe(403)
  })
})
