import { ASKS_NOTHING } from '../../domain/catalogue/type-plan.ts'
import type { CarState } from '../../domain/car.ts'
import type { CommandKind, CommandPayload } from '../../domain/commands/command-shapes.ts'
import type { GateAsks } from '../../domain/facts/shapes.ts'
import { gateOrder, type Gate } from '../../domain/gates.ts'
import {
  attachmentIdSchema,
  readingIdSchema,
  type AttachmentId,
  type CarId,
  type PersonId,
  type RepairId,
} from '../../domain/ids.ts'
import type { Refusal } from '../../domain/refusal.ts'
import { permissions } from '../../domain/roles.ts'
import { gateAsks, type Ask } from '../../domain/rules/asks.ts'
import { gateHolds, standing } from '../../domain/rules/holds.ts'
import { readWorkshop } from '../../db/reads.ts'
import { repairId } from './car-builder.ts'
import type { ScreenSendOptions, TestHost, TestScreen } from './host.ts'
import { createTestPhoto } from './images.ts'
import { manager, welder } from './workshop.ts'

/** Someone at a tablet who brings whatever a gate asks for, through the real handler. */
export interface Floor {
  readonly car: () => CarState
  readonly run: <K extends CommandKind>(
    kind: K,
    payload: CommandPayload<K>,
    options?: ScreenSendOptions,
  ) => Promise<readonly number[]>
  readonly refused: <K extends CommandKind>(
    kind: K,
    payload: CommandPayload<K>,
    options?: ScreenSendOptions,
  ) => Promise<Refusal>
  /** Attaches a photo that serves the gate on each of the repairs. */
  readonly photo: (
    repairs: readonly string[],
    gate: Gate,
    shows: Shows,
    more?: { layer?: string; caption?: string },
  ) => Promise<AttachmentId>
  /** Brings what the next gates of these repairs ask for: grades, photos, readings, counts. */
  readonly bring: (repairs: readonly string[], gate: Gate) => Promise<void>
  readonly pass: (repairs: readonly string[], gate: Gate, did?: readonly PersonId[]) => Promise<void>
  /** Brings and passes every gate up to this one. */
  readonly passTo: (repair: string, gate: Gate) => Promise<void>
  readonly holds: (repair: string, gate: Gate) => readonly string[]
}

type Shows = Extract<CommandPayload<'attachPhoto'>['serves'][number], { what: 'gate' }>['shows']

