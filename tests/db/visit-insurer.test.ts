import { expect, test } from 'vitest'
import { readFacts } from '../../db/journal.ts'
import { partyIdSchema } from '../../domain/ids.ts'
import { carFromFacts } from '../../domain/state/car-state.ts'
import { carPayload, createWorkshop, insurer, owner } from '../support/workshop.ts'

const [name, shellNumber] = ['Larkspur 4', 'S-101']
const { visitId } = carPayload(name, shellNumber).visit
const agreement = { visitId, promised: null, priority: 1, charge: { by: 'hour' as const } }

test('the insurer of a visit is named later, stays where a change does not speak of it, and is taken off', () => {
  const workshop = createWorkshop()
  const carId = workshop.addCar(name, shellNumber)
  const change = (over: { readonly insurerId?: typeof insurer | null }) => {
    workshop.run('changeVisit', { ...agreement, ...over }, { carId })
    return workshop.car(carId).visits.get(visitId)?.insurerId
  }
  expect(change({ insurerId: null })).toBeNull()
  expect(change({ insurerId: insurer })).toBe(insurer)
  expect(change({})).toBe(insurer)
  expect(carFromFacts(readFacts(workshop.db, carId))?.visits.get(visitId)?.insurerId).toBe(insurer)
  expect(change({ insurerId: null })).toBeNull()
})

test('only an insurer that is known can be named', () => {
  const workshop = createWorkshop()
  const carId = workshop.addCar(name, shellNumber)
  workshop.run('changeVisit', { ...agreement, insurerId: null }, { carId })
  for (const insurerId of [owner, partyIdSchema.parse('party-nobody')])
    expect(workshop.refused('changeVisit', { ...agreement, insurerId }, { carId })).toMatchObject({
      message: 'The insurer is not known.',
      next: 'Add the insurer first.',
    })
})
