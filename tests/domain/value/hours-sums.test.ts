import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { CarState } from '../../../domain/car.ts'
import { entryHours } from '../../../domain/value/entry-hours.ts'
import { addHours, carHours, repairHours, visitFigures } from '../../../domain/value/hours.ts'
import { hoursSheetView } from '../../../domain/views/hours-sheet-view.ts'
import { varianceView } from '../../../domain/views/variance-view.ts'
import type { HoursPair } from '../../../domain/views/shared-views.ts'
import { buildCar } from '../../support/car-builder.ts'
import { carSteps, randomCars, REPAIRS, TASK } from '../../support/random-cars.ts'
import { varianceSums } from '../../support/variance-sums.ts'
import { buildWorkshop, nameOf } from '../../support/workshop-builder.ts'
import { createEstimateHistory } from '../../support/estimate-history.ts'

const workshop = buildWorkshop()
const now = Date.parse('2026-11-25T10:40:00Z')
const context = { at: now, workshop }
const history = createEstimateHistory([])

const expectSame = (actual: HoursPair, expected: HoursPair): void => {
  for (const [figure, value] of Object.entries(expected))
    expect(actual[figure as keyof HoursPair], figure).toBeCloseTo(value, 6)
}

const visitsOf = (car: CarState) => [...car.visits.keys()]

describe('hours over random cars', () => {
  it('add up to the same in every grouping', () => {
    fc.assert(
      fc.property(fc.array(randomCars, { minLength: 1, maxLength: 3 }), (all) => {
        const whole = addHours(all.flatMap((car) => visitsOf(car).map((id) => carHours(car, id, context))))
        const view = varianceView({ sums: varianceSums(all, context), workshop, nameOf, by: null })
        for (const lines of [view.byCar, view.byType, view.byGate, view.byZone, view.byMonth]) {
          expectSame(addHours(lines.map((line) => line.hours)), whole)
          const variance = lines.reduce((sum, line) => sum + line.variance, 0)
          expect(variance).toBeCloseTo(whole.earned - whole.spent, 6)
        }
        const rework = view.rework.reduce((sum, line) => sum + line.hours, 0)
        expect(rework).toBeCloseTo(whole.rework, 6)
      }),
      { numRuns: 150 },
    )
  })

  it('of a car are those of its payers, and of its repairs and tasks; of a repair those of its gates; of a gate its entries', () => {
    fc.assert(
      fc.property(randomCars, (car) => {
        const { total, payers, works } = hoursSheetView({ car, now, workshop, nameOf, history })
        expectSame(total.hours, carHours(car, car.currentVisit, context))
        for (const parts of [payers, works]) {
          expectSame(addHours(parts.map((part) => part.hours)), total.hours)
          expect(parts.reduce((sum, part) => sum + part.expected, 0)).toBeCloseTo(total.expected, 6)
        }
        for (const { repairId: id, gates: own, hours: whole } of works) {
          if (id === null) continue
          expectSame(addHours(own.map((gate) => gate.hours)), whole)
          expectSame(repairHours(car, car.currentVisit, id, context), whole)
          for (const gate of own)
            expect(gate.entries.reduce((sum, entry) => sum + entry.hours, 0)).toBeCloseTo(gate.hours.spent, 6)
        }
      }),
      { numRuns: 60 },
    )
  })

  it('spent are all hours logged, whoever shares them', () => {
    fc.assert(
      fc.property(randomCars, (car) => {
        const logged = [...car.entries.values()].reduce((sum, entry) => sum + entryHours(entry, context), 0)
        const spent = addHours(visitsOf(car).map((id) => carHours(car, id, context))).spent
        expect(spent).toBeCloseTo(logged, 6)
      }),
      { numRuns: 150 },
    )
  })

  it('lose nothing that was agreed: what is not authorised any more is given back', () => {
    fc.assert(
      fc.property(randomCars, (car) => {
        for (const visit of car.visits.values()) {
          const lines = [...visit.lines.values()].filter(({ accepted }) => accepted !== null)
          const variations = [...car.variations.values()].filter(
            ({ visitId: id, status }) =>
              id === visit.id && (status === 'accepted' || status === 'workshop pays'),
          )
          const agreed =
            lines.reduce((sum, line) => sum + line.agreed + line.moved, 0) +
            variations.flatMap((each) => each.lines).reduce((sum, line) => sum + line.hours, 0)
          const { authorised, givenBack } = carHours(car, visit.id, context)
          expect(authorised + givenBack).toBeCloseTo(agreed, 6)
        }
      }),
      { numRuns: 150 },
    )
  })

  it('earned equal those authorised once nothing is open', () => {
    fc.assert(
      fc.property(randomCars, (car) => {
        for (const visit of visitsOf(car)) {
          const figures = [...visitFigures(car, visit, context).values()]
          const finished = figures.filter(({ standing }) => standing !== 'open').map((each) => each.hours)
          const { earned, authorised } = addHours(finished)
          expect(earned).toBeCloseTo(authorised, 6)
          expect(carHours(car, visit, context).earned).toBeCloseTo(earned, 6)
        }
      }),
      { numRuns: 150 },
    )
  })

  it('of a visit stand when the next one works on', () => {
    fc.assert(
      fc.property(
        fc.array(carSteps, { maxLength: 20 }),
        fc.array(carSteps, { maxLength: 10 }),
        (before, after) => {
          const builder = buildCar()
          for (const name of REPAIRS) builder.repair(name)
          builder.task(TASK)
          for (const [number, step] of before.entries()) step(builder, number)
          const old = builder.car().currentVisit
          const figures = [...visitFigures(builder.car(), old, context)]
          builder.visit('later', { kind: 'warranty' })
          // A later visit raises its own variations; it cannot answer those of the old one.
          for (const [number, step] of after.entries()) step(builder, 100 + number)
          expect([...visitFigures(builder.car(), old, context)]).toEqual(figures)
        },
      ),
      { numRuns: 150 },
    )
  })
})
