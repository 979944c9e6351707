import { createHash } from 'node:crypto'
import type { CarState, Moment } from '../../domain/car.ts'
import type { CommandKind, CommandPayload, TypedCommand } from '../../domain/commands/command-shapes.ts'
import { carIdSchema, commandIdSchema, type CarId, type PersonId } from '../../domain/ids.ts'
import { instantToIso } from '../../domain/time/zone.ts'
import type { WorkshopState } from '../../domain/workshop.ts'
import type { Accepted } from '../answers.ts'
import { createRun, executeOne, refusalOf } from '../execute-command.ts'
import type { CommandRequest } from '../gather.ts'
import { inTransaction } from '../handle.ts'
import { openInMemory } from '../open-database.ts'
import { recordPhoto } from '../photo-rows.ts'
import { readCar, readWorkshop } from '../reads.ts'
import type { DemoPhoto } from './photos/create-demo-photo.ts'
import { createRandom, type Random } from './photos/random.ts'

/**
 * Where the demo is rehearsed: a database in memory in which every command is carried out as it is written down, so that
 * the next one follows from what the rules made of the last.
 */
export interface Stage {
  readonly zone: string
  readonly random: Random
  readonly now: () => Moment
  /** The stage's clock never goes back. */
  readonly setClock: (at: Moment) => void
  /** Carries a command out; the clock goes on by some seconds. @throws when it is refused: a demo keeps the rules. */
  readonly send: <K extends CommandKind>(
    kind: K,
    carId: CarId | null,
    by: PersonId | null,
    payload: CommandPayload<K>,
  ) => readonly number[]
  /** Orders a photo, taken now. @returns the digest that stands for it until it is made, and its camera date */
  readonly photo: (order: PhotoOrder) => { readonly sha256: string; readonly taken: string }
  readonly car: (carId: CarId) => CarState
  readonly carIfThere: (carId: CarId) => CarState | null
  readonly workshop: () => WorkshopState
  /** A new id; the same ones in the same order each time. */
  readonly id: (what: string) => string
  readonly written: () => DemoScript
  readonly close: () => void
}

export type PhotoOrder = Pick<DemoPhoto, 'kind' | 'caption'> & Pick<Required<DemoPhoto>, 'bodyColour'>

export interface OrderedPhoto {
  /** Stands for the photo in the script's commands. */
  readonly placeholder: string
  readonly photo: DemoPhoto
  readonly received: Moment
}

/** Everything that fills the demo, in order. */
export interface DemoScript {
  readonly photos: readonly OrderedPhoto[]
  readonly requests: readonly CommandRequest[]
}

/** Between two acts of one moment: whole seconds, as cameras date no finer. */
const ACT_MS = 4_000
/** Of the local part in '2026-11-26T14:30:00+00:00'. */
const LOCAL_LENGTH = 19

export function createStage(options: {
  readonly seed: string
  readonly zone: string
  readonly start: Moment
}): Stage {
  const { seed, zone } = options
  const db = openInMemory()
  const requests: CommandRequest[] = []
  const photos: OrderedPhoto[] = []
  const counts = new Map<string, number>()
  const run = createRun()
  let now = options.start

  const id = (what: string): string => {
    const count = (counts.get(what) ?? 0) + 1
    counts.set(what, count)
    return `demo-${what}-${String(count).padStart(4, '0')}`
  }

  /** Sums over hours are left out: nobody looks at them before the commands are recorded. */
  const rehearse = (request: CommandRequest): Accepted => {
    try {
      return inTransaction(db.writer, () => executeOne(db, request, run))
    } catch (error) {
      const refusal = refusalOf(error)
      throw refusal === null ? error : new Error(refusedWords(request, refusal.message, zone))
    }
  }

  const send: Stage['send'] = (kind, carId, by, payload) => {
    const command: TypedCommand<typeof kind> = {
      id: commandIdSchema.parse(id('command')),
      kind,
      carId,
      seen: null,
      by,
      code: null,
      second: null,
      happened: null,
      made: instantToIso(now, zone),
      payload,
    }
    const request: CommandRequest = { command, device: null, second: null, now }
    const { numbers } = rehearse(request)
    requests.push(request)
    now += ACT_MS
    return numbers
  }

  const photo: Stage['photo'] = (order) => {
    const taken = instantToIso(now, zone)
    const number = id('photo')
    const placeholder = createHash('sha256').update(number).digest('hex')
    photos.push({
      placeholder,
      photo: {
        ...order,
        seed: `${seed}-${number}`,
        takenLocal: taken.slice(0, LOCAL_LENGTH),
        offset: taken.slice(LOCAL_LENGTH),
      },
      received: now,
    })
    recordPhoto(db, { sha256: placeholder, byteCount: 1, facts: PLACEHOLDER_FACTS }, now)
    return { sha256: placeholder, taken }
  }

  return {
    zone,
    random: createRandom(seed),
    now: () => now,
    setClock: (at) => {
      now = Math.max(now, at)
    },
    send,
    photo,
    car: (carId) => {
      const car = readCar(db, carId)
      if (!car) throw new Error(`The demo has no car ${carId} yet.`)
      return car
    },
    carIfThere: (carId) => readCar(db, carId),
    workshop: () => readWorkshop(db),
    id,
    written: () => ({ photos, requests }),
    close: db.close,
  }
}

const PLACEHOLDER_FACTS = { type: 'jpeg', width: 4, height: 3, orientation: 1, taken: null } as const

/** The id of a demo car by its key. */
export const demoCarId = (key: string): CarId => carIdSchema.parse(`demo-${key}`)

function refusedWords({ command, now }: CommandRequest, message: string, zone: string): string {
  const when = instantToIso(now, zone)
  return `The demo broke a rule: ${command.kind} on ${command.carId ?? 'the workshop'} at ${when}: ${message} ${JSON.stringify(command.payload)}`
}
