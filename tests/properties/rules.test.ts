import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { FactKind } from '../../domain/facts.ts'
import type { WorkTarget } from '../../domain/facts/shapes.ts'
import { gatesFrom } from '../../domain/gates.ts'
import { linkClash, linkGraphOf } from '../../domain/links/clashes.ts'
import {
  activeRepairs,
  descendants,
  isClosed,
  isFinished,
  isLifted,
  loadBearingOpen,
  standingFaults,
} from '../../domain/rules/standing.ts'
import { carFromFacts } from '../../domain/state/car-state.ts'
import { carHours } from '../../domain/value/hours.ts'
import { createScene, type Scene } from '../support/scene.ts'
import { acts, perform, workOn } from '../support/acts.ts'

/** A slice in every run; PANELWRIGHT_CASES for more. */
const CASES = Math.ceil(Number(process.env['PANELWRIGHT_CASES'] ?? 1200) / 10)
/** What may put unfinished work under welded metal: it was found there, or stripped there, never worked there. */
const MAY_UNCOVER_A_FAULT: ReadonlySet<FactKind> = new Set(['coverLinked', 'shellReturned'])

describe('no sequence of accepted commands', () => {
  test('ever reaches a welded repair over an unfinished one but by finding or linking work there, and then a fault stands', () => {
    const seen = { accepted: 0, refused: 0, welded: 0, faults: 0 }
    fc.assert(
      fc.property(acts, (list) => {
        const scene = createScene()
        for (const act of list) {
          const before = hidden(scene)
          const outcome = perform(scene, act)
          seen[outcome?.ok ? 'accepted' : 'refused'] += 1
          const after = hidden(scene)
          const isNew = after.some((pair) => !before.includes(pair))
          if (isNew)
            expect(
              outcome?.ok && outcome.facts.some((fact) => MAY_UNCOVER_A_FAULT.has(fact.kind)),
              `${act[0]} hid unfinished work`,
            ).toBe(true)
          expect(faultPairs(scene)).toEqual(after)
          seen.faults += after.length > 0 ? 1 : 0
        }
        seen.welded += activeRepairs(scene.driver.car).filter(isClosed).length
      }),
      { numRuns: CASES, seed: 20_261_127 },
    )
    // The acts really do their work: repairs are closed, faults arise, and the rules refuse a good part.
    expect(seen.accepted).toBeGreaterThan(CASES * 10)
    expect(seen.refused).toBeGreaterThan(CASES * 5)
    expect(seen.welded).toBeGreaterThan(CASES / 4)
    expect(seen.faults).toBeGreaterThan(0)
  })

  test('opens two sides without a lift or a released hold, or links covers in a circle', () => {
    fc.assert(
      fc.property(acts, (list) => {
        const scene = createScene()
        for (const act of list) {
          const before = sidesOpen(scene)
          perform(scene, act)
          const isNew = sidesOpen(scene).some((pair) => !before.includes(pair))
          // A lift ends with a move; no gate opens a second side.
          if (isNew) expect(['move', 'away']).toContain(act[0])
          expect(linkClash(linkGraphOf(scene.driver.car))?.kind).not.toBe('circle')
        }
      }),
      { numRuns: CASES / 2, seed: 20_261_128 },
    )
  })

  test('leaves a car that differs from the one told by its facts anew', () => {
    fc.assert(
      fc.property(acts, (list) => {
        const scene = createScene()
        for (const act of list) perform(scene, act)
        expect(scene.driver.car).toEqual(carFromFacts(scene.driver.facts))
      }),
      { numRuns: CASES / 2, seed: 20_261_129 },
    )
  })

  test('keeps a pin on work that is not open, or what was said to be left past the gate or a reopening', () => {
    const seen = { pins: 0, left: 0, dropped: 0 }
    fc.assert(
      fc.property(acts, (list) => {
        const scene = createScene()
        for (const act of list) {
          const [, a, b, c] = act
          perform(scene, ['pin', a + 1, b, c + 3])
          perform(scene, ['say left', a + 1, b, c + 5])
          const before = [...scene.driver.car.left.keys()]
          const outcome = perform(scene, act)
          const { car } = scene.driver
          const noted = [...car.pins.values(), ...car.left.values()]
          expect(noted.filter(({ target }) => !isOpen(scene, target))).toEqual([])
          const reopened = outcome?.ok && outcome.facts.find((fact) => fact.kind === 'gateReopened')
          if (reopened) {
            const { repairId, gate } = reopened.payload
            const gone = gatesFrom(car.repairs.get(repairId)!.plan, gate).map((each) => `${repairId}/${each}`)
            expect([...car.left.keys()].filter((key) => gone.includes(key))).toEqual([])
            seen.dropped += before.filter((key) => gone.includes(key)).length
          }
          seen.pins = Math.max(seen.pins, car.pins.size)
          seen.left = Math.max(seen.left, car.left.size)
        }
      }),
      { numRuns: CASES / 2, seed: 20_261_132 },
    )
    for (const count of Object.values(seen)) expect(count).toBeGreaterThan(2)
  })

  test('earns more than is authorised, and what is finished has earned all of it', () => {
    fc.assert(
      fc.property(acts, (list) => {
        const scene = createScene()
        for (const act of list) {
          perform(scene, act)
          const { car, now, workshop } = scene.driver
          const hours = carHours(car, car.currentVisit, { at: now, workshop })
          expect(hours.earned).toBeLessThanOrEqual(hours.authorised + 1e-6)
          if (car.repairs.size > 0 && activeRepairs(car).every(isFinished))
            expect(hours.earned).toBeCloseTo(hours.authorised, 6)
        }
      }),
      { numRuns: CASES / 2, seed: 20_261_130 },
    )
  })
})

