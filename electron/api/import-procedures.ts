import { z } from 'zod'
import { contactBook } from '../../db/contacts.ts'
import { executeCommands } from '../../db/execute-command.ts'
import { readAllCars, readWorkshop } from '../../db/reads.ts'
import { rehearseCommands } from '../../db/rehearse-commands.ts'
import type { PersonId } from '../../domain/ids.ts'
import type { LineProblem } from '../../domain/import/columns.ts'
import type { ImportLine, ImportPlan, LineCommand } from '../../domain/import/import-plan.ts'
import { CSV_LIMIT } from '../../domain/import/parse-csv.ts'
import { IMPORT_KINDS, planImport } from '../../domain/import/plan-import.ts'
import { refuse, type Refusal, type Result } from '../../domain/refusal.ts'
import { instantToIso } from '../../domain/time/zone.ts'
import type { ApiServices } from './api-services.ts'
import type { Asker } from './pairing.ts'
import { managersProcedure } from './trpc.ts'

/** Every line of the file in words or with its problems; ready when none has any. */
export type ImportPreview =
  | { readonly ok: true; readonly ready: boolean; readonly lines: readonly ImportLine[] }
  | { readonly ok: false; readonly refusal: Refusal }

export type ImportAnswer =
  | { readonly ok: true; readonly revision: number; readonly lines: number }
  | { readonly ok: false; readonly refusal: Refusal }

const importSchema = z.strictObject({
  kind: z.enum(IMPORT_KINDS),
  // One more, so that the reader of the file says what its limit is.
  text: z.string().max(CSV_LIMIT + 1, 'This file is too large to be read at once; split it.'),
  /** Made by the screen for each file, so that bringing it in twice is harmless. */
  importId: z.uuid('This import has no id; choose the file again.'),
})
type Import = z.infer<typeof importSchema>

interface OfManager {
  readonly asker: Asker
  readonly by: PersonId
}

/** Files of cars, repairs and hours, brought in by a signed-in manager: all of a file or nothing. */
export function createImportProcedures(services: ApiServices) {
  return {
    importPreview: managersProcedure
      .input(importSchema)
      .mutation(({ input, ctx }): ImportPreview => preview(services, input, ctx)),
    importCommit: managersProcedure
      .input(importSchema)
      .mutation(({ input, ctx }): ImportAnswer => commit(services, input, ctx)),
  }
}

function preview(services: ApiServices, input: Import, { asker, by }: OfManager): ImportPreview {
  const planned = plan(services, input, by)
  if (!planned.ok) return planned
  const { lines, commands } = planned.value
  const refusals = isReady(lines) ? rehearse(services, commands, asker) : []
  const judged = lines.map((line) => ({
    ...line,
    problems: [...line.problems, ...refusals.filter((problem) => problem.line === line.line)],
  }))
  return { ok: true, ready: isReady(judged), lines: judged }
}

function commit(services: ApiServices, input: Import, { asker, by }: OfManager): ImportAnswer {
  const planned = plan(services, input, by)
  if (!planned.ok) return planned
  const { lines, commands } = planned.value
  if (!isReady(lines)) return badLines
  const { db, now } = services.deps
  const done = executeCommands(db, commands.map(toRequest(asker, now())))
  if (!done.ok) return refusedLine(done.refusal, commands[done.index])
  services.revisions.announce(false)
  return { ok: true, revision: done.answers.at(-1)?.revision ?? 0, lines: lines.length }
}

function plan({ deps }: ApiServices, input: Import, by: PersonId): Result<ImportPlan> {
  return planImport(input.kind, input.text, context(deps, input.importId, by))
}

function context({ db, now }: ApiServices['deps'], importId: string, by: PersonId) {
  const workshop = readWorkshop(db)
  return {
    workshop,
    cars: readAllCars(db),
    nameOf: contactBook(db).nameOf,
    by,
    importId,
    made: instantToIso(now(), workshop.zone),
  }
}

/** What the workshop's rules say to each line, had all lines above it been brought in. */
function rehearse(
  { deps }: ApiServices,
  commands: readonly LineCommand[],
  asker: Asker,
): readonly LineProblem[] {
  const refusals = rehearseCommands(deps.db, commands.map(toRequest(asker, deps.now())))
  return commands.flatMap(({ line }, index) => {
    const refusal = refusals[index]
    return refusal ? [{ line, column: null, message: refusal.message, next: refusal.next }] : []
  })
}

function toRequest({ device }: Asker, now: number) {
  return ({ command }: LineCommand) => ({ command, device: device.id, second: null, now })
}

function isReady(lines: readonly ImportLine[]): boolean {
  return lines.every((line) => line.problems.length === 0)
}

function refusedLine(refusal: Refusal, at: LineCommand | undefined): ImportAnswer {
  return { ok: false, refusal: { ...refusal, message: `Line ${at?.line}: ${refusal.message}` } }
}

const badLines = refuse(
  'bad-input',
  'Some lines of this file cannot be brought in, so none was.',
  'Look at the preview, mend those lines in the file and choose it again.',
)
