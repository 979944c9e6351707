import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { createTestHost, type TestHost, type TestScreen } from '../../support/host.ts'

let host: TestHost
let screen: TestScreen
beforeAll(async () => {
  host = await createTestHost({ setUp: false, now: Date.parse('2026-11-25T11:00:00Z') })
  screen = await host.openScreen()
})
afterAll(() => host.close())

describe('the demo', () => {
  test(
    'is filled from the first screen, once, however often it is asked for',
    { timeout: 90_000 },
    async () => {
      expect(await screen.client.demoProgress.query()).toBeNull()
      const answers = await Promise.all([screen.client.startDemo.mutate(), screen.client.startDemo.mutate()])
      expect(answers).toEqual([{ ok: true }, { ok: true }])
      const session = await screen.client.session.query()
      expect(session).toMatchObject({ setUp: true, demo: true })
      expect(session.people).toHaveLength(7)
      expect((await screen.client.cars.query()).cars).toHaveLength(9)
      expect(await screen.client.demoProgress.query()).toBeNull()
      expect(await screen.client.startDemo.mutate()).toMatchObject({
        ok: false,
        refusal: { code: 'already' },
      })
    },
  )

  test('holds a plan in force, and how each car’s finish has moved since an earlier one', async () => {
    const { inForce, cars } = await screen.client.plan.query()
    expect(inForce?.takenBy).toBe('Maren')
    expect(cars.length).toBeGreaterThan(4)
    for (const { carId } of inForce?.plan.cars ?? []) {
      const rows = await screen.client.planHistory.query({ carId })
      expect(rows.map(({ why, cause }) => [why, cause !== ''])).toEqual([
        ['day end', true],
        ['taken', true],
        ['day end', true],
        ['taken', false],
      ])
    }
  })

  test('shows something on every screen', async () => {
    const { client } = screen
    const floor = await client.shopFloor.query()
    expect(floor.bays.flatMap((bay) => bay.cars)).not.toEqual([])
    expect(floor.clockedOn).not.toEqual([])
    expect((await client.ownerDecisions.query()).open).not.toEqual([])
    expect((await client.variance.query()).byCar).not.toEqual([])
    expect((await client.ownerReports.query({ week: '2026-W48' })).reports).not.toEqual([])
    for (const { carId, visitId } of (await client.cars.query()).cars) {
      const car = await client.car.query({ carId })
      for (const { id } of car.repairs)
        expect((await client.repair.query({ carId, repairId: id })).repair.id).toBe(id)
      expect((await client.record.query({ carId })).lines.length).toBeGreaterThan(10)
      expect(visitId).not.toBeNull()
    }
    for (const { id, roles } of (await client.session.query()).people)
      if (roles.includes('technician'))
        expect((await client.daySheet.query({ personId: id })).personId).toBe(id)
    expect(host.log).toEqual([])
  })
})
