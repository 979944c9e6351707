import { describe, expect, test } from 'vitest'
import { attachmentIdSchema, findingIdSchema } from '../../../domain/ids.ts'
import { repairId } from '../../support/car-builder.ts'
import { asks, createScene, type Scene } from '../../support/scene.ts'

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
})
