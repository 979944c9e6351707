import { chainHead } from '../../db/journal.ts'
import type { CommandPayload } from '../../domain/commands/command-shapes.ts'
import { carIdSchema } from '../../domain/ids.ts'
import { permissions } from '../../domain/roles.ts'
import { codes } from '../support/workshop.ts'
import type { Strange } from './fuzz-strange.ts'
import { toJsonText, type Json } from './fuzz-values.ts'
import type { World } from './fuzz-world.ts'

const FEW = 0.15
const NEARLY_RIGHT = 0.7

/** A command of the story, of now or of any time, that is not quite what it was. */
export function strangeCommand(world: World, index: number): Strange {
  const { random, story, mutator, host } = world
  const isOfNow = random.next() < 0.4
  const kinds = [...new Set(story.map(({ command }) => command.kind))]
  const wanted = random.pick(kinds)
  const request = isOfNow
    ? story[Math.min(world.told(), story.length - 1)]!
    : random.pick(story.filter(({ command }) => command.kind === wanted))
  const { by, kind, payload } = request.command
  const code = permissions[kind].proof === 'code' && by !== null ? (codes[by] ?? null) : null
  const id = random.next() < FEW ? request.command.id : `fuzz-${index}`
  const made = new Date(host.workshop.now).toISOString()
  const plain = { ...request.command, id, code, made } as unknown as { readonly [key: string]: Json }
  const change = random.next() < NEARLY_RIGHT ? mutator.exchange : mutator.mutate
  const strange =
    random.next() < FEW ? change(plain) : { ...plain, payload: change(payload as unknown as Json) }
  const body = toJsonText(strange)
  const say = `${kind} ${body}`
  // The host alone gives it, after it has printed the report: its rules are asked without the handler.
  if (kind === 'issueReport')
    return { say, ask: () => Promise.resolve(issueReport(world, strange, payload as ReportFiles)) }
  const screen = random.next() < FEW ? world.technician : world.manager
  return { say, ask: () => screen.request('/trpc/command', post(body)) }
}

type ReportFiles = CommandPayload<'issueReport'>

/** The head of the chain and the digests of files that it has kept are the host's own: no screen says them. */
function issueReport({ host: { workshop } }: World, strange: Json, { sha256, page }: ReportFiles): Response {
  const { payload } = (strange ?? {}) as { readonly payload?: object | null }
  const carId = carIdSchema.parse('car-s-101')
  const whole =
    typeof payload === 'object' ? { ...payload, sha256, page, head: chainHead(workshop.db, carId) } : payload
  const data = workshop.send('issueReport', whole as never, { carId, id: crypto.randomUUID() })
  return Response.json({ result: { data } })
}

export const post = (body: string): RequestInit => ({
  method: 'POST',
  headers: { 'content-type': 'application/json' },
  body,
})
