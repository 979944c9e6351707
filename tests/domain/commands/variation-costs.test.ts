import { expect, test } from 'vitest'
import { costIdSchema } from '../../../domain/ids.ts'
import { onGate, repairId, variationId } from '../../support/car-builder.ts'
import { VISIT } from '../../support/driver.ts'
import { createScene } from '../../support/scene.ts'

const cost = {
  costId: costIdSchema.parse('cost-plate'),
  repairId: repairId('Boot floor'),
  kind: 'material' as const,
  name: 'Sheet 1 mm',
}

test('a cost that is asked for with a variation is for a repair of the car and asked for once', () => {
  const { driver, repair } = createScene()
  repair('Boot floor')
  const fabricated = onGate('Boot floor', 'fabricated')
  const raise = (costs: readonly (typeof cost)[]) =>
    driver.give('raiseVariation', {
      variationId: variationId('Corner'),
      visitId: VISIT,
      payer: 'owner',
      title: 'Corner',
      why: 'it is holed',
      ifNot: '',
      findings: [],
      attachments: [],
      lines: [{ target: fabricated, hours: 2, low: 2, high: 2 }],
      costs: costs.map((each) => ({ ...each, amount: 4_000 })),
    })
  expect(raise([{ ...cost, repairId: repairId('Wing') }])).toMatchObject({ refusal: { code: 'unknown' } })
  expect(raise([cost, cost])).toMatchObject({ refusal: { code: 'bad-input' } })
  driver.must('setCosts', { visitId: VISIT, costs: [{ ...cost, amount: 4_000, payer: 'owner' }] })
  expect(raise([cost])).toMatchObject({ refusal: { code: 'already' } })
  expect(raise([{ ...cost, costId: costIdSchema.parse('cost-corner') }]).ok).toBe(true)
})
