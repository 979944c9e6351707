import { describe, expect, test } from 'vitest'
import { MS_PER_HOUR } from '../../../domain/time/zone.ts'
import { personId, repairId } from '../../support/car-builder.ts'
import { START } from '../../support/driver.ts'
import { createScene, type Scene } from '../../support/scene.ts'

const refusalOf = (outcome: ReturnType<Scene['pass']>): string => (outcome.ok ? '' : outcome.refusal.message)

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
