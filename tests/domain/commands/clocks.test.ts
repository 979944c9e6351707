import { describe, expect, test } from 'vitest'
import { MS_PER_HOUR } from '../../../domain/time/zone.ts'
import { entryId, onGate, personId, repairId } from '../../support/car-builder.ts'
import { createScene, type Scene } from '../../support/scene.ts'

const CLOCK = entryId('wren')

const start = (scene: Scene, hotWork: boolean) =>
  scene.driver.give('startClock', {
    entryId: CLOCK,
    personId: personId('Wren'),
    on: { kind: 'work', targets: [onGate('Sill', 'opened')] },
    hotWork,
    cause: null,
  })

const confirm = ({ driver }: Scene, end: number) =>
  driver.give('confirmClock', { entryId: CLOCK, end: new Date(end).toISOString(), reason: 'went home' })

describe('a clock that still runs', () => {
  const running = (hotWork: boolean): Scene => {
    const scene = createScene()
    scene.repair('Sill')
    start(scene, hotWork)
    scene.driver.now += 4 * MS_PER_HOUR
    return scene
  }

  test('is not confirmed on hot work while its fire watch would go on: stopping it starts the watch', () => {
    const scene = running(true)
    const { watchMinutes } = scene.driver.workshop.settings
    const watched = scene.driver.now - (watchMinutes - 1) * 60_000
    expect(confirm(scene, watched)).toMatchObject({
      ok: false,
      refusal: { next: 'Stop it first, so that its fire watch starts.' },
    })
    expect(confirm(scene, scene.driver.now - watchMinutes * 60_000).ok).toBe(true)
  })

  test('is confirmed at any time on other work', () => {
    const scene = running(false)
    expect(confirm(scene, scene.driver.now).ok).toBe(true)
  })
})

test('no clock is started on a repair that was retired, and what was worked on it before may be entered', () => {
  const scene = createScene()
  scene.repair('Sill')
  const from = scene.driver.now - 2 * MS_PER_HOUR
  scene.driver.must('retireRepair', { repairId: repairId('Sill'), reason: 'it is sound' })
  expect(start(scene, false)).toMatchObject({ ok: false, refusal: { message: 'Sill was retired.' } })
  const entered = scene.driver.give('logTime', {
    entryId: CLOCK,
    personId: personId('Wren'),
    on: { kind: 'work', targets: [onGate('Sill', 'opened')] },
    hotWork: false,
    cause: null,
    time: {
      kind: 'span',
      start: new Date(from).toISOString(),
      end: new Date(from + MS_PER_HOUR).toISOString(),
    },
    shares: null,
    note: '',
  })
  expect(entered.ok).toBe(true)
})
