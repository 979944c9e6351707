import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import type { CommandPayload } from '../../../domain/commands/command-shapes.ts'
import { carIdSchema, personIdSchema, repairIdSchema, typeIdSchema, type CarId } from '../../../domain/ids.ts'
import { repairId } from '../../support/car-builder.ts'
import { createFloor, type Floor } from '../../support/floor.ts'
import { createTestHost, refusalOf, type TestHost, type TestScreen } from '../../support/host.ts'
import { repairPlan } from '../../support/plans.ts'
import { manager, welder } from '../../support/workshop.ts'

let host: TestHost
let tablet: TestScreen
let desk: TestScreen
let floor: Floor
let carId: CarId
beforeAll(async () => {
  host = await createTestHost()
  tablet = await host.openScreen()
  desk = await host.openScreen()
  carId = host.workshop.addCar('Larkspur 4', 'G-1')
  floor = await createFloor(host, tablet, carId)
  for (const name of ['Inner', 'Outer'])
    await floor.run('addRepair', {
      repairId: repairId(name),
      type: null,
      plan: repairPlan(name),
      payer: 'workshop',
      covers: [],
      coveredBy: [],
    })
  await floor.run('linkCover', { over: repairId('Outer'), under: repairId('Inner') })
})
afterAll(() => host.close())

const pass = (name: string, gate: CommandPayload<'passGate'>['gate']): CommandPayload<'passGate'> => ({
  repairIds: [repairId(name)],
  gate,
  did: [welder],
  coat: null,
  note: '',
})

describe('a gate', () => {
  test('out of order is refused with what comes first', async () => {
    const refusal = await floor.refused('passGate', pass('Outer', 'welded'), { by: welder })
    expect(refusal.code).toBe('held')
    expect(`${refusal.message} ${refusal.next}`).toMatch(/opened/)
  })

  test('of a covered repair waits until the covering metal is off', async () => {
    const refusal = await floor.refused('passGate', pass('Inner', 'opened'), { by: welder })
    expect(refusal.code).toBe('held')
    expect(refusal.message).toContain('Outer')
  })

  test('that is passed on the tablet shows on the desk, with who signed it', async () => {
    const before = await desk.client.repair.query({ carId, repairId: repairId('Outer') })
    expect(before.next?.gate).toBe('opened')
    await floor.pass(['Outer'], 'opened')
    const after = await desk.client.repair.query({ carId, repairId: repairId('Outer') })
    expect(after.next?.gate).toBe('assessed')
    expect(after.gates.find((each) => each.gate === 'opened')?.mark).toMatchObject({
      mark: 'passed',
      by: 'Ilse Brandt',
    })
    const record = await desk.client.record.query({ carId })
    expect(record.lines[0]).toMatchObject({ kind: 'gatePassed', by: 'Ilse Brandt' })
    expect(record.head).toMatch(/^[0-9a-f]{64}$/)
  })

  test('of an unknown repair is refused', async () => {
    const refusal = await floor.refused(
      'passGate',
      { ...pass('Outer', 'assessed'), repairIds: [repairIdSchema.parse('repair-unknown')] },
      { by: welder },
    )
    expect(refusal.code).toBe('unknown')
  })

  test('signed with another person’s code is not signed', async () => {
    const answer = await tablet.send('passGate', pass('Outer', 'assessed'), {
      carId,
      by: welder,
      code: '314159',
    })
    expect(answer).toMatchObject({ ok: false, refusal: { code: 'wrong-code' } })
    const view = await desk.client.repair.query({ carId, repairId: repairId('Outer') })
    expect(view.next?.gate).toBe('assessed')
  })
})

describe('a view', () => {
  const unknownCar = carIdSchema.parse('car-unknown')

  test('of an unknown car, repair, type or person says so', async () => {
    const repair = repairIdSchema.parse('repair-unknown')
    const person = personIdSchema.parse('person-unknown')
    for (const asked of [
      desk.client.car.query({ carId: unknownCar }),
      desk.client.record.query({ carId: unknownCar }),
      desk.client.repair.query({ carId, repairId: repair }),
      desk.client.daySheet.query({ personId: person }),
      desk.client.typeUse.query({ typeId: typeIdSchema.parse('type-unknown') }),
    ])
      expect(await refusalOf(asked)).toMatchObject({ code: 'unknown', next: expect.stringMatching(/\S/) })
  })

  test('asked for by what is no id at all is refused as bad input, without a stack', async () => {
    expect((await refusalOf(desk.client.car.query({ carId: '../x' as CarId }))).code).toBe('bad-input')
    const answer = await desk.request('/trpc/car?input=%7B%22carId%22%3A%22x%22%7D')
    expect(answer.status).toBe(400)
    expect(await answer.text()).not.toContain('stack')
  })

  test('of every screen is there for a workshop at work', async () => {
    const client = desk.client
    expect((await client.shopFloor.query()).nowhere.map((car) => car.carId)).toContain(carId)
    expect((await client.cars.query()).cars).toHaveLength(1)
    expect((await client.car.query({ carId })).repairs).toHaveLength(2)
    expect((await client.daySheet.query({ personId: welder })).person).toBe('Ilse Brandt')
    expect((await client.ownerDecisions.query()).open).toEqual([])
    expect((await client.variance.query()).byCar).toHaveLength(1)
    expect((await client.record.query({ carId: null })).lines.at(-1)?.kind).toBe('workshopSetUp')
    expect((await client.workshop.query()).bays).toHaveLength(3)
    expect((await client.session.query()).people.map((each) => each.id)).toContain(manager)
  })
})
