import { renderToStaticMarkup } from 'react-dom/server'
import { expect, it } from 'vitest'
import { emptyPlan } from '../../../renderer/plan/empty-plan.tsx'
import { planViewFixture } from '../../support/plan-view-fixture.ts'

const view = planViewFixture()
const noPlan = { ...view, cars: [], inForce: null, proposal: null }

it('says that the first plan is being made while no plan tells which cars are in work', () => {
  expect(renderToStaticMarkup(emptyPlan({ ...noPlan, state: 'planning' }))).toContain(
    'The first plan is being made',
  )
})

it('asks for cars once a plan is there without any, and for nothing where one has some', () => {
  const noCars = emptyPlan({ ...view, cars: [] })?.type
  expect(noCars).toHaveProperty('name', 'NoCars')
  expect(emptyPlan({ ...noPlan, state: 'settled' })?.type).toBe(noCars)
  expect(emptyPlan(view)).toBeNull()
})
