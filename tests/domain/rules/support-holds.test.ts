import { describe, expect, test } from 'vitest'
import { bayIdSchema, liftIdSchema } from '../../../domain/ids.ts'
import { standingFaults } from '../../../domain/rules/standing.ts'
import { personId, repairId } from '../../support/car-builder.ts'
import { createScene } from '../../support/scene.ts'

const left = { zone: { side: 'left', place: 'rear' }, loadBearing: true } as const
const right = { zone: { side: 'right', place: 'rear' }, loadBearing: true } as const

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

  test('the centre counts as a side of its own, and metal that bears no load as none', () => {
    const scene = createScene()
    scene.repair('Tunnel', { zone: { side: 'centre', place: 'middle' }, loadBearing: true })
    scene.repair('Left sill', left)
    scene.repair('Right wing', { ...right, loadBearing: false })
    scene.passTo('Tunnel', 'opened')
    expect(scene.holds('Left sill', 'opened')).toMatchObject([
      { code: 'support', words: 'Tunnel on the centre stands open; the shell would lose both sides.' },
    ])
    expect(scene.codes('Right wing', 'opened')).toEqual([])
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
