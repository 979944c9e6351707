import { describe, expect, test } from 'vitest'
import type { CarState } from '../../../domain/car.ts'
import { firstStepsView } from '../../../domain/views/first-steps-view.ts'
import { workshopFromFacts } from '../../../domain/state/workshop-state.ts'
import { buildCar, onGate, repairId, visitId } from '../../support/car-builder.ts'
import { buildWorkshop } from '../../support/workshop-builder.ts'

const workshop = buildWorkshop()
const stepsOf = (cars: readonly CarState[], over: Partial<Parameters<typeof firstStepsView>[0]> = {}) =>
  firstStepsView({ workshop, cars, hasDelivered: false, ...over })

const estimated = () =>
  buildCar()
    .at('2026-11-24T09:00')
    .repair('Boot floor')
    .estimate(onGate('Boot floor', 'opened'), 2, { accepted: false })
const agreed = () => buildCar().at('2026-11-24T09:00').repair('Boot floor').agree('Boot floor')
const clocked = () => agreed().clock('a', 'Joss', '2026-11-25T08:10', [onGate('Boot floor', 'opened')])
const photo = [
  {
    what: 'gate' as const,
    repairId: repairId('Boot floor'),
    gate: 'opened' as const,
    shows: 'after' as const,
    layerId: null,
  },
]

describe('the first steps', () => {
  test('follow what stands in the workshop, and lead to the car and repair that have come furthest', () => {
    expect(stepsOf([])).toEqual({
      done: ['people', 'bays'],
      next: 'car',
      carId: null,
      repairId: null,
      waitsForStatus: false,
    })
    const bare = buildCar().car()
    expect(stepsOf([bare])).toMatchObject({ next: 'repair', carId: bare.id })
    expect(stepsOf([estimated().car()])).toMatchObject({ next: 'agreed', repairId: repairId('Boot floor') })
    expect(stepsOf([bare, agreed().car()])).toMatchObject({ next: 'gate', carId: agreed().car().id })
    const signed = agreed().photo('p', photo).pass('Boot floor', 'opened').car()
    expect(stepsOf([signed])?.next).toBe('clock')
  })

  test('go on to the signed gate only by one with a photo that serves it', () => {
    expect(stepsOf([clocked().pass('Boot floor', 'opened').car()])?.next).toBe('gate')
    expect(stepsOf([clocked().photo('p', photo).car()])?.next).toBe('gate')
    expect(stepsOf([clocked().photo('p', photo).pass('Boot floor', 'opened').car()])).toBeNull()
  })

  test('wait where the car is agreed but not in work, as every gate does', () => {
    const waiting = agreed().add('visitStatusSet', {
      visitId: visitId('first'),
      status: 'agreed',
      reason: '',
    })
    expect(stepsOf([waiting.car()])).toMatchObject({ next: 'agreed', waitsForStatus: true })
  })

  test('need nobody else in a workshop of one that has signed a gate', () => {
    const alone = { ...workshop, people: new Map([...workshop.people].slice(0, 1)) }
    expect(stepsOf([], { workshop: alone })?.next).toBe('people')
    const signed = clocked().photo('p', photo).pass('Boot floor', 'opened').car()
    expect(stepsOf([signed], { workshop: alone })).toBeNull()
  })

  test('are not told before the workshop is set up, nor once cars were delivered', () => {
    expect(stepsOf([], { workshop: workshopFromFacts([]) })).toBeNull()
    expect(stepsOf([], { hasDelivered: true })).toBeNull()
  })
})
