import { describe, expect, test } from 'vitest'
import type { CommandPayload } from '../../../domain/commands/command-shapes.ts'
import { attachmentIdSchema, findingIdSchema, partIdSchema } from '../../../domain/ids.ts'
import { onGate, repairId, variationId } from '../../support/car-builder.ts'
import { VISIT } from '../../support/driver.ts'
import { layerId } from '../../support/plans.ts'
import { asks, createScene, type Scene } from '../../support/scene.ts'
import { sure } from '../../support/varied.ts'

const refusalOf = (outcome: ReturnType<Scene['pass']>): string => (outcome.ok ? '' : outcome.refusal.message)

describe('void', () => {
  test('a void is refused while a later accepted fact needs it, and says which', () => {
    const scene = createScene()
    scene.repair('Valance')
    scene.repair('Hanger', {}, { coveredBy: [repairId('Valance')] })
    scene.passTo('Valance', 'opened')
    const opened = scene.driver.facts.at(-1)!.number
    scene.passTo('Hanger', 'opened')
    const outcome = scene.driver.give('voidFact', { number: opened, reason: 'wrong car' })
    expect(outcome).toMatchObject({ ok: false, refusal: { code: 'needed-later' } })
    expect(refusalOf(outcome)).toContain('(opened passed)')
    scene.driver.must('voidFact', { number: scene.driver.facts.at(-1)!.number, reason: 'wrong car' })
    expect(scene.driver.give('voidFact', { number: opened, reason: 'wrong car' }).ok).toBe(true)
    expect(scene.driver.car.repairs.get(repairId('Valance'))!.gates.opened.status).toBe('open')
  })

  test('a voided photo no longer counts, and one that a passed gate rests on cannot be voided', () => {
    const scene = createScene()
    scene.repair('Sill', { gates: { opened: { asks: asks({ photos: 1 }) } } })
    scene.photo('Sill', 'opened')
    const number = scene.driver.facts.at(-1)!.number
    scene.pass('Sill', 'opened')
    expect(scene.driver.give('voidFact', { number, reason: 'blurred' })).toMatchObject({
      ok: false,
      refusal: { code: 'needed-later' },
    })
  })

  test('a photo that was voided stands in for no other, so that the one a gate rests on stays', () => {
    const scene = createScene()
    scene.repair('Sill', { gates: { opened: { asks: asks({ photos: 1 }) } } })
    scene.photo('Sill', 'opened')
    const blurred = scene.driver.facts.at(-1)!.number
    scene.photo('Sill', 'opened')
    const sharp = scene.driver.facts.at(-1)!.number
    scene.driver.must('voidFact', { number: blurred, reason: 'blurred' })
    expect(scene.pass('Sill', 'opened').ok).toBe(true)
    expect(scene.driver.give('voidFact', { number: sharp, reason: 'blurred too' })).toMatchObject({
      ok: false,
      refusal: { code: 'needed-later' },
    })
  })

  test('a finding that was voided needs its photo no more', () => {
    const scene = createScene()
    scene.repair('Sill')
    scene.photo('Sill', 'opened', { id: 'photo-of-hole' })
    const photo = scene.driver.facts.at(-1)!.number
    scene.driver.must('addFinding', {
      findingId: findingIdSchema.parse('finding-hole'),
      repairId: repairId('Sill'),
      layerId: null,
      kind: 'corrosion',
      grade: 'holed',
      extent: 'as wide as a hand',
      needs: 'a patch',
      attachments: [attachmentIdSchema.parse('photo-of-hole')],
    })
    const finding = scene.driver.facts.at(-1)!.number
    const voidPhoto = () => scene.driver.give('voidFact', { number: photo, reason: 'another car' })
    expect(voidPhoto()).toMatchObject({ ok: false, refusal: { code: 'needed-later' } })
    scene.driver.must('voidFact', { number: finding, reason: 'another car' })
    expect(voidPhoto().ok).toBe(true)
  })

  test('what a payer declined stands, and is settled, while metal is closed as found for it', () => {
    const scene = createScene()
    scene.repair('Sill')
    scene.passTo('Sill', 'assessed')
    scene.driver.must('raiseVariation', {
      variationId: variationId('Whole sill'),
      visitId: VISIT,
      payer: 'owner',
      title: 'Whole sill',
      why: 'the rust goes on',
      ifNot: '',
      findings: [],
      attachments: [],
      lines: [sure(onGate('Sill', 'fabricated'), 3)],
      costs: [],
    })
    scene.driver.must('decideVariation', {
      variationId: variationId('Whole sill'),
      decision: 'declined',
      changed: null,
      how: 'call',
      note: '',
    })
    const declined = lastNumber(scene)
    const attachments = ['inner', 'closing'].map((layer) => {
      scene.photo('Sill', 'fabricated', { shows: 'as left', layer, id: `left-${layer}` })
      return attachmentIdSchema.parse(`left-${layer}`)
    })
    scene.driver.must('closeAsFound', {
      repairId: repairId('Sill'),
      variationId: variationId('Whole sill'),
      attachments,
      protection: 'wax',
      answer: 'not now',
      cautionShown: true,
    })
    const closed = lastNumber(scene)
    const settle = () =>
      scene.driver.give('settleDeclined', {
        variationId: variationId('Whole sill'),
        choice: 'workshop pays',
        reason: 'we do it all the same',
      })
    expect(settle()).toMatchObject({
      ok: false,
      refusal: {
        message: "Sill was closed as found because 'Whole sill' was declined.",
        next: 'Reopen a gate of Sill first.',
      },
    })
    expect(voidLine(scene, declined)).toMatchObject({ ok: false, refusal: { code: 'needed-later' } })
    expect(voidLine(scene, closed).ok).toBe(true)
    expect(voidLine(scene, declined).ok).toBe(true)
  })

  test('a layer that is closed over keeps its coat and its photo, and the gate that they rest on', () => {
    const scene = createScene()
    scene.repair('Sill')
    scene.passTo('Sill', 'opened')
    scene.grade('Sill')
    const photo = scene.driver.facts.find(({ kind }) => kind === 'photoAttached')!.number
    scene.pass('Sill', 'assessed')
    const assessed = lastNumber(scene)
    mark(scene, 'coated')
    const coated = lastNumber(scene)
    expect(voidLine(scene, assessed)).toMatchObject({ ok: false, refusal: { code: 'needed-later' } })
    mark(scene, 'closed over')
    const closedOver = lastNumber(scene)
    for (const number of [photo, coated])
      expect(voidLine(scene, number)).toMatchObject({ ok: false, refusal: { code: 'needed-later' } })
    expect(voidLine(scene, closedOver).ok).toBe(true)
    expect(voidLine(scene, coated).ok).toBe(true)
  })

  test('a gate that was reopened stays so once a layer was graded anew for it', () => {
    const scene = createScene()
    scene.repair('Sill')
    scene.passTo('Sill', 'assessed')
    scene.reopen('Sill', 'assessed')
    const reopened = lastNumber(scene)
    scene.grade('Sill')
    expect(voidLine(scene, reopened)).toMatchObject({ ok: false, refusal: { code: 'needed-later' } })
  })

  test('a part that is fitted was checked', () => {
    const scene = createScene()
    scene.repair('Sill')
    const partId = partIdSchema.parse('part-skin')
    const part = { partId, repairId: repairId('Sill'), gate: 'fabricated' as const, name: 'outer skin' }
    scene.driver.must('needPart', part)
    const move = (state: CommandPayload<'movePart'>['state']) =>
      scene.driver.must('movePart', { partId, state, expected: null, reason: '' })[0]!.number
    move('received')
    const checked = move('checked')
    move('fitted')
    expect(voidLine(scene, checked)).toMatchObject({ ok: false, refusal: { code: 'needed-later' } })
  })
})

const lastNumber = (scene: Scene): number => scene.driver.facts.at(-1)!.number

const voidLine = (scene: Scene, number: number) =>
  scene.driver.give('voidFact', { number, reason: 'written down by mistake' })

const mark = (scene: Scene, as: CommandPayload<'markLayers'>['mark']) =>
  scene.driver.must('markLayers', {
    repairId: repairId('Sill'),
    layerIds: [layerId('Sill', 'inner')],
    mark: as,
  })
