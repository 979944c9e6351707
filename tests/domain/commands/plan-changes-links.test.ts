import { expect, test } from 'vitest'
import { typeIdSchema } from '../../../domain/ids.ts'
import { repairId } from '../../support/car-builder.ts'
import { createDriver, driverWorkshop } from '../../support/driver.ts'
import { repairPlan } from '../../support/plans.ts'
import { asks, createScene, groupId } from '../../support/scene.ts'

const side = (at: 'left' | 'right') => ({ zone: { side: at, place: 'rear' as const }, loadBearing: true })
const fitted = { gates: { 'trial-fitted': { asks: asks({ fitUp: true }) } } }

test('a repair is not made to fit together with one on the other side that must not stand open with it', () => {
  const scene = createScene()
  scene.repair('Left post', { ...side('left'), ...fitted })
  scene.repair('Right post', side('right'))
  expect(scene.group('rear opening', ['Left post', 'Right post']).ok).toBe(true)
  const change = (over: typeof fitted | object) =>
    scene.driver.give('changeRepair', {
      repairId: repairId('Right post'),
      plan: repairPlan('Right post', { ...side('right'), ...over }),
      typeVersion: null,
      reason: '',
    })
  expect(change(fitted)).toMatchObject({ ok: false, refusal: { code: 'no-order-of-work' } })
  expect(change({}).ok).toBe(true)
})

test('nor is it made so by bringing it to a newer version of its type', () => {
  const typeId = typeIdSchema.parse('type-post')
  const type = { id: typeId, version: 2, plan: repairPlan('Post', fitted), retired: false }
  const driver = createDriver({ ...driverWorkshop(), types: new Map([[typeId, type]]) })
  const posts = (['left', 'right'] as const).map((at) => {
    const id = repairId(`Post ${at}`)
    driver.must('addRepair', {
      repairId: id,
      type: { typeId, version: 1 },
      plan: repairPlan(`Post ${at}`, side(at)),
      payer: 'workshop',
      covers: [],
      coveredBy: [],
    })
    return id
  })
  driver.must('setFitGroup', {
    groupId: groupId('rear opening'),
    name: 'rear opening',
    members: posts,
    hungParts: [],
    edges: [],
  })
  expect(driver.give('applyType', { repairIds: posts })).toMatchObject({
    ok: false,
    refusal: { code: 'no-order-of-work' },
  })
  expect(driver.give('applyType', { repairIds: posts.slice(0, 1) }).ok).toBe(true)
})
