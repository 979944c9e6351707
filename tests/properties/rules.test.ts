import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { RepairState } from '../../domain/car.ts'
import type { FactKind } from '../../domain/facts.ts'
import { GATES, type Gate } from '../../domain/gates.ts'
import {
  attachmentIdSchema,
  awayIdSchema,
  bayIdSchema,
  liftIdSchema,
  partyIdSchema,
  variationIdSchema,
} from '../../domain/ids.ts'
import { linkClash, linkGraphOf } from '../../domain/links/clashes.ts'
import {
  activeRepairs,
  descendants,
  isClosed,
  isFinished,
  isLifted,
  loadBearingOpen,
  nextGate,
  standingFaults,
} from '../../domain/rules/standing.ts'
import { carFromFacts } from '../../domain/state/car-state.ts'
import { carHours } from '../../domain/value/hours.ts'
import { onGate, repairId } from '../support/car-builder.ts'
import { VISIT, type Outcome } from '../support/driver.ts'
import { repairPlan } from '../support/plans.ts'
import { asks, createScene, groupId, type Scene } from '../support/scene.ts'

/** A slice in every run; PANELWRIGHT_CASES for more. */
const CASES = Math.ceil(Number(process.env['PANELWRIGHT_CASES'] ?? 1200) / 10)
const NAMES = ['A', 'B', 'C', 'D', 'E', 'F', 'G']

type Act = readonly [kind: ActKind, a: number, b: number, c: number]
type ActKind =
  | 'pass'
  | 'work on'
  | 'not needed'
  | 'reopen'
  | 'release'
  | 'void'
  | 'link'
  | 'unlink'
  | 'add'
  | 'retire'
  | 'split'
  | 'merge'
  | 'group'
  | 'fit up'
  | 'decide'
  | 'close as found'
  | 'lift'
  | 'move'
  | 'away'

const ACTS: readonly { readonly weight: number; readonly arbitrary: fc.Arbitrary<ActKind> }[] = [
  { weight: 40, arbitrary: fc.constant('work on') },
  { weight: 12, arbitrary: fc.constant('pass') },
  ...(
    [
      'not needed',
      'reopen',
      'release',
      'void',
      'link',
      'unlink',
      'add',
      'retire',
      'split',
      'merge',
      'group',
      'fit up',
      'decide',
      'close as found',
      'lift',
      'move',
      'away',
    ] as const
  ).map((kind) => ({
    weight: kind === 'link' || kind === 'fit up' ? 8 : 3,
    arbitrary: fc.constant(kind as ActKind),
  })),
]
const acts: fc.Arbitrary<readonly Act[]> = fc.array(
  fc.tuple(fc.oneof(...ACTS), fc.nat(1000), fc.nat(1000), fc.nat(1000)),
  { minLength: 20, maxLength: 140 },
)

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

const pick = <T>(list: readonly T[], index: number): T | undefined => list[index % Math.max(1, list.length)]

const perform = (scene: Scene, [kind, a, b, c]: Act): Outcome | undefined => {
  const { driver } = scene
  const repairs = activeRepairs(driver.car)
  const repair = pick(repairs, a)
  const other = pick(repairs, b)
  const gate = pick(GATES, c)!
  if (kind === 'add' || repairs.length < 2) return addRepair(scene, a, b)
  if (!repair || !other) return undefined
  switch (kind) {
    case 'work on':
      return workOn(scene, repair)
    case 'pass':
      return scene.pass(repair.plan.name, gate)
    case 'not needed':
      return driver.give('markNotNeeded', { repairId: repair.id, gate, reason: 'nothing there' })
    case 'reopen':
      return scene.reopen(repair.plan.name, gate)
    case 'release':
      return release(scene, repair)
    case 'void':
      return driver.give('voidFact', {
        number: pick(driver.facts, a * b + c)!.number,
        reason: 'did not happen',
      })
    case 'link':
      return scene.cover(repair.plan.name, other.plan.name)
    case 'unlink': {
      const link = pick(driver.car.covers, c)
      return link && driver.give('unlinkCover', { over: link.over, under: link.under, reason: 'not so' })
    }
    case 'retire':
      return driver.give('retireRepair', { repairId: repair.id, reason: 'not needed after all' })
    case 'split':
      return split(scene, repair, c)
    case 'merge':
      return driver.give('mergeRepairs', { repairId: repair.id, into: other.id, reason: 'one cavity' })
    case 'group':
      return scene.group(`opening ${c % 2}`, [...new Set([repair.plan.name, other.plan.name])])
    case 'fit up':
      return driver.car.fitGroups.has(groupId(`opening ${c % 2}`))
        ? scene.fitUp(`opening ${c % 2}`, { good: b % 4 !== 0 })
        : undefined
    case 'decide':
      return vary(scene, repair, gate, a * 1000 + b)
    case 'close as found':
      return closeAsFound(scene, repair)
    case 'lift':
      return driver.give('liftSupport', {
        liftId: liftIdSchema.parse(`lift-${driver.facts.length}`),
        repairIds: [repair.id, other.id],
        how: 'on the jig',
      })
    case 'move':
      return driver.give('moveShell', { bayId: bayIdSchema.parse('bay-id-3-jig'), fixture: 'jig', note: '' })
    case 'away':
      return goAway(scene, repair, gate)
  }
}

