import { ASKS_NOTHING } from '../../domain/catalogue/type-plan.ts'
import type { CommandPayload } from '../../domain/commands/command-shapes.ts'
import type { GateAsks, WorkTarget } from '../../domain/facts/shapes.ts'
import { gateOrder, type Gate } from '../../domain/gates.ts'
import {
  attachmentIdSchema,
  fitGroupIdSchema,
  readingIdSchema,
  taskIdSchema,
  type PersonId,
} from '../../domain/ids.ts'
import { gateHolds, standing, type JudgedHold } from '../../domain/rules/holds.ts'
import { personId, repairId } from './car-builder.ts'
import { createDriver, PHOTO, type Driver, type Outcome } from './driver.ts'
import { layerId, repairPlan, slug, taskPlan, type RepairPlanOver } from './plans.ts'

/** Sentences about one car, for tests of the rules; every step goes through the real decisions. */
export interface Scene {
  readonly driver: Driver
  readonly repair: (
    name: string,
    over?: RepairPlanOver,
    links?: Partial<Pick<CommandPayload<'addRepair'>, 'covers' | 'coveredBy'>>,
  ) => void
  readonly cover: (over: string, under: string) => Outcome
  readonly group: (
    name: string,
    members: readonly string[],
    edges?: CommandPayload<'setFitGroup'>['edges'],
  ) => Outcome
  readonly fitUp: (group: string, over?: Partial<CommandPayload<'recordFitUp'>>) => Outcome
  /** Grades every layer as it must be before assessed: sound and kept unless said otherwise, with a photo. */
  readonly grade: (name: string, over?: Partial<CommandPayload<'gradeLayer'>>) => void
  readonly photo: (
    name: string,
    gate: Gate,
    more?: { shows?: Shows; layer?: string; id?: string; taken?: string | null },
  ) => Outcome
  readonly pass: (
    name: string,
    gate: Gate,
    over?: Partial<CommandPayload<'passGate'>> & { readonly by?: PersonId; readonly second?: PersonId },
  ) => Outcome
  /** Passes every gate up to this one, grading on the way; throws when one is refused. */
  readonly passTo: (name: string, gate: Gate) => void
  readonly reopen: (name: string, gate: Gate) => Outcome
  readonly holds: (name: string, gate: Gate, did?: readonly string[]) => readonly JudgedHold[]
  readonly codes: (name: string, gate: Gate, did?: readonly string[]) => readonly string[]
}

type Shows = Extract<CommandPayload<'attachPhoto'>['serves'][number], { what: 'gate' }>['shows']

/** Repairs of the scene are paid by the workshop, so that their hours are authorised as they are added. */
export const createScene = (): Scene => {
  const driver = createDriver()
  const counter = { next: 1 }
  const fresh = () => counter.next++
  const attach = (
    name: string,
    gate: Gate,
    { shows = 'work' as Shows, layer = '', id = '', taken = null as string | null } = {},
  ) =>
    driver.give('attachPhoto', {
      attachmentId: attachmentIdSchema.parse(id || `photo-${fresh()}`),
      sha256: PHOTO,
      taken,
      caption: '',
      serves: [
        { what: 'gate', repairId: repairId(name), gate, shows, layerId: layer ? layerId(name, layer) : null },
      ],
    })

  const scene: Scene = {
    driver,
    repair: (name, over = {}, links = {}) => {
      driver.must('addRepair', {
        repairId: repairId(name),
        type: null,
        plan: repairPlan(name, over),
        payer: 'workshop',
        covers: links.covers ?? [],
        coveredBy: links.coveredBy ?? [],
      })
    },
    cover: (over, under) => driver.give('linkCover', { over: repairId(over), under: repairId(under) }),
    group: (name, members, edges = []) =>
      driver.give('setFitGroup', {
        groupId: groupId(name),
        name,
        members: members.map(repairId),
        hungParts: [],
        edges,
      }),
    fitUp: (name, over = {}) =>
      driver.give('recordFitUp', {
        readingId: readingIdSchema.parse(`fit-up-${fresh()}`),
        groupId: groupId(name),
        kind: 'full',
        readings: [],
        good: true,
        note: '',
        ...over,
      }),
    grade: (name, over = {}) => {
      const repair = driver.car.repairs.get(repairId(name))!
      for (const layer of repair.plan.layers) {
        driver.must('gradeLayer', {
          repairId: repair.id,
          layerId: layer.layerId,
          grade: 'sound',
          judgedBy: '',
          remainingMm: null,
          decision: 'keep',
          ...over,
        })
        attach(name, 'assessed', { shows: 'layer', layer: layer.layerId.replace(`layer-${slug(name)}-`, '') })
      }
    },
    photo: (name, gate, more = {}) => attach(name, gate, more),
    pass: (name, gate, { by, second, ...over } = {}) =>
      driver.give(
        'passGate',
        {
          repairIds: [repairId(name)],
          gate,
          did: [personId('Wren')],
          coat: gate === 'painted' ? 'protective' : null,
          note: '',
          ...over,
        },
        { ...(by ? { by } : {}), ...(second ? { second } : {}) },
      ),
    passTo: (name, last) => {
      const repair = driver.car.repairs.get(repairId(name))!
      const order = gateOrder(repair.plan)
      for (const gate of order.slice(0, order.indexOf(last) + 1)) {
        if (driver.car.repairs.get(repair.id)!.gates[gate].status !== 'open') continue
        if (gate === 'assessed') scene.grade(name)
        const outcome = scene.pass(name, gate)
        if (!outcome.ok) throw new Error(`${name} ${gate}: ${outcome.refusal.message}`)
      }
    },
    reopen: (name, gate) =>
      driver.give('reopenGate', {
        repairId: repairId(name),
        gate,
        cause: 'workmanship',
        reason: 'a pinhole',
      }),
    holds: (name, gate, did) =>
      standing(
        gateHolds(driver.car, repairId(name), gate, {
          at: driver.now,
          workshop: driver.workshop,
          did: did ? did.map(personId) : null,
        }),
      ),
    codes: (name, gate, did) => scene.holds(name, gate, did).map((hold) => hold.code),
  }
  return scene
}

export const groupId = (name: string) => fitGroupIdSchema.parse(`group-${slug(name)}`)
export const asks = (over: Partial<GateAsks>): GateAsks => ({ ...ASKS_NOTHING, ...over })

export const addTask = (
  scene: Scene,
  name: string,
  holds: readonly WorkTarget[],
  waitsFor: readonly WorkTarget[] = [],
) =>
  scene.driver.give('addTask', {
    taskId: taskIdSchema.parse(`task-${slug(name)}`),
    plan: taskPlan(name, { holds: [...holds], waitsFor: [...waitsFor], payer: 'workshop' }),
  })
