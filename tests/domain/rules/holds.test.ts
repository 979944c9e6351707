import { describe, expect, test } from 'vitest'
import {
  bayIdSchema,
  entryIdSchema,
  holdIdSchema,
  liftIdSchema,
  partIdSchema,
  readingIdSchema,
  variationIdSchema,
  dimensionIdSchema,
  edgeIdSchema,
  attachmentIdSchema,
} from '../../../domain/ids.ts'
import { standingFaults } from '../../../domain/rules/standing.ts'
import { MS_PER_HOUR } from '../../../domain/time/zone.ts'
import { onGate, personId, repairId } from '../../support/car-builder.ts'
import { START, VISIT } from '../../support/driver.ts'
import { repairPlan } from '../../support/plans.ts'
import { addTask, asks, createScene, type Scene } from '../../support/scene.ts'

const refusalOf = (outcome: ReturnType<Scene['pass']>): string => (outcome.ok ? '' : outcome.refusal.message)
const left = { zone: { side: 'left', place: 'rear' }, loadBearing: true } as const
const right = { zone: { side: 'right', place: 'rear' }, loadBearing: true } as const

describe('order', () => {
  test('a gate follows the one before it', () => {
    const scene = createScene()
    scene.repair('Leg tail')
    expect(refusalOf(scene.pass('Leg tail', 'fabricated'))).toContain('opened comes first.')
    expect(scene.holds('Leg tail', 'fabricated')[0]).toMatchObject({ code: 'order', releasable: false })
  })

  test('a repair may put primed before sealed', () => {
    const scene = createScene()
    scene.repair('Scuttle', { primedFirst: true })
    scene.passTo('Scuttle', 'fabricated')
    expect(scene.codes('Scuttle', 'sealed')).toContain('order')
    expect(scene.codes('Scuttle', 'primed')).toEqual([])
  })

  test('a gate cannot be done before the gate before it', () => {
    const scene = createScene()
    scene.repair('Leg tail')
    scene.passTo('Leg tail', 'opened')
    scene.grade('Leg tail')
    const outcome = scene.driver.give(
      'passGate',
      { repairIds: [repairId('Leg tail')], gate: 'assessed', did: [personId('Wren')], coat: null, note: '' },
      { happened: START - MS_PER_HOUR },
    )
    expect(refusalOf(outcome)).toContain('cannot be done before the gate before it')
  })

  test('an order hold is never released', () => {
    const scene = createScene()
    scene.repair('Leg tail')
    const outcome = scene.driver.give('releaseHold', {
      repairId: repairId('Leg tail'),
      gate: 'welded',
      code: 'order',
      subject: 'opened',
      reason: 'we are in a hurry',
    })
    expect(outcome).toMatchObject({ ok: false, refusal: { code: 'not-allowed' } })
  })
})

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
    expect(standingFaults(scene.driver.car)).toMatchObject([
      { repairId: repairId('Valance'), otherId: repairId('Hanger') },
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
})

describe('fit together', () => {
  const opening = () => {
    const scene = createScene()
    for (const name of ['Valance', 'Quarter'])
      scene.repair(name, { gates: { 'trial-fitted': { asks: asks({ fitUp: true }) } } })
    scene.group(
      'boot opening',
      ['Valance', 'Quarter'],
      [
        {
          edgeId: edgeIdSchema.parse('edge-right'),
          name: 'boot lid, right edge',
          nominalMm: 4,
          toleranceMm: 1,
          flushToleranceMm: 1,
        },
      ],
    )
    return scene
  }
  const reading = (mm: number) => ({
    readings: [{ edgeId: edgeIdSchema.parse('edge-right'), gapsMm: [mm, mm + 0.3], flushMm: 0.2 }],
  })

  test('every member must be open and primed before the group is offered up whole', () => {
    const scene = opening()
    scene.passTo('Valance', 'primed')
    expect(scene.holds('Valance', 'trial-fitted').map((hold) => hold.words)).toEqual([
      'The boot opening is offered up as one, and Quarter is not open yet.',
    ])
    expect(scene.fitUp('boot opening', reading(4))).toMatchObject({ ok: false, refusal: { code: 'held' } })
    expect(scene.fitUp('boot opening', { kind: 'dry', ...reading(7), good: false }).ok).toBe(true)
  })

  test('trial-fitted needs the last fit-up to be good', () => {
    const scene = opening()
    scene.passTo('Valance', 'primed')
    scene.passTo('Quarter', 'primed')
    expect(scene.codes('Valance', 'trial-fitted')).toEqual(['fit together'])
    expect(scene.fitUp('boot opening', reading(6))).toMatchObject({
      ok: false,
      refusal: { code: 'bad-input' },
    })
    scene.fitUp('boot opening', { ...reading(6), good: false })
    expect(scene.holds('Valance', 'trial-fitted')[0]?.words).toBe(
      'The last fit-up of the boot opening was not good.',
    )
    scene.fitUp('boot opening', reading(4))
    expect(scene.pass('Valance', 'trial-fitted').ok).toBe(true)
  })

  test('reopening a member at primed makes the fit-up stale for members not yet welded', () => {
    const scene = opening()
    scene.passTo('Valance', 'primed')
    scene.passTo('Quarter', 'primed')
    scene.fitUp('boot opening', reading(4))
    scene.reopen('Quarter', 'primed')
    scene.passTo('Quarter', 'primed')
    expect(scene.codes('Valance', 'trial-fitted')).toEqual(['fit together'])
  })

  test('a welded member stays and the others are fitted to it', () => {
    const scene = opening()
    scene.passTo('Valance', 'primed')
    scene.passTo('Quarter', 'primed')
    scene.fitUp('boot opening', reading(4))
    scene.passTo('Valance', 'welded')
    scene.reopen('Quarter', 'primed')
    scene.passTo('Quarter', 'primed')
    expect(scene.fitUp('boot opening', reading(4)).ok).toBe(true)
    expect(scene.codes('Quarter', 'trial-fitted')).toEqual([])
  })
})

