import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { carIdSchema, entryIdSchema, type CarId } from '../../../domain/ids.ts'
import { onGate } from '../../support/car-builder.ts'
import { createTestHost, refusalOf, type TestHost, type TestScreen } from '../../support/host.ts'
import { addRepair, bringInLarkspur } from '../../support/larkspur.ts'
import { manager, welder } from '../../support/workshop.ts'

let host: TestHost
let desk: TestScreen
let carId: CarId
const left = entryIdSchema.parse('entry-left')

/** Two hours on each of the eight gates, and a clock that was started at 15:30 yesterday and runs on. */
beforeAll(async () => {
  host = await createTestHost()
  const { workshop } = host
  carId = bringInLarkspur(workshop)
  addRepair(workshop, carId, 'Boot floor')
  workshop.pass({ hours: 7, minutes: 30 })
  const on = { kind: 'work' as const, targets: [onGate('Boot floor', 'opened')] }
  const clock = { entryId: left, personId: welder, on, hotWork: false, cause: null }
  workshop.run('startClock', clock, { carId, by: welder })
  workshop.pass({ hours: 17 })
  desk = await host.openScreen()
  await desk.signIn(manager)
})
afterAll(async () => {
  await host.close()
  if (host.log.length > 0) throw new Error(`The host reported a defect: ${host.log.join('\n')}`)
})

describe('the hours of a car', () => {
  test('count the running clock to the end of its day, and warn of it here and on the shop floor', async () => {
    const sheet = await desk.client.hoursSheet.query({ carId })
    expect(sheet.total).toMatchObject({ hours: { authorised: 16, spent: 1 }, expected: 16 })
    expect(sheet.works[0]!.gates[0]!.entries).toMatchObject([{ entryId: left, running: true, hours: 1 }])
    expect(sheet.works[0]!.band!.p80).toBeGreaterThan(sheet.works[0]!.band!.p50)
    const { attention } = await desk.client.shopFloor.query()
    expect(attention.map(({ title }) => title)).toEqual(['Clocks past the end of the day'])
    expect(sheet.attention).toEqual(attention)
  })

  test('warn no more once somebody has said when it stopped', async () => {
    const end = new Date(host.workshop.now - 16 * 3_600_000 - 30 * 60_000).toISOString()
    await desk.run('confirmClock', { entryId: left, end, reason: '' }, { carId })
    expect((await desk.client.shopFloor.query()).attention).toEqual([])
    const sheet = await desk.client.hoursSheet.query({ carId })
    expect(sheet).toMatchObject({ attention: [], total: { hours: { spent: 0.5 } } })
  })

  test('of a car that is not known are refused with what to do', async () => {
    const refusal = await refusalOf(desk.client.hoursSheet.query({ carId: carIdSchema.parse('car-nowhere') }))
    expect(refusal.next).toBe('Choose it from the list of cars.')
  })
})
