import { z } from 'zod'
import { verifyCode } from '../../db/codes.ts'
import { executeCommand } from '../../db/execute-command.ts'
import { readWorkshop } from '../../db/reads.ts'
import {
  codeSchema,
  commandSchema,
  commandShapes,
  type Command,
} from '../../domain/commands/command-shapes.ts'
import { personIdSchema, type PersonId } from '../../domain/ids.ts'
import { ok, refuse, type Refusal, type Result } from '../../domain/refusal.ts'
import type { ApiServices } from './api-services.ts'
import { checkProof } from './check-proof.ts'
import type { Asker } from './pairing.ts'
import { procedure } from './trpc.ts'

export type ActAnswer =
  | {
      readonly ok: true
      /** Number of the journal's last line after it. */
      readonly revision: number
      /** Journal numbers of the command's own facts. */
      readonly numbers: readonly number[]
    }
  | { readonly ok: false; readonly refusal: Refusal }

export type SignInAnswer =
  | { readonly ok: true; readonly personId: PersonId }
  | { readonly ok: false; readonly refusal: Refusal }

const signInSchema = z.strictObject({ personId: personIdSchema, code: codeSchema })

/** Everything that a person does: commands, and coming and going as the one who gave their code on a device. */
export function createActProcedures(services: ApiServices) {
  const { deps, sessions } = services
  return {
    command: procedure
      // Parsed below, so that a command that cannot be read is refused as a value like any other.
      .input((value: unknown) => value as Command)
      .mutation(({ input, ctx }): Promise<ActAnswer> => act(services, input, ctx.asker)),

    signIn: procedure.input(signInSchema).mutation(async ({ input, ctx }): Promise<SignInAnswer> => {
      const { personId, code } = input
      const { id: device } = ctx.asker.device
      if (readWorkshop(deps.db).people.get(personId)?.active !== true) return unknownPerson
      const verified = await verifyCode(deps.db, { personId, device, code, now: deps.now() })
      if (!verified.ok) return verified
      sessions.start(device, personId)
      return { ok: true, personId }
    }),

    signOut: procedure.mutation(({ ctx }): { readonly ok: true } => {
      sessions.end(ctx.asker.device.id)
      return { ok: true }
    }),
  }
}

async function act(services: ApiServices, input: unknown, asker: Asker): Promise<ActAnswer> {
  const parsed = commandSchema.safeParse(input)
  if (!parsed.success) return badCommand(parsed.error.issues[0])
  const command = parsed.data
  if (command.kind === 'issueReport') return onlyTheHost
  const { deps, sessions, revisions } = services
  const { id: device } = asker.device
  const proved = await checkProof(command, asker, { db: deps.db, now: deps.now, sessions })
  if (!proved.ok) return proved
  if (sessions.person(device) === command.by) sessions.use(device)
  const kept = keepPlanToTake(deps, command)
  if (!kept.ok) return kept
  const answer = executeCommand(deps.db, { command, device, second: proved.value.second, now: deps.now() })
  if (!answer.ok) return answer
  revisions.announce(answer.numbers.length === 0)
  // A disk may answer late or not at all: nobody waits for it.
  if (command.kind === 'eraseContact') void deps.copies.erased()
  if (command.kind === 'setUpWorkshop') signInFirstManager(services, asker)
  return { ok: true, revision: answer.revision, numbers: answer.numbers }
}

/** What people were given is kept before they are given it. */
function keepPlanToTake({ planner }: ApiServices['deps'], command: Command): Result<true> {
  if (command.kind !== 'takePlan') return ok(true)
  const { planId } = commandShapes.takePlan.safeParse(command.payload).data ?? {}
  // What cannot be read is refused by the command itself.
  return planId === undefined ? ok(true) : planner.keep(planId)
}

/** Who has just chosen a code need not give it again. */
function signInFirstManager({ sessions, deps }: ApiServices, { device }: Asker): void {
  const [first] = readWorkshop(deps.db).people.keys()
  if (first !== undefined) sessions.start(device.id, first)
}

function badCommand(issue: z.core.$ZodIssue | undefined): ActAnswer {
  const where = issue && issue.path.length > 0 ? ` (${issue.path.join(' ')})` : ''
  const message = `${issue?.message ?? 'This cannot be read.'}${where}`
  return refuse('bad-input', message, 'Reload the screen and try again.')
}

const unknownPerson = refuse('unknown', 'This person is not known here.', 'Choose a person from the list.')
const onlyTheHost = refuse(
  'not-allowed',
  'A report is issued by the host, which prints and keeps it first.',
  'Use Issue on the owner reports.',
)
