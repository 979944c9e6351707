import { describe, expect, it } from 'vitest'
import type { Fact } from '../../../domain/facts.ts'
import { causeWords } from '../../../domain/views/plan-cause.ts'
import { nameIdsInWords } from '../../../domain/views/record-names.ts'
import { buildCar, personId, repairId, variationId, type CarBuilder } from '../../support/car-builder.ts'
import { buildWorkshop, nameOf } from '../../support/workshop-builder.ts'

const workshop = buildWorkshop()
const now = Date.parse('2026-11-25T10:40:00Z')

/** What came in on the car after its first so many facts. */
const causeOf = (car: CarBuilder, after: number, upTo = car.facts().length): string =>
  causeWords(
    [{ carName: 'Dunmere Saloon', hasMoved: true, facts: car.facts() }],
    { after, upTo },
    { now, workshop },
  )

const bootFloor = () => buildCar().repair('Boot floor')

describe('the cause of a plan', () => {
  it('says what came in since the plan before, and on which car', () => {
    const car = bootFloor().vary('Rotten sill', [])
    const before = car.facts().length
    car.add('decisionExpected', { variationId: variationId('Rotten sill'), expected: '2026-12-10' })
    expect(causeOf(car, before)).toBe("Dunmere Saloon: Answer to 'Rotten sill' expected on Thu 10 Dec.")
  })

  it('leaves out what came in after the plan was begun', () => {
    const car = bootFloor()
    const begun = car.facts().length
    car.pass('Boot floor', 'opened')
    expect(causeOf(car, 2, begun)).toBe('Dunmere Saloon: Repair Boot floor added.')
  })

  it('names what is out of the ordinary before what goes on every day, and no more than four things', () => {
    const car = bootFloor()
    const before = car.facts().length
    car.repair('Left sill').passTo('Boot floor', 'primed').pass('Left sill', 'opened')
    const words = causeOf(car, before)
    expect(
      words.startsWith('Dunmere Saloon: Repair Left sill added. Dunmere Saloon: Left sill: opened passed'),
    ).toBe(true)
    const passed = car.facts().length - before - 1
    expect(words.endsWith(`And ${passed - 3} more.`)).toBe(true)
  })

  it('names what came in on a car that moved before what came in on others', () => {
    const still = { carName: 'Hesslow Van', hasMoved: false, facts: bootFloor().facts() }
    const moved = { carName: 'Dunmere Saloon', hasMoved: true, facts: bootFloor().facts() }
    const words = causeWords([still, moved], { after: 2, upTo: 9 }, { now, workshop })
    expect(words).toBe('Dunmere Saloon: Repair Boot floor added. Hesslow Van: Repair Boot floor added.')
  })

  it('leaves out what no plan goes by', () => {
    const car = bootFloor()
    const before = car.facts().length
    car.add('noted', { text: 'The owner rang.' })
    expect(causeOf(car, before)).toBe('Nothing was recorded since the plan before it; time has passed.')
  })

  it('holds neither names of people nor reasons, which may be erased; people are named when it is read', () => {
    const car = bootFloor().pass('Boot floor', 'opened')
    const before = car.facts().length
    car.add('gateReopened', {
      repairId: repairId('Boot floor'),
      gate: 'opened',
      cause: 'workmanship',
      reason: 'Mr Fell saw a crack',
    })
    car.pass('Boot floor', 'opened')
    const kept = causeOf(car, before)
    expect(kept).not.toContain('Fell')
    expect(kept).not.toContain('Mara')
    expect(nameIdsInWords(kept, nameOf)).toContain('done by Mara')
    expect(nameIdsInWords(kept, () => 'somebody')).toContain('done by somebody')
  })

  it('says who is off when', () => {
    const off: Fact = {
      ...bootFloor().facts()[0]!,
      number: 9,
      carId: null,
      kind: 'personChanged',
      payload: {
        personId: personId('Joss'),
        roles: ['technician'],
        skills: ['metalwork'],
        week: null,
        absences: [{ from: '2026-12-01', to: '2026-12-11' }],
        active: true,
      },
    }
    const kept = causeWords(
      [{ carName: null, hasMoved: true, facts: [off] }],
      { after: 8, upTo: 9 },
      { now, workshop },
    )
    expect(nameIdsInWords(kept, nameOf)).toBe('Joss changed, off 1 to 11 Dec.')
  })
})
