import { describe, expect, test } from 'vitest'
import { readEstimateHistory, readFinishedRepairs } from '../../db/finished-repairs.ts'
import { readFacts } from '../../db/journal.ts'
import { readWorkshop } from '../../db/reads.ts'
import type { PayloadOf } from '../../domain/facts.ts'
import { taskIdSchema, visitIdSchema, type CarId } from '../../domain/ids.ts'
import { estimateView } from '../../domain/views/estimate-view.ts'
import { repairId } from '../support/car-builder.ts'
import { finishRepair } from '../support/finish-repair.ts'
import { addRepair, bringInLarkspur, passTo } from '../support/larkspur.ts'
import { taskPlan } from '../support/plans.ts'
import { createWorkshop, type Workshop } from '../support/workshop.ts'

function said(workshop: Workshop, carId: CarId): readonly PayloadOf<'bandsStated'>[] {
  return readFacts(workshop.db, carId).flatMap((fact) => (fact.kind === 'bandsStated' ? [fact.payload] : []))
}

const repairsIn = ({ repairs }: PayloadOf<'bandsStated'>) => repairs.map((band) => band.repairId)

describe('the bands that are said', () => {
  test('are recorded with an acceptance, of the repairs whose lines it accepts and of the whole car', () => {
    const workshop = createWorkshop()
    const carId = bringInLarkspur(workshop)
    addRepair(workshop, carId, 'Boot floor')
    addRepair(workshop, carId, 'Sill')
    const [first, second] = said(workshop, carId)
    expect(repairsIn(first!)).toEqual([repairId('Boot floor')])
    expect(repairsIn(second!)).toEqual([repairId('Sill')])
    const [band] = second!.repairs
    expect(band).toMatchObject({ method: 'prior', rests: { own: 0, others: 0 } })
    expect(band!.estimated).toBeCloseTo(16, 10)
    expect(band!.p50).toBeLessThan(band!.p80)
    expect(band!.p80).toBeLessThan(band!.p90)
    expect(second!.car?.estimated).toBeCloseTo(32, 10)
    // Two repairs do not both turn out badly as often as one does.
    expect(second!.car?.p80).toBeLessThan(first!.repairs[0]!.p80 + band!.p80)
  })

  test('stand beside the acceptance, by the same command', () => {
    const workshop = createWorkshop()
    const carId = bringInLarkspur(workshop)
    addRepair(workshop, carId, 'Boot floor')
    const facts = readFacts(workshop.db, carId).slice(-2)
    expect(facts.map(({ kind }) => kind)).toEqual(['estimateAccepted', 'bandsStated'])
    expect(new Set(facts.map(({ commandId }) => commandId)).size).toBe(1)
  })

  test('are said again when the assessed repair is reviewed', () => {
    const workshop = createWorkshop()
    const carId = bringInLarkspur(workshop)
    addRepair(workshop, carId, 'Boot floor', { passed: 'assessed' })
    workshop.run('reviewEstimate', { repairId: repairId('Boot floor'), note: '' }, { carId })
    expect(said(workshop, carId).map(({ when }) => when)).toEqual(['accepted', 'assessed'])
  })

  test('go by what was finished then, and are kept as they were said whatever is finished later', () => {
    const workshop = createWorkshop()
    const carId = bringInLarkspur(workshop)
    addRepair(workshop, carId, 'Boot floor')
    const before = said(workshop, carId)[0]!.repairs[0]!
    for (const name of ['One', 'Two', 'Three', 'Four', 'Five']) {
      addRepair(workshop, carId, name)
      finishRepair(workshop, carId, repairId(name), 40)
    }
    addRepair(workshop, carId, 'Sill')
    const now = said(workshop, carId).at(-1)!.repairs[0]!
    expect(now.rests.own + now.rests.others).toBe(5)
    // Five of no type on one car: much of it may be that car's.
    expect(now.p80).toBeGreaterThan(1.1 * before.p80)
    finishRepair(workshop, carId, repairId('Boot floor'), 20)
    const row = readFinishedRepairs(workshop.db).find((each) => each.repairId === repairId('Boot floor'))
    expect(row?.stated).toEqual({ accepted: before, assessed: null })
  })

  test('that are said once the cavity is open are no longer said from outside', () => {
    const workshop = createWorkshop()
    const carId = bringInLarkspur(workshop)
    const id = addRepair(workshop, carId, 'Boot floor')
    const visitId = visitIdSchema.parse(workshop.car(carId).currentVisit)
    const outside = said(workshop, carId)[0]!.repairs[0]!
    passTo(workshop, carId, id, 'opened')
    const line = [...(workshop.car(carId).visits.get(visitId)?.lines.values() ?? [])].at(-1)!
    const { lineId, target, payer, hours } = line
    workshop.run(
      'setEstimate',
      { visitId, lines: [{ lineId, target, payer, hours, agreed: line.agreed + 4 }] },
      { carId },
    )
    workshop.run(
      'acceptEstimate',
      { visitId, payer: 'owner', lineIds: [lineId], costIds: [], how: 'call', note: '' },
      { carId },
    )
    expect(said(workshop, carId)).toHaveLength(2)
    finishRepair(workshop, carId, repairId('Boot floor'), 20)
    expect(readFinishedRepairs(workshop.db)[0]?.stated.accepted).toEqual(outside)
  })
})

test('what is said of the car is what its estimate shows', () => {
  const workshop = createWorkshop()
  const carId = bringInLarkspur(workshop)
  addRepair(workshop, carId, 'Boot floor')
  workshop.run('addTask', { taskId: taskIdSchema.parse('task-strip'), plan: taskPlan('strip') }, { carId })
  addRepair(workshop, carId, 'Sill')
  const { whole } = estimateView({
    now: workshop.now,
    workshop: readWorkshop(workshop.db),
    nameOf: (id) => id,
    car: workshop.car(carId),
    finished: readFinishedRepairs(workshop.db),
    history: readEstimateHistory(workshop.db),
  })
  const { car } = said(workshop, carId).at(-1)!
  expect(whole.band).toEqual({ p50: car?.p50, p80: car?.p80 })
  expect(whole.agreed).toBeCloseTo(car!.estimated, 10)
})
