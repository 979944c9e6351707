import { describe, expect, it } from 'vitest'
import { carIdSchema, typeIdSchema } from '../../../domain/ids.ts'
import { typeUseView } from '../../../domain/views/type-use-view.ts'
import { buildCar, personId, repairId, type CarBuilder } from '../../support/car-builder.ts'
import { gatePlan, repairPlan, type RepairPlanOver } from '../../support/plans.ts'
import { createDriver, driverWorkshop } from '../../support/driver.ts'

const typeId = typeIdSchema.parse('type-sill')
/** Version 3 asks for a painter at sealed, and for more hours at opened. */
const newer: RepairPlanOver = { gates: { sealed: { skill: 'paint' }, opened: { people: 2 } } }
const type = { id: typeId, version: 3, plan: repairPlan('Sill', newer), retired: false }

const withSill = (car: CarBuilder, name: string, version: number, plan: RepairPlanOver = {}): CarBuilder =>
  car.add('repairAdded', {
    repairId: repairId(name),
    type: { typeId, version },
    plan: repairPlan(name, plan),
    payer: 'owner',
  })
const useOf = (...cars: readonly CarBuilder[]) => typeUseView({ cars: cars.map((car) => car.car()), type })

describe('the use of a repair type', () => {
  it('names the repairs that carry an older version, with the gates that the newer one would change', () => {
    const car = withSill(withSill(buildCar(), 'Sill, left', 1), 'Sill, right', 2)
    expect(useOf(car)).toEqual({
      version: 3,
      current: 0,
      cars: [
        {
          carId: car.car().id,
          carName: 'Dunmere Saloon',
          older: [
            {
              repairId: repairId('Sill, left'),
              name: 'Sill, left',
              version: 1,
              changes: ['opened', 'sealed'],
            },
            {
              repairId: repairId('Sill, right'),
              name: 'Sill, right',
              version: 2,
              changes: ['opened', 'sealed'],
            },
          ],
        },
      ],
    })
  })

  it('says of a gate that is done no change, for it keeps its plan', () => {
    const car = withSill(buildCar(), 'Sill, left', 1).passTo('Sill, left', 'opened')
    expect(useOf(car).cars[0]!.older[0]!.changes).toEqual(['sealed'])
    car.reopen('Sill, left', 'opened')
    expect(useOf(car).cars[0]!.older[0]!.changes).toEqual(['opened', 'sealed'])
  })

  it('takes the same plan in another order of its words for no change', () => {
    const turned = Object.fromEntries(Object.entries(gatePlan(newer.gates!.sealed)).toReversed())
    const car = withSill(buildCar(), 'Sill, left', 1, { gates: { sealed: turned } })
    expect(useOf(car).cars[0]!.older[0]!.changes).toEqual(['opened'])
  })

  it('counts those that carry the version now, and leaves out other types and repairs without one', () => {
    const car = withSill(buildCar(), 'Sill, left', 3, newer).repair('Odd job')
    car.add('repairAdded', {
      repairId: repairId('Floor'),
      type: { typeId: typeIdSchema.parse('type-floor'), version: 1 },
      plan: repairPlan('Floor'),
      payer: 'owner',
    })
    expect(useOf(car)).toEqual({ version: 3, current: 1, cars: [] })
  })

  it('leaves out what is finished, retired or delivered', () => {
    const finished = withSill(buildCar(), 'Sill, left', 1).passTo('Sill, left', 'painted')
    const retired = withSill(buildCar(), 'Sill, left', 1).add('repairRetired', {
      repairId: repairId('Sill, left'),
      reason: 'the whole side is made anew',
    })
    const delivered = withSill(buildCar(), 'Sill, left', 1).visit('second', { status: 'delivered' })
    expect(useOf(finished, retired, delivered)).toEqual({ version: 3, current: 0, cars: [] })
  })

  it('names the urgent car first', () => {
    const car = (name: string, priority: number) =>
      withSill(buildCar({ carId: carIdSchema.parse(`car-number-${priority}`), name }), 'Sill', 1).visit(
        'two',
        {
          priority,
        },
      )
    expect(useOf(car('Later', 1), car('Sooner', 3)).cars.map(({ carName }) => carName)).toEqual([
      'Sooner',
      'Later',
    ])
  })
})

it('a repair that takes the newer version carries it from then on, on the gates not done', () => {
  const driver = createDriver({ ...driverWorkshop(), types: new Map([[typeId, type]]) })
  const id = repairId('Sill, left')
  driver.must('addRepair', {
    repairId: id,
    type: { typeId, version: 1 },
    plan: repairPlan('Sill, left'),
    payer: 'workshop',
    covers: [],
    coveredBy: [],
  })
  driver.must('passGate', { repairIds: [id], gate: 'opened', did: [personId('Wren')], coat: null, note: '' })
  const use = () => typeUseView({ cars: [driver.car], type })
  expect(use()).toMatchObject({ current: 0, cars: [{ older: [{ version: 1, changes: ['sealed'] }] }] })

  driver.must('applyType', { repairIds: [id] })
  expect(use()).toEqual({ version: 3, current: 1, cars: [] })
  const { gates } = driver.car.repairs.get(id)!.plan
  expect([gates.opened.people, gates.sealed.skill]).toEqual([1, 'paint'])
})

it('a version made for the other order of sealed and primed is refused where its windows would never start', () => {
  const afterPrimed = {
    primedFirst: true,
    gates: { sealed: { window: { after: 'primed', hours: 48 } } },
  } as const
  const turned = { ...type, plan: repairPlan('Sill', afterPrimed) }
  const driver = createDriver({ ...driverWorkshop(), types: new Map([[typeId, turned]]) })
  const id = repairId('Sill, left')
  driver.must('addRepair', {
    repairId: id,
    type: { typeId, version: 1 },
    plan: repairPlan('Sill, left'),
    payer: 'workshop',
    covers: [],
    coveredBy: [],
  })
  expect(driver.give('applyType', { repairIds: [id] })).toMatchObject({
    ok: false,
    refusal: { code: 'bad-input' },
  })
})
