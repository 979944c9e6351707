import { randomUUID } from 'node:crypto'
import { createTRPCClient, httpLink } from '@trpc/client'
import type { CommandKind, CommandPayload } from '../../domain/commands/command-shapes.ts'
import {
  attachmentIdSchema,
  commandIdSchema,
  entryIdSchema,
  type CarId,
  type EntryId,
  type PersonId,
} from '../../domain/ids.ts'
import type { AppRouter } from '../../electron/api/router.ts'
import { createTestPhoto } from '../support/images.ts'
import type { Random } from '../support/random.ts'

/** How long an answer took, and when it came; milliseconds. */
export interface Answered {
  readonly at: number
  readonly ms: number
}

/** One of ten people with a screen of their own, who look at something, and do something, one after the other. */
export interface EnduringPerson {
  readonly answers: Answered[]
  readonly did: { commands: number; refused: number; photos: number }
  readonly work: (until: number) => Promise<void>
}

/** Between two acts of a person on the real clock: at 60 times its speed, a minute or two of work. */
const PAUSE_MS = 1_500

export function createPerson(
  windowUrl: string,
  cookie: string,
  personId: PersonId,
  clock: () => Promise<number>,
  random: Random,
): EnduringPerson {
  const { origin } = new URL(windowUrl)
  const headers = { cookie, origin }
  const client = createTRPCClient<AppRouter>({ links: [httpLink({ url: `${origin}/trpc`, headers })] })
  const answers: Answered[] = []
  const did = { commands: 0, refused: 0, photos: 0 }
  let running: { readonly entryId: EntryId; readonly carId: CarId } | null = null

  const timed = async <T>(ask: () => Promise<T>): Promise<T> => {
    const begun = performance.now()
    const answer = await ask()
    answers.push({ at: begun, ms: performance.now() - begun })
    return answer
  }
  const send = async <K extends CommandKind>(
    kind: K,
    payload: CommandPayload<K>,
    carId: CarId,
  ): Promise<boolean> => {
    const made = new Date(await clock()).toISOString()
    const id = commandIdSchema.parse(randomUUID())
    const envelope = { id, kind, carId, seen: null, by: personId, code: null, second: null, happened: null }
    const answer = await timed(() => client.command.mutate({ ...envelope, made, payload }))
    did.commands += 1
    if (!answer.ok) did.refused += 1
    return answer.ok
  }
  const takePhoto = async (carId: CarId): Promise<void> => {
    const color = `rgb(${random.between(0, 255)},${random.between(0, 255)},90)`
    const body = new Uint8Array(await createTestPhoto({ width: 1_200, height: 900, color }))
    const answer = await timed(() => fetch(`${origin}/photos`, { method: 'PUT', headers, body }))
    if (!answer.ok) throw new Error(`A photo was refused (${answer.status}).`)
    const { sha256 } = (await answer.json()) as { readonly sha256: string }
    const attachmentId = attachmentIdSchema.parse(`endurance-${randomUUID()}`)
    await send(
      'attachPhoto',
      { attachmentId, sha256, taken: null, caption: '', serves: [{ what: 'car' }] },
      carId,
    )
    did.photos += 1
  }
  const clockOnOrOff = async (): Promise<void> => {
    if (running !== null) {
      const { entryId, carId } = running
      running = null
      await send('stopClock', { entryId, overtime: false, shares: null }, carId)
      return
    }
    const { canDo } = await timed(() => client.daySheet.query({ personId }))
    const line = canDo[random.between(0, Math.max(0, canDo.length - 1))]
    if (line === undefined || line.repairId === null || line.gate === null) return
    const entryId = entryIdSchema.parse(`endurance-${randomUUID()}`)
    const target = { kind: 'gate' as const, repairId: line.repairId, gate: line.gate }
    const on = { kind: 'work' as const, targets: [target] }
    const isOn = await send('startClock', { entryId, personId, on, hotWork: false, cause: null }, line.carId)
    if (isOn) running = { entryId, carId: line.carId }
  }
  const look = async (carId: CarId): Promise<void> => {
    const views = [
      () => client.shopFloor.query(),
      () => client.daySheet.query({ personId }),
      () => client.car.query({ carId }),
      () => client.plan.query(),
      () => client.cars.query(),
      () => client.ownerDecisions.query(),
      () => client.record.query({ carId }),
    ]
    await timed<unknown>(random.pick(views))
  }
  const act = async (): Promise<void> => {
    const { cars } = await timed(() => client.cars.query())
    const inWork = cars.filter(({ status }) => status === 'in work')
    const { carId } = random.pick(inWork)
    const chance = random.next()
    if (chance < 0.4) await look(carId)
    else if (chance < 0.75) await clockOnOrOff()
    else if (chance < 0.9) await send('addNote', { text: 'Seen while passing.' }, carId)
    else await takePhoto(carId)
  }
  return {
    answers,
    did,
    work: async (until) => {
      while (performance.now() < until) {
        await act()
        await new Promise((resolve) => setTimeout(resolve, PAUSE_MS * (0.5 + random.next())))
      }
    },
  }
}
