import { expect, test } from 'vitest'
import { targetHours } from '../../../domain/value/hours.ts'
import { onGate, variationId } from '../../support/car-builder.ts'
import { VISIT } from '../../support/driver.ts'
import { createScene } from '../../support/scene.ts'
import { sure } from '../../support/varied.ts'

test('two variations for less work cannot take back the same hours', () => {
  const scene = createScene()
  const { driver } = scene
  scene.repair('Boot floor')
  const fabricated = onGate('Boot floor', 'fabricated')
  const authorised = () =>
    targetHours(driver.car, VISIT, fabricated, { at: driver.now, workshop: driver.workshop }).authorised
  const raise = (title: string, hours: number) =>
    driver.must('raiseVariation', {
      variationId: variationId(title),
      visitId: VISIT,
      payer: 'owner',
      title,
      why: 'the edge is sound',
      ifNot: '',
      findings: [],
      attachments: [],
      lines: [sure(fabricated, hours)],
      costs: [],
    })
  const accept = (title: string) =>
    driver.give('decideVariation', {
      variationId: variationId(title),
      decision: 'accepted',
      changed: null,
      how: 'call',
      note: '',
    })
  expect(authorised()).toBe(2)
  raise('Patch instead', -1.5)
  raise('No section needed', -1)
  expect(accept('Patch instead').ok).toBe(true)
  expect(accept('No section needed')).toMatchObject({ ok: false, refusal: { code: 'not-now' } })
  expect(authorised()).toBe(0.5)
})
