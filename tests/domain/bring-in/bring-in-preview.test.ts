import { expect, test } from 'vitest'
import { bringInPreview } from '../../../domain/bring-in/bring-in-preview.ts'
import { takeOver } from '../../../domain/bring-in/take-over.ts'
import { carFileWorkshop } from '../../../domain/report/car-file-parts.ts'
import { buildCar, type CarBuilder } from '../../support/car-builder.ts'
import { buildWorkshop } from '../../support/workshop-builder.ts'

const workshop = buildWorkshop()
const previewOf = (builder: CarBuilder) => {
  const facts = builder.facts()
  const file = carFileWorkshop({
    car: builder.car(),
    workshop,
    choices: { contacts: true, prices: true, hours: true },
    head: { chainNumber: facts.length, hash: 'a'.repeat(64) },
    now: Date.parse('2026-11-25T10:40:00Z'),
  })
  return bringInPreview({
    file,
    facts,
    taken: takeOver(facts),
    lines: facts.length,
    withheldLines: 0,
    refusal: null,
    needsNumber: false,
  })
}

test('counts the gates that are passed now: once each, and neither voided nor reopened ones', () => {
  const car = buildCar().repair('Boot floor').repair('Sill').passTo('Boot floor', 'fabricated')
  expect(previewOf(car)).toMatchObject({ repairs: 2, finishedRepairs: 0, gatesPassed: 3 })
  car.reopen('Boot floor', 'assessed').pass('Boot floor', 'assessed')
  expect(previewOf(car).gatesPassed).toBe(2)
  car.pass('Sill', 'opened')
  car.add('factVoided', { number: car.facts().length, reason: 'the other side' })
  expect(previewOf(car).gatesPassed).toBe(2)
})
