import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { typeIdSchema } from '../../../domain/ids.ts'
import { planFromType } from '../../../domain/catalogue/type-plan.ts'
import { usualSettings } from '../../../domain/usual-workshop.ts'
import { repairId } from '../../support/car-builder.ts'
import { finishRepair } from '../../support/finish-repair.ts'
import { createTestHost, type TestHost, type TestScreen } from '../../support/host.ts'
import { addRepair, bringInLarkspur } from '../../support/larkspur.ts'
import { repairPlan } from '../../support/plans.ts'
import { manager } from '../../support/workshop.ts'

let host: TestHost
let desk: TestScreen

/** Three repairs estimated at 16 h each: one kept its figures, two took twice and three times as long. */
beforeAll(async () => {
  host = await createTestHost()
  const { workshop } = host
  const carId = bringInLarkspur(workshop)
  for (const name of ['Boot floor', 'Sill', 'Arch']) addRepair(workshop, carId, name)
  finishRepair(workshop, carId, repairId('Boot floor'), 15)
  finishRepair(workshop, carId, repairId('Sill'), 60)
  finishRepair(workshop, carId, repairId('Arch'), 60)
  desk = await host.openScreen()
})
afterAll(async () => {
  await host.close()
  if (host.log.length > 0) throw new Error(`The host reported a defect: ${host.log.join('\n')}`)
})

describe('were we right', () => {
  test('is answered with the repairs by name, in the order of finishing, judged by what was said', async () => {
    const view = await desk.client.wereWeRight.query({ when: 'accepted', last: 20 })
    expect(view.dots.map(({ name, actual }) => [name, actual])).toEqual([
      ['Boot floor; Larkspur 4', 15],
      ['Sill; Larkspur 4', 60],
      ['Arch; Larkspur 4', 60],
    ])
    expect(view.all.within80?.count).toBe(1)
    expect(view.few).toMatch(/^3 repairs are finished .* from 20 on\.$/)
    const last = await desk.client.wereWeRight.query({ when: 'accepted', last: 1 })
    expect(last.dots.map(({ name }) => name)).toEqual(['Arch; Larkspur 4'])
  })

  test('says of figures once assessed that none were said', async () => {
    const view = await desk.client.wereWeRight.query({ when: 'assessed', last: null })
    expect([view.stated, view.unstated, view.all.within80]).toEqual([0, 3, null])
  })

  test('shows figures by who estimated to a signed-in manager once they are turned on', async () => {
    const asked = { when: 'accepted', last: null } as const
    await desk.signIn(manager)
    expect((await desk.client.wereWeRight.query(asked)).byEstimator).toBeNull()
    await desk.run('changeSettings', { ...usualSettings, figuresByPerson: true })
    const { byEstimator } = await desk.client.wereWeRight.query(asked)
    expect(byEstimator?.map(({ name, jobs }) => [name, jobs])).toEqual([['Mara Lindqvist', 3]])
    const tablet = await host.openScreen()
    expect((await tablet.client.wereWeRight.query(asked)).byEstimator).toBeNull()
  })
})

test('the hours of finished repairs are proposed for a new one of their type', async () => {
  const { workshop } = host
  const typeId = typeIdSchema.parse('type-gutter')
  expect(await desk.client.hoursProposal.query({ typeId })).toBeNull()
  workshop.run('saveType', { typeId, plan: repairPlan('Roof gutter') })
  const carId = workshop.addCar('Teasel', 'S-102')
  for (const name of ['One', 'Two', 'Three', 'Four']) {
    addRepair(workshop, carId, name, { type: { typeId, version: 1 } })
    finishRepair(workshop, carId, repairId(name), 12)
  }
  const proposal = await desk.client.hoursProposal.query({ typeId })
  expect(proposal?.title).toBe('Take the hours of 4 finished roof gutters')
  expect(proposal?.plan.gates.fabricated.hours.likely).toBe(12)

  // Who takes them says so, and the band of the new repair no longer adds what the four ran over by.
  const [next, zone] = [repairId('Five'), proposal!.plan.zone]
  const plan = planFromType(proposal!.plan, { repairId: next, name: 'Five', zone })
  const type = { typeId, version: 1 }
  await desk.run(
    'addRepair',
    { repairId: next, type, plan, payer: 'owner', covers: [], coveredBy: [] },
    { carId },
  )
  const bandOf = async () => {
    const { repairs } = await desk.client.estimate.query({ carId })
    return repairs.find(({ id }) => id === next)!.band!.p50
  }
  const before = await bandOf()
  await desk.run('takeHours', { repairId: next, ...proposal!.taken }, { carId })
  expect(await bandOf()).toBeLessThan(0.8 * before)
})
