import { beforeEach, describe, expect, test } from 'vitest'
import { contactBook } from '../../../db/contacts.ts'
import { lastNumber, readFacts } from '../../../db/journal.ts'
import { keepPlan, type PlanToKeep } from '../../../db/plans.ts'
import { readCar, readWorkshop } from '../../../db/reads.ts'
import { planIdSchema, type CarId } from '../../../domain/ids.ts'
import type { Plan } from '../../../domain/plan/plan.ts'
import { weekExpected } from '../../../electron/api/week-expected.ts'
import { simplePlan } from '../../support/kept-plan.ts'
import { createWorkshop, welder, type Workshop } from '../../support/workshop.ts'

let workshop: Workshop
let carId: CarId

beforeEach(() => {
  workshop = createWorkshop()
  carId = workshop.addCar()
})

const march = (day: number) => Date.UTC(2027, 2, day)
const keep = (name: string, at: string, over: Partial<PlanToKeep> = {}, plan: Partial<Plan> = {}) => {
  const made = { ...simplePlan(carId, { finish50: march(1), finish80: march(Number(name)) }), ...plan }
  keepPlan(
    workshop.db,
    {
      planId: planIdSchema.parse(`plan-${name}`),
      plan: made,
      why: 'moved',
      cause: '',
      revision: lastNumber(workshop.db),
      ...over,
    },
    Date.parse(at),
  )
}

/** The first morning is the Monday of week 48. */
const expected = (week: number, now: string) => {
  const [visit] = readCar(workshop.db, carId)!.visits.keys()
  return weekExpected(workshop.db, {
    facts: readFacts(workshop.db, carId),
    visitId: visit!,
    week: { year: 2026, week },
    now: Date.parse(now),
    workshop: readWorkshop(workshop.db),
    nameOf: contactBook(workshop.db).nameOf,
  })
}
const late = (finish: { readonly range: { readonly late: number } | null } | null | undefined) =>
  finish?.range?.late ?? null

describe('the finish that is expected of a week', () => {
  test('is the one kept last, beside the one of the end of the week before', () => {
    keep('10', '2026-11-25T12:00:00+01:00')
    keep('12', '2026-11-30T00:01:00+01:00', { why: 'day end' })
    keep('15', '2026-12-02T12:00:00+01:00')
    const told = expected(49, '2026-12-04T15:00:00+01:00')
    expect(late(told?.finish)).toBe(march(15))
    expect(late(told?.before)).toBe(march(12))
  })

  test('of a week that is over is what was kept then, and never what was planned later', () => {
    keep('10', '2026-11-25T12:00:00+01:00')
    keep('12', '2026-11-30T00:01:00+01:00', { why: 'day end' })
    keep('14', '2026-11-30T00:02:00+01:00')
    keep('15', '2026-12-02T12:00:00+01:00')
    const told = expected(48, '2026-12-04T15:00:00+01:00')
    expect(late(told?.finish)).toBe(march(12))
    expect(told?.before).toBeNull()
  })

  test('is none before a plan was kept, from a proposal that nobody took, or from a plan without the car', () => {
    expect(expected(48, '2026-11-27T15:00:00+01:00')).toMatchObject({ finish: null, before: null })
    keep('10', '2026-11-25T12:00:00+01:00', { why: 'proposal' })
    expect(expected(48, '2026-11-27T15:00:00+01:00')?.finish).toBeNull()
    keep('11', '2026-11-25T13:00:00+01:00')
    keep('12', '2026-11-26T13:00:00+01:00', {}, { cars: [] })
    expect(expected(48, '2026-11-27T15:00:00+01:00')?.finish).toBeNull()
  })

  test('is none from a plan that was made before the visit was known', () => {
    keep('10', '2026-11-25T12:00:00+01:00', { revision: 1 })
    expect(expected(48, '2026-11-27T15:00:00+01:00')?.finish).toBeNull()
  })

  test('says why the car has no date, and nothing of other cars', () => {
    const [car] = simplePlan(carId, { finish50: null, finish80: null }).cars
    const fault = { code: 'no skill' as const, words: 'nobody has it', next: 'Find somebody.' }
    keep(
      '10',
      '2026-11-25T12:00:00+01:00',
      {},
      {
        cars: [car!],
        faults: [
          { ...fault, carId },
          { ...fault, code: 'no bay', carId: null },
        ],
      },
    )
    expect(expected(48, '2026-11-27T15:00:00+01:00')?.finish).toMatchObject({
      range: null,
      faults: ['no skill'],
    })
  })

  test('names what changed for the whole workshop between the two plans', () => {
    keep('10', '2026-11-29T12:00:00+01:00')
    workshop.run('changePerson', {
      personId: welder,
      roles: ['technician'],
      skills: ['metalwork'],
      week: null,
      absences: [{ from: '2026-12-02', to: '2026-12-04' }],
      active: true,
      contact: { name: 'Joss', phone: '', email: '', address: '' },
    })
    keep('15', '2026-12-02T12:00:00+01:00')
    expect(expected(49, '2026-12-04T15:00:00+01:00')?.elsewhere).toEqual(['people'])
  })
})
