import { describe, expect, test } from 'vitest'
import type { HoldScope } from '../../../domain/facts/work-facts.ts'
import { holdIdSchema, taskIdSchema } from '../../../domain/ids.ts'
import { repairId } from '../../support/car-builder.ts'
import { createScene } from '../../support/scene.ts'

const setHold = (scope: HoldScope) => {
  const scene = createScene()
  scene.repair('Sill')
  return scene.driver.give('setHold', {
    holdId: holdIdSchema.parse('hold-inspector'),
    scope,
    words: 'The inspector looks at the bare seam first.',
    clears: 'the inspector',
    expected: null,
  })
}

describe('a hold by hand', () => {
  test('is set on the car and on a repair that it has', () => {
    expect(setHold({ kind: 'car' }).ok).toBe(true)
    expect(setHold({ kind: 'repair', repairId: repairId('Sill') }).ok).toBe(true)
  })

  test.each<HoldScope>([
    { kind: 'repair', repairId: repairId('Wing') },
    { kind: 'gate', repairId: repairId('Wing'), gate: 'opened' },
    { kind: 'task', taskId: taskIdSchema.parse('task-unknown') },
  ])('is not set on a $kind that is not of this car', (scope) => {
    expect(setHold(scope)).toMatchObject({ ok: false, refusal: { code: 'unknown' } })
  })
})

describe('a release', () => {
  /** The skill is lacking at both gates; its release is asked for at `asked` and given at assessed. */
  const releasedAfterAsking = (asked: 'opened' | 'assessed') => {
    const scene = createScene()
    scene.repair('Sill', {
      gates: { opened: { skill: 'lead loading' }, assessed: { skill: 'lead loading' } },
    })
    const held = (gate: 'opened' | 'assessed') => {
      const hold = scene.holds('Sill', gate, ['Mara']).find(({ code }) => code === 'skill')!
      return { repairId: repairId('Sill'), gate, code: hold.code, subject: hold.subject }
    }
    scene.driver.must('askRelease', { ...held(asked), reason: 'Nobody else is here.' })
    const facts = scene.driver.must('releaseHold', { ...held('assessed'), reason: 'It is quick.' })
    return facts.find(({ kind }) => kind === 'holdReleased')
  }

  test('is marked as of one’s own hold where one has asked for it at that gate', () => {
    expect(releasedAfterAsking('assessed')).toMatchObject({ payload: { ownHold: true } })
  })

  test('is not marked so where one has asked for it at another gate', () => {
    expect(releasedAfterAsking('opened')).toMatchObject({ payload: { ownHold: false } })
  })

  test('is neither given nor asked for where the order of work holds', () => {
    const scene = createScene()
    scene.repair('Sill')
    const hold = scene.holds('Sill', 'assessed').find(({ code }) => code === 'order')!
    const payload = {
      repairId: repairId('Sill'),
      gate: 'assessed' as const,
      code: hold.code,
      subject: hold.subject,
      reason: 'It is quick.',
    }
    for (const kind of ['askRelease', 'releaseHold'] as const)
      expect(scene.driver.give(kind, payload)).toMatchObject({
        ok: false,
        refusal: { code: 'not-allowed', message: "'order' is never released." },
      })
  })
})
