import { describe, expect, test } from 'vitest'
import { variationIdSchema, attachmentIdSchema } from '../../../domain/ids.ts'
import { targetAgreementHolds } from '../../../domain/rules/agreement-holds.ts'
import { buildCar, onGate, repairId } from '../../support/car-builder.ts'
import { VISIT } from '../../support/driver.ts'
import { repairPlan } from '../../support/plans.ts'
import { createScene, type Scene } from '../../support/scene.ts'
import { sure } from '../../support/varied.ts'

describe("owner's decision and declined", () => {
  const owned = () => {
    const scene = createScene()
    scene.driver.must('addRepair', {
      repairId: repairId('Leg tail'),
      type: null,
      payer: 'owner',
      covers: [],
      coveredBy: [],
      plan: repairPlan('Leg tail'),
    })
    return scene
  }
  const accept = (scene: Scene, gates: readonly string[]) =>
    scene.driver.must('acceptEstimate', {
      visitId: VISIT,
      payer: 'owner',
      how: 'letter',
      note: '',
      costIds: [],
      lineIds: [...scene.driver.car.visits.get(VISIT)!.lines.values()]
        .filter((line) => line.target.kind === 'gate' && gates.includes(line.target.gate))
        .map((line) => line.lineId),
    })
  const raise = (scene: Scene, id: string, hours: number) =>
    scene.driver.must('raiseVariation', {
      variationId: variationIdSchema.parse(id),
      visitId: VISIT,
      payer: 'owner',
      title: 'Inner channel',
      why: 'holed behind the plate',
      ifNot: '',
      findings: [],
      attachments: [],
      lines: [sure(onGate('Leg tail', 'fabricated'), hours)],
      costs: [],
    })

  test('a payer may accept opened and assessed first; the rest waits', () => {
    const scene = owned()
    expect(scene.codes('Leg tail', 'opened')).toEqual(["owner's decision"])
    accept(scene, ['opened', 'assessed'])
    scene.passTo('Leg tail', 'assessed')
    expect(scene.holds('Leg tail', 'fabricated').map((hold) => hold.clearedBy)).toEqual(['the owner'])
  })

  test('a variation holds its gates until it is accepted', () => {
    const scene = owned()
    accept(scene, ['opened', 'assessed', 'fabricated'])
    scene.passTo('Leg tail', 'assessed')
    raise(scene, 'variation-1', 6)
    expect(scene.holds('Leg tail', 'fabricated')[0]?.words).toBe(
      "'Inner channel' waits for the owner's answer.",
    )
    scene.driver.must('decideVariation', {
      variationId: variationIdSchema.parse('variation-1'),
      decision: 'accepted',
      changed: null,
      how: 'call',
      note: '',
    })
    expect(scene.codes('Leg tail', 'fabricated')).toEqual([])
  })

  test('a variation of an earlier visit holds nothing of this one', () => {
    const fabricated = onGate('Leg tail', 'fabricated')
    const asked = () =>
      buildCar()
        .repair('Leg tail')
        .agree('Leg tail')
        .vary('Inner channel', [{ target: fabricated, hours: 6 }])
    const codes = (car: ReturnType<typeof asked>) =>
      targetAgreementHolds(car.car(), fabricated, 'fabricated').map(({ code }) => code)
    expect(codes(asked())).toEqual(["owner's decision"])
    expect(codes(asked().visit('second').estimate(fabricated, 2))).toEqual([])
  })

  test('declined work is held until the manager chooses; the workshop may pay', () => {
    const scene = owned()
    accept(scene, ['opened', 'assessed', 'fabricated'])
    scene.passTo('Leg tail', 'assessed')
    raise(scene, 'variation-1', 6)
    scene.driver.must('decideVariation', {
      variationId: variationIdSchema.parse('variation-1'),
      decision: 'declined',
      changed: null,
      how: 'call',
      note: '',
    })
    expect(scene.codes('Leg tail', 'fabricated')).toEqual(['declined'])
    scene.driver.must('settleDeclined', {
      variationId: variationIdSchema.parse('variation-1'),
      choice: 'stopped',
      reason: 'not safe to close',
    })
    expect(scene.holds('Leg tail', 'fabricated')[0]?.words).toBe('Stopped: not safe to close')
    scene.driver.must('settleDeclined', {
      variationId: variationIdSchema.parse('variation-1'),
      choice: 'workshop pays',
      reason: 'we missed it',
    })
    expect(scene.codes('Leg tail', 'fabricated')).toEqual([])
  })

  test('closed as found needs a photo of each layer as left and finishes the repair for closed in order', () => {
    const scene = owned()
    accept(scene, ['opened', 'assessed'])
    scene.repair('Valance', {}, { covers: [repairId('Leg tail')] })
    scene.passTo('Valance', 'opened')
    scene.passTo('Leg tail', 'assessed')
    raise(scene, 'variation-1', 6)
    scene.driver.must('decideVariation', {
      variationId: variationIdSchema.parse('variation-1'),
      decision: 'declined',
      changed: null,
      how: 'letter',
      note: '',
    })
    const photos = ['inner', 'closing'].map((layer, index) => {
      scene.photo('Leg tail', 'fabricated', { shows: 'as left', layer, id: `as-left-${index}` })
      return attachmentIdSchema.parse(`as-left-${index}`)
    })
    const close = (attachments: typeof photos) =>
      scene.driver.give('closeAsFound', {
        repairId: repairId('Leg tail'),
        variationId: variationIdSchema.parse('variation-1'),
        attachments,
        protection: 'wax',
        answer: 'declined by letter',
        cautionShown: false,
      })
    expect(close(photos.slice(0, 1))).toMatchObject({
      refusal: { message: 'There is no photo as left of: closing plate.' },
    })
    expect(close(photos).ok).toBe(true)
    scene.passTo('Valance', 'trial-fitted')
    expect(scene.codes('Valance', 'welded')).toEqual([])
  })
})
