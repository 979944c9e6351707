import { describe, expect, test } from 'vitest'
import { ASKS_NOTHING } from '../../../domain/catalogue/type-plan.ts'
import { attachmentIdSchema } from '../../../domain/ids.ts'
import { repairId } from '../../support/car-builder.ts'
import { PHOTO } from '../../support/driver.ts'
import { layerId } from '../../support/plans.ts'
import { createScene } from '../../support/scene.ts'

const id = attachmentIdSchema.parse('photo-hole')
const shows = (what: 'before' | 'after') =>
  ({ what: 'gate', repairId: repairId('Sill, left'), gate: 'opened', shows: what, layerId: null }) as const

function withPhoto() {
  const scene = createScene()
  scene.repair('Sill, left', { gates: { opened: { asks: { ...ASKS_NOTHING, photosBefore: 1 } } } })
  scene.photo('Sill, left', 'opened', { shows: 'after', id })
  return scene
}

describe('what a photo shows', () => {
  test('can be put right: it then counts for what it shows', () => {
    const scene = withPhoto()
    expect(scene.codes('Sill, left', 'opened')).toContain('evidence')
    scene.driver.must('setPhotoShows', { attachmentId: id, serves: [shows('before')] })
    expect(scene.codes('Sill, left', 'opened')).not.toContain('evidence')
  })

  test('stays once a gate was signed by it, and the gate is named', () => {
    const scene = withPhoto()
    scene.driver.must('setPhotoShows', { attachmentId: id, serves: [shows('before')] })
    scene.passTo('Sill, left', 'opened')
    const outcome = scene.driver.give('setPhotoShows', { attachmentId: id, serves: [{ what: 'car' }] })
    expect(outcome).toMatchObject({
      ok: false,
      refusal: { code: 'needed-later', message: 'What this photo shows was signed for: Sill, left, opened.' },
    })
    scene.reopen('Sill, left', 'opened')
    expect(scene.driver.give('setPhotoShows', { attachmentId: id, serves: [{ what: 'car' }] }).ok).toBe(true)
  })

  test('stays once a layer that it shows was closed over, and the layer is named', () => {
    const scene = createScene()
    scene.repair('Sill, left')
    scene.passTo('Sill, left', 'opened')
    const inner = layerId('Sill, left', 'inner')
    for (const each of [inner, layerId('Sill, left', 'closing')])
      scene.driver.must('gradeLayer', {
        repairId: repairId('Sill, left'),
        layerId: each,
        grade: 'sound',
        judgedBy: '',
        remainingMm: null,
        decision: 'keep',
      })
    scene.pass('Sill, left', 'assessed')
    scene.photo('Sill, left', 'fabricated', { shows: 'layer', layer: 'inner', id })
    const mark = (as: 'coated' | 'closed over') =>
      scene.driver.must('markLayers', { repairId: repairId('Sill, left'), layerIds: [inner], mark: as })
    mark('coated')
    const setShows = () => scene.driver.give('setPhotoShows', { attachmentId: id, serves: [{ what: 'car' }] })
    mark('closed over')
    expect(setShows()).toMatchObject({
      refusal: {
        code: 'needed-later',
        message: 'What this photo shows was signed for: Sill, left, inner panel closed over.',
      },
    })
    scene.driver.must('voidFact', { number: scene.driver.facts.at(-1)!.number, reason: 'it is still open' })
    expect(setShows().ok).toBe(true)
  })

  test('of an unknown photo or repair is refused', () => {
    const scene = withPhoto()
    const nobody = attachmentIdSchema.parse('photo-nobody')
    expect(
      scene.driver.give('setPhotoShows', { attachmentId: nobody, serves: [{ what: 'car' }] }),
    ).toMatchObject({
      refusal: { message: 'This photo is not known.' },
    })
    const serves = [{ ...shows('before'), repairId: repairId('Bonnet') }]
    expect(scene.driver.give('setPhotoShows', { attachmentId: id, serves })).toMatchObject({
      refusal: { message: 'The repair of this photo is not known.' },
    })
  })
})

describe('marks', () => {
  const marks = [{ kind: 'arrow', from: { x: 0.1, y: 0.1 }, to: { x: 0.4, y: 0.4 } }] as const

  test('go with their photo when it is voided, and come back with neither', () => {
    const { driver } = createScene()
    const attached = driver.must('attachPhoto', {
      attachmentId: id,
      sha256: PHOTO,
      taken: null,
      caption: '',
      serves: [{ what: 'car' }],
    })
    driver.must('markPhoto', { attachmentId: id, marks })
    expect(driver.car.attachments.get(id)?.marks).toEqual(marks)
    driver.must('voidFact', { number: attached[0]!.number, reason: 'the wrong car' })
    expect(driver.car.attachments.has(id)).toBe(false)
    expect(driver.give('markPhoto', { attachmentId: id, marks }).ok).toBe(false)
  })
})
