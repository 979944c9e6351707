import { describe, expect, test } from 'vitest'
import { standingFaults } from '../../../domain/rules/standing.ts'
import { repairId } from '../../support/car-builder.ts'
import { createScene, type Scene } from '../../support/scene.ts'

const refusalOf = (outcome: ReturnType<Scene['pass']>): string => (outcome.ok ? '' : outcome.refusal.message)

describe('uncover first and closed in order', () => {
  const covered = () => {
    const scene = createScene()
    scene.repair('Valance')
    scene.repair('Hanger', {}, { coveredBy: [repairId('Valance')] })
    return scene
  }

  test('no gate of a covered repair is passed before what covers it is open', () => {
    const scene = covered()
    expect(refusalOf(scene.pass('Hanger', 'opened'))).toContain('Valance covers it and is not open yet.')
    scene.passTo('Valance', 'opened')
    expect(scene.pass('Hanger', 'opened').ok).toBe(true)
  })

  test('a covered repair cannot be welded over when it is not painted', () => {
    const scene = covered()
    scene.passTo('Valance', 'opened')
    scene.passTo('Hanger', 'welded')
    scene.passTo('Valance', 'trial-fitted')
    expect(refusalOf(scene.pass('Valance', 'welded'))).toContain('Hanger behind it is not finished.')
    expect(scene.holds('Valance', 'welded')[0]).toMatchObject({
      code: 'closed in order',
      releasable: false,
      otherRepair: repairId('Hanger'),
    })
    scene.passTo('Hanger', 'painted')
    expect(scene.pass('Valance', 'welded').ok).toBe(true)
  })

  test('what lies further in is named too before metal is welded over it', () => {
    const scene = covered()
    scene.repair('Bracket', {}, { coveredBy: [repairId('Hanger')] })
    scene.passTo('Valance', 'trial-fitted')
    const behind = scene.holds('Valance', 'welded').filter(({ code }) => code === 'closed in order')
    expect(behind.map(({ otherRepair }) => otherRepair)).toEqual([repairId('Hanger'), repairId('Bracket')])
  })

  test('a gate of a covered repair is not reopened under welded metal', () => {
    const scene = covered()
    scene.passTo('Valance', 'opened')
    scene.passTo('Hanger', 'painted')
    scene.passTo('Valance', 'welded')
    expect(scene.reopen('Hanger', 'sealed')).toMatchObject({ ok: false, refusal: { code: 'held' } })
    expect(scene.reopen('Valance', 'welded').ok).toBe(true)
    expect(scene.reopen('Hanger', 'sealed').ok).toBe(true)
  })

  test('opened and welded cannot be not needed on a repair that covers another', () => {
    const scene = covered()
    for (const gate of ['opened', 'welded'] as const)
      expect(
        scene.driver.give('markNotNeeded', { repairId: repairId('Valance'), gate, reason: 'no need' }),
      ).toMatchObject({ ok: false, refusal: { code: 'under-cover' } })
    expect(
      scene.driver.give('markNotNeeded', { repairId: repairId('Valance'), gate: 'sealed', reason: 'no seam' })
        .ok,
    ).toBe(true)
  })

  test('a link under welded metal shows a standing fault until the cover is reopened', () => {
    const scene = createScene()
    scene.repair('Valance')
    scene.passTo('Valance', 'welded')
    scene.repair('Hanger', {}, { coveredBy: [repairId('Valance')] })
    scene.repair('Bracket', {}, { coveredBy: [repairId('Hanger')] })
    expect(standingFaults(scene.driver.car)).toMatchObject([
      { repairId: repairId('Valance'), otherId: repairId('Hanger') },
      { repairId: repairId('Valance'), otherId: repairId('Bracket') },
    ])
    expect(scene.reopen('Valance', 'welded').ok).toBe(true)
    expect(standingFaults(scene.driver.car)).toEqual([])
  })

  test('no layer is closed over by the next until it is repaired, coated and photographed', () => {
    const scene = createScene()
    scene.repair('Sill')
    scene.passTo('Sill', 'opened')
    const [inner] = scene.driver.car.repairs.get(repairId('Sill'))!.plan.layers
    for (const layer of scene.driver.car.repairs.get(repairId('Sill'))!.plan.layers)
      scene.driver.must('gradeLayer', {
        repairId: repairId('Sill'),
        layerId: layer.layerId,
        grade: 'holed',
        judgedBy: '',
        remainingMm: 0.8,
        decision: 'patch',
      })
    scene.pass('Sill', 'assessed')
    const close = () =>
      scene.driver.give('markLayers', {
        repairId: repairId('Sill'),
        layerIds: [inner!.layerId],
        mark: 'closed over',
      })
    expect(close()).toMatchObject({
      refusal: { message: 'The inner panel is not repaired, coated and photographed.' },
    })
    for (const mark of ['repaired', 'coated'] as const)
      scene.driver.must('markLayers', { repairId: repairId('Sill'), layerIds: [inner!.layerId], mark })
    scene.photo('Sill', 'fabricated', { shows: 'layer', layer: 'inner' })
    expect(close().ok).toBe(true)
  })

  test('a photo of a layer from before the repair was reopened shows nothing of what it is now', () => {
    const scene = createScene()
    scene.repair('Sill')
    scene.passTo('Sill', 'assessed')
    const [inner] = scene.driver.car.repairs.get(repairId('Sill'))!.plan.layers
    scene.driver.must('markLayers', {
      repairId: repairId('Sill'),
      layerIds: [inner!.layerId],
      mark: 'coated',
    })
    const layersHeld = () =>
      scene
        .holds('Sill', 'welded')
        .filter(({ code }) => code === 'closed in order')
        .map(({ words }) => words)
    expect(layersHeld()).toEqual([])
    expect(scene.reopen('Sill', 'opened').ok).toBe(true)
    expect(layersHeld()).toEqual(['The inner panel behind it is not graded, coated and photographed.'])
  })
})
