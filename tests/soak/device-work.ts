import type { Command, CommandKind, CommandPayload } from '../../domain/commands/command-shapes.ts'
import {
  attachmentIdSchema,
  commandIdSchema,
  entryIdSchema,
  readingIdSchema,
  type AttachmentId,
  type CarId,
  type CommandId,
  type EntryId,
} from '../../domain/ids.ts'
import type { Refusal } from '../../domain/refusal.ts'
import type { Outcome } from '../../renderer/outbox/outcome.ts'
import { createTestPhoto } from '../support/images.ts'
import type { Random } from '../support/random.ts'
import type { Floor, FloorRepair, Worker } from './device-floor.ts'
import type { DevicePage } from './device-page.ts'
import { sha256Of } from './kill-book.ts'

/** What a person was told of what they entered. */
export type Told =
  /** Nothing yet; of a signature, that it may not have been taken in. */
  | { readonly is: 'nothing' }
  /** It is on the device. */
  | { readonly is: 'kept' }
  | { readonly is: 'done'; readonly numbers: readonly number[] }
  | { readonly is: 'refused'; readonly refusal: Refusal }

export interface TakenPhoto {
  readonly attachmentId: AttachmentId
  readonly commandId: CommandId
  /** Whether the device has said that it has it. */
  isKept: boolean
}

/** All that was entered on one device. */
export interface Ledger {
  readonly commands: Map<CommandId, { readonly kind: CommandKind; told: Told }>
  /** By their digest. */
  readonly photos: Map<string, TakenPhoto>
}

export interface Work {
  readonly ledger: Ledger
  /** Enters something, or takes a photo; resolves when the device has taken it. */
  readonly act: () => Promise<void>
  /** Whether a clock is on its way into the outbox: a page that dies then leaves the person not knowing whether it runs. */
  readonly isClocking: () => boolean
  /** Stops a clock that runs, and signs once more what nobody knows to be signed. */
  readonly finish: () => Promise<void>
}

/** No answer came to a signature: it may have been taken in. */
const isUnsure = (outcome: Outcome): boolean => outcome.is === 'refused' && outcome.refusal.code === 'not-now'

/** @param page the app as it is open now */
export function createWork(worker: Worker, floor: Floor, page: () => DevicePage, random: Random): Work {
  const ledger: Ledger = { commands: new Map(), photos: new Map() }
  const { personId, code, own } = worker
  const unsigned: Command[] = []
  const toOpen = [...own]
  let running: { readonly entryId: EntryId; readonly carId: CarId } | null = null
  let clocking = 0
  let count = 0
  const nextName = () => `${personId}-${(count += 1)}`
  const envelope = <K extends CommandKind>(
    kind: K,
    carId: CarId,
    payload: CommandPayload<K>,
    signedWith: string | null = null,
  ): Command => ({
    id: commandIdSchema.parse(`command-${nextName()}`),
    kind,
    carId,
    seen: null,
    by: personId,
    code: signedWith,
    second: null,
    happened: null,
    made: new Date().toISOString(),
    payload,
  })

  const send = async (command: Command): Promise<Outcome> => {
    const entry = ledger.commands.get(command.id) ?? { kind: command.kind, told: { is: 'nothing' } as Told }
    ledger.commands.set(command.id, entry)
    const outcome = await page().outbox.send(command)
    if (outcome.is === 'done' || outcome.is === 'kept') entry.told = outcome
    if (outcome.is === 'refused' && !isUnsure(outcome)) entry.told = outcome
    return outcome
  }

  const takePhoto = async ({ carId, repairId }: FloorRepair) => {
    const bytes = await createTestPhoto({ width: 320, height: 240, color: '#7a5c40' })
    const attachmentId = attachmentIdSchema.parse(`attachment-${nextName()}`)
    const commandId = commandIdSchema.parse(`command-${nextName()}`)
    const taken: TakenPhoto = { attachmentId, commandId, isKept: false }
    ledger.photos.set(sha256Of(bytes), taken)
    const serves = [{ what: 'gate', repairId, gate: 'opened', shows: 'work', layerId: null }] as const
    const made = new Date().toISOString()
    const blob = new Blob([new Uint8Array(bytes)], { type: 'image/jpeg' })
    const photo = { attachmentId, commandId, carId, by: personId, made, name: 'photo.jpg', caption: '' }
    const refusal = await page().outbox.addPhotos([{ ...photo, serves, bytes: blob }])
    if (refusal !== null) throw new Error(`A photo was not kept: ${refusal.message}`)
    taken.isKept = true
  }

  /** Stops the person's clock where it runs, or starts it. */
  const clock = async (on: FloorRepair) => {
    clocking += 1
    await startOrStop(on)
    clocking -= 1
  }
  const startOrStop = async ({ carId, repairId }: FloorRepair) => {
    if (running === null) {
      const entryId = entryIdSchema.parse(`entry-${nextName()}`)
      const targets = [{ kind: 'gate' as const, repairId, gate: 'fabricated' as const }]
      const on = { kind: 'work' as const, targets }
      running = { entryId, carId }
      await send(envelope('startClock', carId, { entryId, personId, on, hotWork: false, cause: null }))
    } else {
      const { entryId, carId: startedOn } = running
      running = null
      await send(envelope('stopClock', startedOn, { entryId, overtime: true, shares: null }))
    }
  }

  const readAir = async ({ carId, repairId }: FloorRepair) => {
    const readingId = readingIdSchema.parse(`reading-${nextName()}`)
    const air = { airC: 16, humidityPercent: 71, steelC: 15 }
    await send(
      envelope('readConditions', carId, { readingId, repairIds: [repairId], gate: 'primed', ...air }),
    )
  }

  const signGate = async () => {
    const command = unsigned.shift() ?? nextGate()
    if (command === null) return
    const outcome = await send(command)
    if (isUnsure(outcome)) unsigned.push(command)
  }
  const nextGate = (): Command | null => {
    const repair = random.next() < 0.3 ? random.pick(floor.shared) : toOpen.shift()
    if (repair === undefined) return null
    const payload = {
      repairIds: [repair.repairId],
      gate: 'opened' as const,
      did: [personId],
      coat: null,
      note: '',
    }
    return envelope('passGate', repair.carId, payload, code)
  }

  const acts = [takePhoto, takePhoto, takePhoto, clock, clock, readAir, signGate, signGate]
  return {
    ledger,
    isClocking: () => clocking > 0,
    act: () => random.pick(acts)(random.pick([...own, ...floor.shared])),
    finish: async () => {
      if (running !== null) await clock(random.pick(own))
      while (unsigned.length > 0) await signGate()
    },
  }
}
