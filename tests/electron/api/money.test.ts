import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import type { CarId } from '../../../domain/ids.ts'
import { visitIdSchema } from '../../../domain/ids.ts'
import { repairId } from '../../support/car-builder.ts'
import { createTestHost, type TestHost, type TestScreen } from '../../support/host.ts'
import { addRepair, bringInLarkspur } from '../../support/larkspur.ts'
import { cost, costId, spendingId } from '../../support/money-builder.ts'
import { manager, welder } from '../../support/workshop.ts'

let host: TestHost
let desk: TestScreen
let tablet: TestScreen
let carId: CarId
const visitId = visitIdSchema.parse('visit-s-101')

/** Two hours on each of the eight gates, and a panel. */
beforeAll(async () => {
  host = await createTestHost()
  const { workshop } = host
  const metalwork = { skill: 'metalwork', perHour: 7_500 }
  workshop.run('setRates', { from: '2026-01-01', usual: 6_000, bySkill: [metalwork] })
  carId = bringInLarkspur(workshop)
  addRepair(workshop, carId, 'Boot floor')
  desk = await host.openScreen()
  tablet = await host.openScreen()
  await desk.signIn(manager)
})
afterAll(async () => {
  await host.close()
  if (host.log.length > 0) throw new Error(`The host reported a defect: ${host.log.join('\n')}`)
})

describe('figures of money', () => {
  test('are answered to a manager who is signed in', async () => {
    await desk.run(
      'setCosts',
      { visitId, costs: [cost('Rear panel', 42_000, { repair: 'Boot floor' })] },
      { carId },
    )
    const money = await desk.client.carMoney.query({ carId })
    expect(money).toMatchObject({
      currency: 'EUR',
      withoutRate: null,
      whole: { authorised: { labour: 16 * 7_500, goods: 0 }, waiting: { labour: 0, goods: 42_000 } },
      payers: [{ payer: 'owner' }],
      costs: [{ name: 'Rear panel', repair: 'Boot floor', accepted: false }],
      mayPay: ['owner', 'insurer', 'workshop'],
    })
    expect(await desk.client.rates.query()).toMatchObject({
      tables: [{ from: '2026-01-01', standing: 'in force' }],
    })
  })

  test('follow an acceptance, a bill and its voiding', async () => {
    const costIds = [costId('Rear panel')]
    await desk.run(
      'acceptEstimate',
      { visitId, payer: 'owner', lineIds: [], costIds, how: 'call', note: '' },
      { carId },
    )
    await desk.run(
      'spendCost',
      {
        spendingId: spendingId('bill'),
        visitId,
        repairId: repairId('Boot floor'),
        costId: costId('Rear panel'),
        kind: 'part',
        name: 'Rear panel',
        date: '2026-11-23',
        amount: 45_000,
        payer: 'owner',
      },
      { carId },
    )
    const spent = await desk.client.carMoney.query({ carId })
    expect(spent.whole).toMatchObject({
      authorised: { goods: 42_000 },
      spent: { goods: 45_000 },
      beyond: { goods: 3_000 },
      asked: { total: 42_000 },
    })
    expect(spent.spendings).toMatchObject([{ name: 'Rear panel', costName: 'Rear panel', amount: 45_000 }])
    const number = spent.spendings[0]?.number ?? 0
    await desk.run('voidFact', { number, reason: 'another car' }, { carId })
    const after = await desk.client.carMoney.query({ carId })
    expect(after.spendings).toEqual([])
    expect(after.whole?.spent.total).toBe(0)
  })

  test('are kept from technicians and from devices that nobody is signed in on', async () => {
    const refused = {
      data: { refusal: { code: 'not-allowed', message: 'Figures of money are shown to managers only.' } },
    }
    await expect(tablet.client.carMoney.query({ carId })).rejects.toMatchObject(refused)
    await tablet.signIn(welder)
    await expect(tablet.client.carMoney.query({ carId })).rejects.toMatchObject(refused)
    await expect(tablet.client.rates.query()).rejects.toMatchObject(refused)
  })

  test('stand in the record for managers; others read that there was an amount', async () => {
    const words = async (screen: TestScreen) =>
      (await screen.client.record.query({ carId })).lines.find(({ kind }) => kind === 'costSpent')?.words
    expect(await words(desk)).toContain('€450.00')
    expect(await words(tablet)).toBe('Rear panel (part) bought for an amount on Mon 23 Nov')
  })
})
