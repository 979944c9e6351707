import type { CarState, RepairState } from '../../domain/car.ts'
import type { CommandKind, CommandPayload } from '../../domain/commands/command-shapes.ts'
import type { Gate } from '../../domain/gates.ts'
import type { PhotoServes } from '../../domain/facts/work-facts.ts'
import {
  attachmentIdSchema,
  fitGroupIdSchema,
  repairIdSchema,
  taskIdSchema,
  type AttachmentId,
  type CarId,
  type FitGroupId,
  type PersonId,
  type RepairId,
  type TaskId,
} from '../../domain/ids.ts'
import { gateAsks, type Ask } from '../../domain/rules/asks.ts'
import { dayWords } from '../../domain/text/words.ts'
import { inSentence } from '../../domain/views/work-words.ts'
import { localDateOf } from '../../domain/time/zone.ts'
import type { DemoCar, DemoRepair } from './demo-car.ts'
import type { DemoPhotoKind } from './photos/scenes.ts'
import { demoCarId, type Stage } from './stage.ts'

/** One person at one car of the demo. */
export interface Act {
  readonly stage: Stage
  readonly demo: DemoCar
  readonly by: PersonId
}

export const repairIdOf = (demo: DemoCar, key: string): RepairId =>
  repairIdSchema.parse(`demo-${demo.key}-${key}`)

export const taskIdOf = (demo: DemoCar, key: string): TaskId =>
  taskIdSchema.parse(`demo-${demo.key}-task-${key}`)

export const fitGroupIdOf = (demo: DemoCar, key: string): FitGroupId =>
  fitGroupIdSchema.parse(`demo-${demo.key}-fit-${key}`)

export const demoRepairOf = (demo: DemoCar, id: RepairId): DemoRepair => {
  const found = demo.repairs.find((repair) => repairIdOf(demo, repair.key) === id)
  if (!found) throw new Error(`The demo has no repair ${id}.`)
  return found
}

export const carIdOf = ({ demo }: Pick<Act, 'demo'>): CarId => demoCarId(demo.key)

export const carOf = ({ stage, demo }: Pick<Act, 'stage' | 'demo'>): CarState =>
  stage.car(demoCarId(demo.key))

export const repairOf = (act: Pick<Act, 'stage' | 'demo'>, id: RepairId): RepairState => {
  const repair = carOf(act).repairs.get(id)
  if (!repair) throw new Error(`The demo has no repair ${id}.`)
  return repair
}

/** What the gate still asks for. */
export const unmetAsks = (act: Pick<Act, 'stage' | 'demo'>, id: RepairId, gate: Gate): readonly Ask[] =>
  gateAsks(carOf(act), id, gate).filter(({ met }) => !met)

/** Sends a command on the act's car in the name of its person. */
export const send = <K extends CommandKind>(
  act: Act,
  kind: K,
  payload: CommandPayload<K>,
): readonly number[] => act.stage.send(kind, carIdOf(act), act.by, payload)

export interface Shot {
  readonly kind: DemoPhotoKind
  /** What stands under the photo in a report. */
  readonly caption: string
  /** What is chalked on the slate, above the shell number and the date. */
  readonly slate: string
  readonly serves: readonly PhotoServes[]
}

/** Takes a photo and attaches it. */
export const takePhoto = (act: Act, { kind, caption, slate, serves }: Shot): AttachmentId => {
  const { stage, demo } = act
  const date = localDateOf(stage.now(), stage.zone)
  const lines = [slate, `${demo.shellNumber}, ${dayWords(date, Number(date.slice(0, 4)))}`]
  const { sha256, taken } = stage.photo({ kind, caption: lines, bodyColour: demo.colour })
  const attachmentId = attachmentIdSchema.parse(stage.id('attachment'))
  send(act, 'attachPhoto', { attachmentId, sha256, taken, caption, serves: [...serves] })
  return attachmentId
}

/** 'Boot floor', 'Boot floor; spare-wheel well' or 'Boot floor and 2 more'. */
export const namesInCaption = (names: readonly string[]): string =>
  names.length > 2 ? `${names[0]} and ${names.length - 1} more` : names.map(lowerAfterFirst).join('; ')

const lowerAfterFirst = (name: string, index: number): string => (index === 0 ? name : inSentence(name))

/** The name of the repair, or how many there are: a slate is small. */
export const namesOnSlate = (names: readonly string[]): string =>
  names.length === 1 ? (names[0] ?? '') : `${names.length} repairs`

/** What a photo of a gate serves, on one or several repairs. */
export const gateServes = (
  repairIds: readonly RepairId[],
  gate: Gate,
  shows: 'before' | 'after' | 'work' | 'prepared',
): readonly PhotoServes[] =>
  repairIds.map((repairId) => ({ what: 'gate', repairId, gate, shows, layerId: null }))