test('a car without clashing links can always be finished by whoever takes the next free gate', () => {
  fc.assert(
    fc.property(acts, (list) => {
      const scene = createScene()
      for (const act of list.filter(([kind]) => ['add', 'link', 'group', 'work on'].includes(kind)))
        perform(scene, act)
      clearFaults(scene)
      for (let progress = true; progress;)
        progress = activeRepairs(scene.driver.car).some((repair) => workOn(scene, repair)?.ok)
      expect(
        activeRepairs(scene.driver.car)
          .filter((repair) => !isFinished(repair))
          .map((repair) => repair.plan.name),
      ).toEqual([])
    }),
    { numRuns: CASES / 2, seed: 20_261_131 },
  )
})

const isOpen = (scene: Scene, target: WorkTarget): boolean => {
  const repair = target.kind === 'gate' ? scene.driver.car.repairs.get(target.repairId) : undefined
  if (!repair || target.kind !== 'gate') return false
  return repair.gates[target.gate].status === 'open' && repair.retired === null && !repair.closedAsFound
}

const hidden = (scene: Scene): readonly string[] =>
  activeRepairs(scene.driver.car)
    .filter(isClosed)
    .flatMap((over) =>
      [...descendants(scene.driver.car, over.id)]
        .filter((id) => {
          const under = scene.driver.car.repairs.get(id)
          return under && under.retired === null && !isFinished(under)
        })
        .map((id) => `${over.id}>${id}`),
    )
    .toSorted()

const faultPairs = (scene: Scene): readonly string[] =>
  standingFaults(scene.driver.car)
    .filter((fault) => fault.words.startsWith('closed over'))
    .map((fault) => `${fault.repairId}>${fault.otherId}`)
    .toSorted()

const sidesOpen = (scene: Scene): readonly string[] => {
  const { car } = scene.driver
  const open = loadBearingOpen(car)
  return open.flatMap((a) =>
    open
      .filter((b) => a.id < b.id && a.plan.zone.side !== b.plan.zone.side && !isLifted(car, a.id, b.id))
      .map((b) => `${a.id}+${b.id}`),
  )
}

/** The way forward from welded metal over unfinished work: reopen the covers, outermost first. */
const clearFaults = (scene: Scene): void => {
  for (let round = 0; round < 20; round += 1)
    for (const fault of standingFaults(scene.driver.car)) {
      const name = scene.driver.car.repairs.get(fault.repairId)?.plan.name
      if (name) scene.reopen(name, 'welded')
    }
}
