import { expect, test } from 'vitest'
import { personId, repairId } from '../../support/car-builder.ts'
import { createScene } from '../../support/scene.ts'

const pinOn = (skill: string) => {
  const scene = createScene()
  scene.repair('Sill', { gates: { opened: { skill } } })
  const target = { kind: 'gate', repairId: repairId('Sill'), gate: 'opened' } as const
  return scene.driver.give('pinWork', { target, people: [personId('Wren')], day: null })
}

test('work that asks for no skill is pinned to anybody', () => {
  expect(pinOn('any').ok).toBe(true)
})

test('work is pinned to nobody who lacks its skill', () => {
  expect(pinOn('lead loading')).toMatchObject({ ok: false, refusal: { code: 'bad-input' } })
})
