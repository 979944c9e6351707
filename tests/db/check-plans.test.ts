import { beforeEach, describe, expect, test } from 'vitest'
import { checkPlans } from '../../db/check-plans.ts'
import { keepPlan, type PlanToKeep } from '../../db/plans.ts'
import { planIdSchema } from '../../domain/ids.ts'
import { simplePlan } from '../support/kept-plan.ts'
import { createWorkshop, type Workshop } from '../support/workshop.ts'

let workshop: Workshop

/** The first plan was taken, the second only proposed, the third told how the finish had moved. */
beforeEach(() => {
  workshop = createWorkshop()
  const carId = workshop.addCar()
  const keep = (name: string, march: number, why: PlanToKeep['why'] = 'proposal') => {
    const plan = simplePlan(carId, { finish50: Date.UTC(2027, 2, march) })
    const planId = planIdSchema.parse(`plan-${name}`)
    keepPlan(workshop.db, { planId, plan, why, cause: '', revision: 1 }, workshop.now)
    return planId
  }
  const planId = keep('first', 22)
  keep('second', 23)
  keep('moved', 25, 'moved')
  workshop.run('takePlan', { planId })
})

const found = () => checkPlans(workshop.db.reader).map(({ what }) => what)

describe('a check of kept plans', () => {
  test('finds nothing where nothing is wrong', () => {
    expect(found()).toEqual([])
  })

  // A forger puts another plan's content in place, with the digest that fits it.
  test.each([
    [
      'another plan in the place of the one that was taken',
      `UPDATE kept_plan SET (sha256, content) = (SELECT sha256, content FROM kept_plan WHERE plan_id = 'plan-second') WHERE plan_id = 'plan-first'`,
      ['The plan plan-first has other finishes.', 'The plan plan-first is not the one that was taken.'],
    ],
    [
      'that the plan that was taken is gone',
      `DELETE FROM kept_plan WHERE plan_id = 'plan-first'`,
      ['The plan plan-first was taken and is gone.'],
    ],
    [
      'a plan that was taken and does not say so',
      `UPDATE kept_plan SET why = 'day end' WHERE plan_id = 'plan-first'`,
      ['The plan plan-first was taken and is not kept as such.'],
    ],
    [
      'a plan that says it was taken and was not',
      `UPDATE kept_plan SET why = 'taken' WHERE plan_id = 'plan-second'`,
      ['The plan plan-second is kept as taken, and the journal does not say so.'],
    ],
    [
      'another finish of a car beside a plan',
      `UPDATE kept_plan_car SET finish50 = finish50 - 86400000 WHERE plan_id = 'plan-moved'`,
      ['The plan plan-moved has other finishes.'],
    ],
    [
      'that a car was taken out beside a plan',
      `DELETE FROM kept_plan_car WHERE plan_id = 'plan-moved'`,
      ['The plan plan-moved has other finishes.'],
    ],
  ])('finds %s', (_name, change, words) => {
    workshop.db.writer.sqlite.exec(change)
    expect(found().toSorted()).toEqual(words)
  })
})