export async function createFloor(host: TestHost, screen: TestScreen, carId: CarId): Promise<Floor> {
  const { workshop } = host
  const uploaded = await screen.upload(await createTestPhoto({ width: 320, height: 240, color: '#8a6a50' }))
  const { sha256 } = (await uploaded.json()) as { readonly sha256: string }
  const counter = { next: 1 }
  const fresh = (what: string) => `${what}-${counter.next++}`
  const car = () => workshop.car(carId)
  const options = (more: ScreenSendOptions = {}): ScreenSendOptions => ({ carId, ...more })

  // A session ends after half an hour without use, and the test's clock goes by days.
  const signIn = async (kind: CommandKind) => {
    if (permissions[kind].proof === 'session') await screen.signIn(manager)
  }

  const floor: Floor = {
    car,
    run: async (kind, payload, more) => {
      await signIn(kind)
      return (await screen.run(kind, payload, options(more))).numbers
    },
    refused: async (kind, payload, more) => {
      await signIn(kind)
      const answer = await screen.send(kind, payload, options(more))
      if (answer.ok) throw new Error(`${kind} was accepted`)
      return answer.refusal
    },
    photo: async (repairs, gate, shows, { layer, caption = '' } = {}) => {
      const attachmentId = attachmentIdSchema.parse(fresh('photo'))
      const serves = repairs.map((name) => ({
        what: 'gate' as const,
        repairId: repairId(name),
        gate,
        shows,
        layerId: layer === undefined ? null : layerOf(car(), repairId(name), layer),
      }))
      await floor.run('attachPhoto', { attachmentId, sha256, taken: null, caption, serves }, { by: welder })
      return attachmentId
    },
    bring: async (repairs, gate) => {
      for (const name of repairs)
        for (const ask of gateAsks(car(), repairId(name), gate).filter((each) => !each.met))
          await bringOne(name, gate, ask)
    },
    pass: async (repairs, gate, did = [welder]) => {
      const payload = {
        repairIds: repairs.map(repairId),
        gate,
        did: [...did],
        coat: gate === 'painted' ? ('protective' as const) : null,
        note: '',
      }
      await floor.run('passGate', payload, { by: welder })
      workshop.pass({ minutes: 20 })
    },
    passTo: async (name, last) => {
      const order = gateOrder(car().repairs.get(repairId(name))!.plan)
      for (const gate of order.slice(0, order.indexOf(last) + 1)) {
        if (car().repairs.get(repairId(name))!.gates[gate].status !== 'open') continue
        await floor.bring([name], gate)
        await floor.pass([name], gate)
      }
    },
    holds: (name, gate) =>
      standing(
        gateHolds(car(), repairId(name), gate, {
          at: workshop.now,
          workshop: readWorkshop(workshop.db),
          did: null,
        }),
      ).map((hold) => `${hold.code}: ${hold.words}`),
  }

  const bringOne = async (name: string, gate: Gate, ask: Ask): Promise<void> => {
    workshop.pass({ minutes: 1 })
    const id = repairId(name)
    const readingId = readingIdSchema.parse(fresh('reading'))
    switch (ask.kind) {
      case 'photo before':
        return void (await floor.photo([name], gate, 'before'))
      case 'photo':
        return void (await floor.photo([name], gate, gate === 'opened' ? 'after' : 'work'))
      case 'layer photo':
        return void (await floor.photo([name], gate, 'layer', { layer: layerName(car(), id, ask.layerId) }))
      case 'layer grade':
        return void (await floor.run('gradeLayer', {
          repairId: id,
          layerId: ask.layerId as never,
          grade: 'pitted',
          judgedBy: '',
          remainingMm: 0.9,
          decision: 'patch',
        }))
      case 'layer repaired':
        return void (await floor.run('markLayers', {
          repairId: id,
          layerIds: [ask.layerId as never],
          mark: 'repaired',
        }))
      case 'review':
        return void (await floor.run('reviewEstimate', { repairId: id, note: '' }))
      case 'drains':
        return void (await floor.run('checkDrains', { readingId, repairIds: [id], note: '' }))
      case 'conditions':
        return void (await floor.run('readConditions', {
          readingId,
          repairIds: [id],
          gate,
          airC: 20,
          humidityPercent: 50,
          steelC: 18,
        }))
      case 'welds': {
        const welds = car()
          .repairs.get(id)!
          .plan.welds.map((joint) => ({ jointId: joint.jointId, done: joint.planned }))
        return void (await floor.run('countWelds', { readingId, repairId: id, welds }))
      }
      default:
        throw new Error(`${ask.kind} is brought by the test itself: ${ask.words}`)
    }
  }
  return floor
}

const layerOf = (car: CarState, id: RepairId, name: string) =>
  car.repairs.get(id)!.plan.layers.find((layer) => layer.name === name)!.layerId

const layerName = (car: CarState, id: RepairId, layerId: string | null): string =>
  car.repairs.get(id)!.plan.layers.find((layer) => layer.layerId === layerId)!.name

/** What each gate asks for by default, but for what needs a drawn-up car: safety, fit-ups and dimensions. */
export const usualAsks: Readonly<Partial<Record<Gate, { readonly asks: GateAsks }>>> = {
  opened: { asks: { ...ASKS_NOTHING, photosBefore: 1, photos: 1 } },
  assessed: { asks: { ...ASKS_NOTHING, layerPhotos: 'graded' } },
  fabricated: { asks: { ...ASKS_NOTHING, layerPhotos: 'repaired', review: true } },
  sealed: { asks: { ...ASKS_NOTHING, photos: 1, drains: true } },
  primed: {
    asks: {
      ...ASKS_NOTHING,
      photos: 1,
      conditions: { minMarginC: 3, maxHumidityPercent: 85, minAirC: null, maxAirC: null },
    },
  },
  'trial-fitted': { asks: { ...ASKS_NOTHING, photos: 1 } },
  welded: { asks: { ...ASKS_NOTHING, photos: 1, welds: true } },
  painted: { asks: { ...ASKS_NOTHING, photos: 1 } },
}
