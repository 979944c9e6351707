import fc from 'fast-check'
import type { RepairState } from '../../domain/car.ts'
import { GATES, type Gate } from '../../domain/gates.ts'
import {
  attachmentIdSchema,
  awayIdSchema,
  bayIdSchema,
  liftIdSchema,
  partyIdSchema,
  variationIdSchema,
} from '../../domain/ids.ts'
import { activeRepairs, nextGate } from '../../domain/rules/standing.ts'
import { bringIn, IMPORT_ID } from './bring-in.ts'
import { onGate, personId, repairId } from './car-builder.ts'
import { VISIT, type Outcome } from './driver.ts'
import { repairPlan } from './plans.ts'
import { asks, groupId, type Scene } from './scene.ts'
import { sure } from './varied.ts'

const NAMES = ['A', 'B', 'C', 'D', 'E', 'F', 'G']

export type Act = readonly [kind: ActKind, a: number, b: number, c: number]
export type ActKind =
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
  | 'import'
  | 'pin'
  | 'unpin'
  | 'say left'

const ACTS: readonly { readonly weight: number; readonly arbitrary: fc.Arbitrary<ActKind> }[] = [
  { weight: 48, arbitrary: fc.constant('work on') },
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
      'import',
      'pin',
      'unpin',
      'say left',
    ] as const
  ).map((kind) => ({
    weight: kind === 'link' || kind === 'fit up' ? 8 : 3,
    arbitrary: fc.constant(kind as ActKind),
  })),
]
export const acts: fc.Arbitrary<readonly Act[]> = fc.array(
  fc.tuple(fc.oneof(...ACTS), fc.nat(1000), fc.nat(1000), fc.nat(1000)),
  { minLength: 20, maxLength: 140 },
)

const pick = <T>(list: readonly T[], index: number): T | undefined => list[index % Math.max(1, list.length)]

export const perform = (scene: Scene, [kind, a, b, c]: Act): Outcome | undefined => {
  const { driver } = scene
  // Repairs that came from a file have ids of their own; they lie over the others and are not worked on here.
  const repairs = activeRepairs(driver.car).filter(({ id }) => !id.startsWith(IMPORT_ID))
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
    case 'pin': {
      const people = b % 2 === 0 ? [personId('Wren')] : []
      const day = b % 3 === 0 ? '2026-03-06' : null
      return driver.give('pinWork', { target: onGate(repair.plan.name, gate), people, day })
    }
    case 'unpin': {
      const pinned = pick([...driver.car.pins.values()], c)
      return pinned && driver.give('unpinWork', { target: pinned.target })
    }
    case 'say left':
      return driver.give('sayLeft', { target: onGate(repair.plan.name, gate), hours: c % 5 })
    case 'import':
      return bringIn(scene.driver, [repair.plan.name, other.plan.name], side(c))
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
export const workOn = (scene: Scene, repair: RepairState): Outcome | undefined => {
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
      changed: null,
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
    lines: [sure(onGate(repair.plan.name, gate), 3)],
    costs: [],
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
