import { expect, test } from 'vitest'
import type { Gate } from '../../domain/gates.ts'
import { addRepair, bringInLarkspur } from '../support/larkspur.ts'
import { repairPlan } from '../support/plans.ts'
import { createWorkshop } from '../support/workshop.ts'

test('a plan from the journal is changed on gates that are not done, and on no other', () => {
  const workshop = createWorkshop()
  const carId = bringInLarkspur(workshop)
  const repairId = addRepair(workshop, carId, 'Boot floor', { passed: 'assessed' })
  const change = (gate: Gate) =>
    workshop.send(
      'changeRepair',
      {
        repairId,
        plan: repairPlan('Boot floor', { gates: { [gate]: { skill: 'welding' } } }),
        typeVersion: null,
        reason: 'Welders do it.',
      },
      { carId },
    )
  expect(change('opened')).toMatchObject({ ok: false, refusal: { code: 'not-now' } })
  expect(change('fabricated')).toMatchObject({ ok: true })
})