describe('support', () => {
  const twoSides = () => {
    const scene = createScene()
    scene.repair('Left sill', left)
    scene.repair('Right sill', right)
    return scene
  }

  test("one side's load-bearing repairs stand open at a time", () => {
    const scene = twoSides()
    scene.passTo('Left sill', 'opened')
    expect(scene.codes('Right sill', 'opened')).toEqual(['support'])
    scene.passTo('Left sill', 'welded')
    expect(scene.codes('Right sill', 'opened')).toEqual([])
  })

  test('one act cannot open both sides', () => {
    const scene = twoSides()
    const outcome = scene.driver.give('passGate', {
      repairIds: [repairId('Left sill'), repairId('Right sill')],
      gate: 'opened',
      did: [personId('Wren')],
      coat: null,
      note: '',
    })
    expect(outcome).toMatchObject({ ok: false, refusal: { code: 'held' } })
  })

  test('a lift of the support hold needs a fixture or bracing, and ends when the shell is moved', () => {
    const scene = twoSides()
    const lift = () =>
      scene.driver.give('liftSupport', {
        liftId: liftIdSchema.parse('lift-sills'),
        repairIds: [repairId('Left sill'), repairId('Right sill')],
        how: 'on the jig, door bars in',
      })
    expect(lift()).toMatchObject({ ok: false, refusal: { code: 'not-now' } })
    scene.driver.must('moveShell', { bayId: bayIdSchema.parse('bay-id-3-jig'), fixture: 'jig', note: '' })
    expect(lift().ok).toBe(true)
    scene.passTo('Left sill', 'opened')
    expect(scene.pass('Right sill', 'opened').ok).toBe(true)
    scene.driver.must('moveShell', {
      bayId: bayIdSchema.parse('bay-id-1-metalwork'),
      fixture: 'dolly',
      note: '',
    })
    expect(standingFaults(scene.driver.car)[0]?.words).toContain('stand open on different sides')
  })

  test('opening into a dead end is held: what lies behind open metal on the other side comes first', () => {
    const scene = createScene()
    scene.repair('Wing', { zone: { side: 'left', place: 'front' } })
    scene.repair('Tray', left, { coveredBy: [repairId('Wing')] })
    scene.passTo('Wing', 'opened')
    scene.repair(
      'Centre panel',
      { zone: { side: 'centre', place: 'front' }, loadBearing: true },
      { covers: [repairId('Wing')] },
    )
    expect(scene.holds('Centre panel', 'opened')[0]?.words).toContain('no order of work')
    scene.passTo('Tray', 'painted')
    expect(scene.codes('Centre panel', 'opened')).toEqual([])
  })

  test('a shell cut open moves only when braced or on a fixture', () => {
    const scene = twoSides()
    scene.driver.must('moveShell', {
      bayId: bayIdSchema.parse('bay-id-1-metalwork'),
      fixture: 'stands',
      note: '',
    })
    scene.passTo('Left sill', 'opened')
    const move = () =>
      scene.driver.give('moveShell', { bayId: bayIdSchema.parse('bay-id-yard'), fixture: 'wheels', note: '' })
    expect(move()).toMatchObject({ ok: false, refusal: { code: 'not-now' } })
    scene.driver.must('setSafety', { item: 'bracing', stands: true, note: '' })
    expect(move().ok).toBe(true)
  })
})

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
      lines: [{ target: onGate('Leg tail', 'fabricated'), hours }],
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
      how: 'call',
      note: '',
    })
    expect(scene.codes('Leg tail', 'fabricated')).toEqual([])
  })

  test('declined work is held until the manager chooses; the workshop may pay', () => {
    const scene = owned()
    accept(scene, ['opened', 'assessed', 'fabricated'])
    scene.passTo('Leg tail', 'assessed')
    raise(scene, 'variation-1', 6)
    scene.driver.must('decideVariation', {
      variationId: variationIdSchema.parse('variation-1'),
      decision: 'declined',
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

describe('parts, curing, windows, conditions, watch, skill, by hand, tasks', () => {
  test('a gate that needs a part waits until the part is checked, and a rejected part says why', () => {
    const scene = createScene()
    const partId = partIdSchema.parse('part-bracket')
    scene.repair('Hanger', { parts: [{ partId, name: 'Hanger bracket', gate: 'fabricated' }] })
    scene.passTo('Hanger', 'assessed')
    scene.driver.must('movePart', { partId, state: 'ordered', expected: '2026-03-10', reason: '' })
    expect(scene.holds('Hanger', 'fabricated')[0]?.words).toBe(
      'Hanger bracket: ordered, expected Tue 10 Mar.',
    )
    scene.driver.must('movePart', { partId, state: 'received', expected: null, reason: '' })
    expect(scene.driver.give('movePart', { partId, state: 'rejected', expected: null, reason: '' }).ok).toBe(
      false,
    )
    scene.driver.must('movePart', { partId, state: 'rejected', expected: null, reason: 'left-hand one' })
    expect(scene.holds('Hanger', 'fabricated')[0]?.words).toBe('Hanger bracket: rejected (left-hand one).')
    for (const state of ['ordered', 'received', 'checked'] as const)
      scene.driver.must('movePart', { partId, state, expected: null, reason: '' })
    expect(scene.codes('Hanger', 'fabricated')).toEqual([])
  })

  test('curing holds the next gate for its hours, nights and weekends counted', () => {
    const scene = createScene()
    scene.repair('Gutter', { gates: { sealed: { cureHours: 12 } } })
    scene.passTo('Gutter', 'sealed')
    expect(scene.holds('Gutter', 'primed')[0]).toMatchObject({ code: 'curing', clearedBy: 'time' })
    scene.driver.now += 12 * MS_PER_HOUR
    expect(scene.codes('Gutter', 'primed')).toEqual([])
  })

  test('what covers a curing repair is not welded before it has cured', () => {
    const scene = createScene()
    scene.repair('Valance')
    scene.repair('Hanger', { gates: { painted: { cureHours: 24 } } }, { coveredBy: [repairId('Valance')] })
    scene.passTo('Valance', 'opened')
    scene.passTo('Hanger', 'painted')
    scene.passTo('Valance', 'trial-fitted')
    expect(scene.codes('Valance', 'welded')).toEqual(['curing'])
    scene.driver.now += 24 * MS_PER_HOUR
    expect(scene.codes('Valance', 'welded')).toEqual([])
  })

  test('past its window the surface is prepared again, with a photo', () => {
    const scene = createScene()
    scene.repair('Sill', { gates: { primed: { window: { after: 'sealed', hours: 4 } } } })
    scene.passTo('Sill', 'sealed')
    scene.driver.now += 5 * MS_PER_HOUR
    expect(scene.codes('Sill', 'primed')).toEqual(['window'])
    const prepare = () =>
      scene.driver.give('prepareSurface', {
        repairId: repairId('Sill'),
        gate: 'primed',
        attachmentId: attachmentIdSchema.parse('abraded-1'),
      })
    expect(prepare()).toMatchObject({ ok: false, refusal: { code: 'photo' } })
    scene.photo('Sill', 'primed', { shows: 'prepared', id: 'abraded-1' })
    expect(prepare().ok).toBe(true)
    expect(scene.codes('Sill', 'primed')).toEqual([])
  })

  test('steel less than 3 degrees above the dew point holds primed', () => {
    const scene = createScene()
    const limits = { minMarginC: 3, maxHumidityPercent: 85, minAirC: null, maxAirC: null }
    scene.repair('Sill', { gates: { primed: { asks: asks({ conditions: limits }) } } })
    scene.passTo('Sill', 'sealed')
    expect(scene.codes('Sill', 'primed')).toEqual(['evidence'])
    // 16 C and 71 % give a dew point of 11 C, so steel at 13 C is not fit: worked example of ISO 8502-4 practice.
    const read = (steelC: number) =>
      scene.driver.must('readConditions', {
        readingId: readingIdSchema.parse(`reading-${steelC}`),
        repairIds: [repairId('Sill')],
        gate: 'primed',
        airC: 16,
        humidityPercent: 71,
        steelC,
      })
    read(13)
    expect(scene.codes('Sill', 'primed')).toEqual(['conditions'])
    read(15)
    expect(scene.codes('Sill', 'primed')).toEqual([])
  })

  test('hot work is not signed for until its fire watch is completed', () => {
    const scene = createScene()
    scene.repair('Sill')
    const entryId = entryIdSchema.parse('entry-hot')
    scene.driver.must(
      'startClock',
      {
        entryId,
        personId: personId('Wren'),
        on: { kind: 'work', targets: [onGate('Sill', 'opened')] },
        hotWork: true,
        cause: null,
      },
      { by: personId('Wren') },
    )
    expect(scene.holds('Sill', 'opened')[0]?.words).toContain('still running')
    scene.driver.must('stopClock', { entryId, overtime: false, shares: null }, { by: personId('Wren') })
    expect(scene.holds('Sill', 'opened')[0]?.words).toContain('Fire watch after hot work until')
    expect(scene.driver.give('completeWatch', { entryId, note: '' })).toMatchObject({
      ok: false,
      refusal: { code: 'not-now' },
    })
    scene.driver.now += MS_PER_HOUR
    expect(scene.codes('Sill', 'opened')).toEqual(['hot-work watch'])
    scene.driver.must('completeWatch', { entryId, note: 'cold' })
    expect(scene.codes('Sill', 'opened')).toEqual([])
  })

  test('whoever did the work has the skill that the gate needs', () => {
    const scene = createScene()
    scene.repair('Sill', { gates: { opened: { skill: 'metalwork' } } })
    expect(scene.codes('Sill', 'opened', ['Ines'])).toEqual(['skill'])
    expect(scene.codes('Sill', 'opened', ['Wren'])).toEqual([])
  })

  test("the manager's own hold stands until it is cleared", () => {
    const scene = createScene()
    scene.repair('Sill')
    const holdId = holdIdSchema.parse('hold-inspector')
    scene.driver.must('setHold', {
      holdId,
      scope: { kind: 'repair', repairId: repairId('Sill') },
      words: 'The inspector looks at it first',
      clears: 'the inspector',
      expected: '2026-03-06',
    })
    expect(scene.holds('Sill', 'opened')[0]).toMatchObject({
      code: 'by hand',
      words: 'The inspector looks at it first; expected Fri 6 Mar',
      clearedBy: 'the inspector',
    })
    scene.driver.must('clearHold', { holdId, note: '' })
    expect(scene.codes('Sill', 'opened')).toEqual([])
  })

  test('a task may hold a gate, and a task that waits for what waits for it is refused', () => {
    const scene = createScene()
    scene.repair('Sill')
    expect(addTask(scene, 'Mount on the jig', [onGate('Sill', 'opened')]).ok).toBe(true)
    expect(scene.codes('Sill', 'opened')).toEqual(['task'])
    expect(addTask(scene, 'Wax', [onGate('Sill', 'opened')], [onGate('Sill', 'painted')])).toMatchObject({
      ok: false,
      refusal: { code: 'circle' },
    })
  })

  test('a released hold lets the gate be passed and says who released it and why', () => {
    const scene = createScene()
    scene.repair('Gutter', { gates: { sealed: { cureHours: 12 } } })
    scene.passTo('Gutter', 'sealed')
    const [hold] = scene.holds('Gutter', 'primed')
    scene.driver.must('releaseHold', {
      repairId: repairId('Gutter'),
      gate: 'primed',
      code: hold!.code,
      subject: hold!.subject,
      reason: 'warm cabinet, dry to touch',
    })
    expect(scene.pass('Gutter', 'primed').ok).toBe(true)
    expect(scene.driver.car.repairs.get(repairId('Gutter'))!.gates.primed.done).toMatchObject({
      released: ['curing'],
    })
  })
})

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
})
