import { describe, expect, test } from 'vitest'
import { readingIdSchema, dimensionIdSchema } from '../../../domain/ids.ts'
import { personId, repairId } from '../../support/car-builder.ts'
import { asks, createScene, type Scene } from '../../support/scene.ts'

const refusalOf = (outcome: ReturnType<Scene['pass']>): string => (outcome.ok ? '' : outcome.refusal.message)
const left = { zone: { side: 'left', place: 'rear' }, loadBearing: true } as const

describe('evidence', () => {
  const withPhotos = {
    gates: {
      opened: { asks: asks({ photosBefore: 1, photos: 1 }) },
      sealed: { asks: asks({ photos: 1, drains: true }) },
    },
  }

  test('opened asks for a photo before cutting and one after', () => {
    const scene = createScene()
    scene.repair('Boot floor', withPhotos)
    scene.photo('Boot floor', 'opened', { shows: 'before' })
    expect(scene.holds('Boot floor', 'opened').map((hold) => hold.words)).toEqual(['A photo after: 0 of 1'])
    scene.photo('Boot floor', 'opened', { shows: 'after' })
    expect(scene.pass('Boot floor', 'opened').ok).toBe(true)
  })

  test('a photo whose camera date lies before the gate before it does not count', () => {
    const scene = createScene()
    scene.repair('Boot floor', withPhotos)
    scene.photo('Boot floor', 'opened', { shows: 'before' })
    scene.photo('Boot floor', 'opened', { shows: 'after' })
    scene.passTo('Boot floor', 'fabricated')
    scene.driver.must('checkDrains', {
      readingId: readingIdSchema.parse('drains-1'),
      repairIds: [repairId('Boot floor')],
      note: '',
    })
    scene.photo('Boot floor', 'sealed', { taken: '2026-03-04T08:00:00+00:00' })
    expect(scene.holds('Boot floor', 'sealed').map((hold) => hold.words)).toEqual(['A photo: 0 of 1'])
    scene.photo('Boot floor', 'sealed')
    expect(scene.codes('Boot floor', 'sealed')).toEqual([])
  })

  test('a camera dates to the second: a photo of the very second in which the gate before was passed counts', () => {
    const scene = createScene()
    scene.repair('Boot floor', { gates: { sealed: { asks: asks({ photos: 1 }) } } })
    scene.driver.now += 400
    scene.passTo('Boot floor', 'fabricated')
    const { done } = scene.driver.car.repairs.get(repairId('Boot floor'))!.gates.fabricated
    const secondsBefore = (seconds: number) =>
      `${new Date((done?.stamp.happened ?? 0) - seconds * 1000).toISOString().slice(0, 19)}+00:00`
    const words = () => scene.holds('Boot floor', 'sealed').map((hold) => hold.words)
    scene.photo('Boot floor', 'sealed', { taken: secondsBefore(1) })
    expect(words()).toEqual(['A photo: 0 of 1'])
    scene.photo('Boot floor', 'sealed', { taken: secondsBefore(0) })
    expect(words()).toEqual([])
  })

  test('photos and readings from before a reopening no longer count', () => {
    const scene = createScene()
    scene.repair('Boot floor', withPhotos)
    scene.photo('Boot floor', 'opened', { shows: 'before' })
    scene.photo('Boot floor', 'opened', { shows: 'after' })
    scene.passTo('Boot floor', 'fabricated')
    scene.driver.must('checkDrains', {
      readingId: readingIdSchema.parse('drains-1'),
      repairIds: [repairId('Boot floor')],
      note: '',
    })
    scene.photo('Boot floor', 'sealed')
    expect(scene.pass('Boot floor', 'sealed').ok).toBe(true)
    expect(scene.reopen('Boot floor', 'sealed').ok).toBe(true)
    expect(scene.holds('Boot floor', 'sealed').map((hold) => hold.subject)).toEqual(['photo', 'drains'])
  })

  test('fabricated waits for the manager to review the estimate and for each layer to be repaired', () => {
    const scene = createScene()
    scene.repair('Sill', { gates: { fabricated: { asks: asks({ review: true, layerPhotos: 'repaired' }) } } })
    scene.passTo('Sill', 'opened')
    scene.grade('Sill', { grade: 'holed', decision: 'replace' })
    expect(scene.pass('Sill', 'assessed').ok).toBe(true)
    expect(scene.holds('Sill', 'fabricated').map((hold) => hold.subject)).toEqual([
      'repaired-layer-sill-inner',
      'repaired-layer-sill-closing',
      'photo-layer-sill-inner',
      'photo-layer-sill-closing',
      'review',
    ])
  })

  test('a layer that was not seen needs how it was judged', () => {
    const scene = createScene()
    scene.repair('Sill')
    scene.passTo('Sill', 'opened')
    const outcome = scene.driver.give('gradeLayer', {
      repairId: repairId('Sill'),
      layerId: scene.driver.car.repairs.get(repairId('Sill'))!.plan.layers[0]!.layerId,
      grade: 'not seen',
      judgedBy: '',
      remainingMm: null,
      decision: 'keep',
    })
    expect(outcome).toMatchObject({
      ok: false,
      refusal: { message: 'Say how a layer that was not seen was judged.' },
    })
  })

  test('load-bearing metal is not opened before bracing, battery, fuel and reference dimensions stand as safe', () => {
    const scene = createScene()
    scene.repair('Leg tail', { ...left, gates: { opened: { asks: asks({ safety: true }) } } })
    expect(scene.holds('Leg tail', 'opened').map((hold) => hold.subject)).toEqual([
      'safety-bracing',
      'safety-battery',
      'safety-fuel',
      'safety-dimensions',
    ])
    for (const item of ['bracing', 'battery', 'fuel'] as const)
      scene.driver.must('setSafety', { item, stands: true, note: '' })
    scene.driver.must('addDimension', {
      dimensionId: dimensionIdSchema.parse('boot-diagonal'),
      name: 'Boot opening diagonal',
      kind: 'aperture',
      side: 'centre',
      limitMm: 2,
      mm: 1213,
      stood: 'jig',
      doorsHung: false,
    })
    expect(scene.codes('Leg tail', 'opened')).toEqual([])
  })

  test('welded asks for the weld plan and for dimensions read like the target', () => {
    const scene = createScene()
    const joint = {
      jointId: 'joint-flange' as never,
      name: 'lower flange',
      kind: 'spot' as const,
      planned: 12,
    }
    scene.repair('Leg tail', {
      ...left,
      welds: [joint],
      gates: { welded: { asks: asks({ welds: true, dimensions: true }) } },
    })
    const dimensionId = dimensionIdSchema.parse('datum-1')
    scene.driver.must('addDimension', {
      dimensionId,
      name: 'Rear datum',
      kind: 'datum',
      side: 'left',
      limitMm: 3,
      mm: 900,
      stood: 'jig',
      doorsHung: false,
    })
    scene.passTo('Leg tail', 'trial-fitted')
    scene.driver.must('countWelds', {
      readingId: readingIdSchema.parse('welds-1'),
      repairId: repairId('Leg tail'),
      welds: [{ jointId: joint.jointId, done: 11 }],
    })
    const read = (mm: number, stood: 'jig' | 'wheels') =>
      scene.driver.must('readDimension', {
        readingId: readingIdSchema.parse(`reading-${mm}`),
        dimensionId,
        mm,
        stood,
        doorsHung: false,
      })
    read(901, 'wheels')
    expect(scene.holds('Leg tail', 'welded').map((hold) => hold.subject)).toEqual([
      'dimension-datum-1',
      'weld-joint-flange',
    ])
    read(904, 'jig')
    expect(scene.holds('Leg tail', 'welded')[0]?.words).toContain('4')
    read(902, 'jig')
    scene.driver.must('countWelds', {
      readingId: readingIdSchema.parse('welds-2'),
      repairId: repairId('Leg tail'),
      welds: [{ jointId: joint.jointId, done: 12 }],
    })
    expect(scene.codes('Leg tail', 'welded')).toEqual([])
  })

  test('a second signature is asked for where the type says so, by another person', () => {
    const scene = createScene()
    scene.repair('Leg tail', { gates: { opened: { asks: asks({ secondSignature: true }) } } })
    expect(refusalOf(scene.pass('Leg tail', 'opened'))).toContain('second signature')
    expect(
      refusalOf(scene.pass('Leg tail', 'opened', { by: personId('Wren'), second: personId('Wren') })),
    ).toContain('second signature')
    expect(scene.pass('Leg tail', 'opened', { by: personId('Wren'), second: personId('Mara') }).ok).toBe(true)
  })
})