const side = (index: number) => (['left', 'right', 'centre'] as const)[index % 3]!

const addRepair = (scene: Scene, a: number, b: number): Outcome | undefined => {
  const name = NAMES.find((each) => !scene.driver.car.repairs.has(repairId(each)))
  if (!name) return undefined
  const over = pick(activeRepairs(scene.driver.car), b)
  return scene.driver.give('addRepair', {
    repairId: repairId(name),
    type: null,
    payer: 'workshop',
    covers: [],
    coveredBy: over && a % 2 === 0 ? [over.id] : [],
    plan: repairPlan(name, {
      zone: { side: side(a), place: 'rear' },
      loadBearing: b % 2 === 0,
      primedFirst: a % 5 === 0,
      gates: { 'trial-fitted': { asks: asks({ fitUp: true }) } },
    }),
  })
}

/** What a good technician would do next: bring what is asked, offer the groups up, pass the next gate. */
const workOn = (scene: Scene, repair: RepairState): Outcome | undefined => {
  const gate = nextGate(repair)
  if (!gate) return undefined
  const { name } = repair.plan
  const isHeld = scene
    .codes(name, gate)
    .some((code) => code !== 'evidence' && code !== 'fit together' && code !== 'closed in order')
  if (isHeld) return scene.pass(name, gate)
  if (gate === 'assessed') scene.grade(name)
  if (gate === 'trial-fitted')
    for (const group of scene.driver.car.fitGroups.values())
      if (group.plan.members.includes(repair.id)) scene.fitUp(group.plan.name)
  return scene.pass(name, gate)
}

const release = (scene: Scene, repair: RepairState): Outcome | undefined => {
  const gate = nextGate(repair)
  const hold = gate && scene.holds(repair.plan.name, gate).find((each) => each.code !== 'support')
  return hold
    ? scene.driver.give('releaseHold', {
        repairId: repair.id,
        gate,
        code: hold.code,
        subject: hold.subject,
        reason: 'looked at',
      })
    : undefined
}

const split = (scene: Scene, repair: RepairState, c: number): Outcome | undefined => {
  const name = NAMES.find((each) => !scene.driver.car.repairs.has(repairId(each)))
  if (!name) return undefined
  const plan = repairPlan(name, { zone: { side: side(c), place: 'rear' }, loadBearing: c % 2 === 0 })
  return scene.driver.give('splitRepair', {
    repairId: repair.id,
    newRepairId: repairId(name),
    plan,
    share: 0.5,
    reason: 'two cavities',
  })
}

const vary = (scene: Scene, repair: RepairState, gate: Gate, id: number): Outcome | undefined => {
  const open = [...scene.driver.car.variations.values()].find((each) => each.status === 'raised')
  if (open)
    return scene.driver.give('decideVariation', {
      variationId: open.id,
      decision: id % 2 === 0 ? 'accepted' : 'declined',
      how: 'call',
      note: '',
    })
  const variationId = variationIdSchema.parse(`variation-${scene.driver.facts.length}`)
  return scene.driver.give('raiseVariation', {
    variationId,
    visitId: VISIT,
    payer: 'owner',
    title: 'More',
    why: 'more was found',
    ifNot: '',
    findings: [],
    attachments: [],
    lines: [{ target: onGate(repair.plan.name, gate), hours: 3 }],
  })
}

const closeAsFound = (scene: Scene, repair: RepairState): Outcome => {
  const attachments = repair.plan.layers.map((layer, index) => {
    const id = `left-${scene.driver.facts.length}-${index}`
    scene.photo(repair.plan.name, 'fabricated', {
      shows: 'as left',
      layer: layer.layerId.split('-').at(-1)!,
      id,
    })
    return attachmentIdSchema.parse(id)
  })
  return scene.driver.give('closeAsFound', {
    repairId: repair.id,
    variationId: null,
    attachments,
    protection: 'wax',
    answer: 'left',
    cautionShown: true,
  })
}

const goAway = (scene: Scene, repair: RepairState, gate: Gate): Outcome => {
  const awayId = awayIdSchema.parse('away-dipping')
  if (!scene.driver.car.aways.has(awayId))
    return scene.driver.give('sendAway', {
      awayId,
      firmId: partyIdSchema.parse('party-firm'),
      what: 'dipping',
      from: '2026-03-04',
      expected: '2026-03-11',
    })
  const isDone = repair.gates[gate].status !== 'open'
  return scene.driver.give('bringBack', {
    awayId,
    bayId: bayIdSchema.parse('bay-id-3-jig'),
    fixture: 'jig',
    uncovered: '',
    reason: 'dipping strips primer and sealer',
    tookBack: isDone ? [{ repairId: repair.id, gate }] : [],
  })
}
