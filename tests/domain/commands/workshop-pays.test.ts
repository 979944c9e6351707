import { describe, expect, test } from 'vitest'
import type { Payer } from '../../../domain/facts/shapes.ts'
import { findingIdSchema } from '../../../domain/ids.ts'
import { targetHours } from '../../../domain/value/hours.ts'
import { onGate, repairId, variationId } from '../../support/car-builder.ts'
import { VISIT } from '../../support/driver.ts'
import { createScene, type Scene } from '../../support/scene.ts'
import { sure } from '../../support/varied.ts'

const FINDING = findingIdSchema.parse('finding-hole')
const FABRICATED = onGate('Boot floor', 'fabricated')

const found = (): Scene => {
  const scene = createScene()
  scene.repair('Boot floor')
  scene.driver.must('addFinding', {
    findingId: FINDING,
    repairId: repairId('Boot floor'),
    layerId: null,
    kind: 'corrosion',
    grade: 'holed',
    extent: 'as wide as a hand',
    needs: 'a patch',
    attachments: [],
  })
  return scene
}

const raise = ({ driver }: Scene, title: string, payer: Payer, hours: readonly number[]) =>
  driver.give('raiseVariation', {
    variationId: variationId(title),
    visitId: VISIT,
    payer,
    title,
    why: 'there is a hole',
    ifNot: '',
    findings: [FINDING],
    attachments: [],
    lines: hours.map((each) => sure(FABRICATED, each)),
    costs: [],
  })

const answer = ({ driver }: Scene, title: string, decision: 'accepted' | 'declined') =>
  driver.must('decideVariation', {
    variationId: variationId(title),
    decision,
    changed: null,
    how: 'call',
    note: '',
  })

describe('a variation that the workshop pays', () => {
  test('cannot take back more than is authorised in several lines for one gate', () => {
    const scene = found()
    expect(raise(scene, 'Less', 'workshop', [-1.5, -1])).toMatchObject({
      ok: false,
      refusal: { code: 'bad-input', next: 'At most 2 h can be taken back there.' },
    })
    expect(raise(scene, 'Less', 'workshop', [-1.5, -0.5]).ok).toBe(true)
    const { car, now, workshop } = scene.driver
    expect(targetHours(car, VISIT, FABRICATED, { at: now, workshop }).authorised).toBe(0)
  })

  test('is refused for a finding that its owner has accepted already', () => {
    const scene = found()
    raise(scene, 'Patch', 'owner', [3])
    answer(scene, 'Patch', 'accepted')
    expect(raise(scene, 'Patch again', 'workshop', [3])).toMatchObject({
      ok: false,
      refusal: { message: "'Patch' was accepted for the same finding.", next: 'Leave that finding out.' },
    })
  })

  test('is refused for what was declined once another was accepted for the same finding', () => {
    const scene = found()
    raise(scene, 'Whole floor', 'owner', [9])
    raise(scene, 'Patch', 'owner', [3])
    answer(scene, 'Whole floor', 'declined')
    answer(scene, 'Patch', 'accepted')
    const settle = (choice: 'workshop pays' | 'less work') =>
      scene.driver.give('settleDeclined', {
        variationId: variationId('Whole floor'),
        choice,
        reason: 'it has to be done',
      })
    expect(settle('workshop pays')).toMatchObject({ ok: false, refusal: { code: 'already' } })
    expect(settle('less work').ok).toBe(true)
  })
})
