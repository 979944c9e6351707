import type { CarState } from '../car.ts'
import type { Command, CommandKind, CommandPayload } from '../commands/command-shapes.ts'
import { carIdSchema, commandIdSchema, type CarId, type PersonId } from '../ids.ts'
import { cleanLine } from '../text/safe-text.ts'
import type { NameOf } from '../views/shared-views.ts'
import type { WorkshopState } from '../workshop.ts'
import type { LineProblem, ReadLine } from './columns.ts'

/** What a file's words are looked up in, and who brings it in. */
export interface ImportContext {
  readonly workshop: WorkshopState
  readonly cars: readonly CarState[]
  readonly nameOf: NameOf
  readonly by: PersonId
  /** Made by the screen; every id of the import starts with it, so that the same import twice is recognised. */
  readonly importId: string
  /** ISO 8601 with offset. */
  readonly made: string
}

/** One line of the file as it would be brought in. */
export interface ImportLine {
  readonly line: number
  /** The entry in words; '' when it could not be read. */
  readonly summary: string
  readonly problems: readonly LineProblem[]
}

export interface ImportPlan {
  readonly lines: readonly ImportLine[]
  /** In the order in which they are to be done; complete only when no line has a problem. */
  readonly commands: readonly LineCommand[]
}

export interface LineCommand {
  readonly line: number
  readonly command: Command
}

/** What one kind of file makes of a line that could be read. */
export interface PlannedLine {
  readonly summary: string
  readonly problems: readonly LineProblem[]
  readonly commands: readonly Command[]
  /** Done after the commands of all lines: links to entries further down in the file. */
  readonly links: readonly Command[]
}

export function planEach<R>(
  lines: readonly ReadLine<R>[],
  plan: (line: number, row: R) => PlannedLine,
): ImportPlan {
  const planned = lines.map((each) => ({
    line: each.line,
    ...(each.ok ? plan(each.line, each.row) : { ...nothingPlanned, problems: each.problems }),
  }))
  return {
    lines: planned.map(({ line, summary, problems }) => ({ line, summary, problems })),
    commands: [
      ...planned.flatMap(({ line, commands }) => commands.map((command) => ({ line, command }))),
      ...planned.flatMap(({ line, links }) => links.map((command) => ({ line, command }))),
    ],
  }
}

const nothingPlanned = { summary: '', commands: [], links: [] }

export function lineWithProblems(problems: readonly LineProblem[]): PlannedLine {
  return { ...nothingPlanned, problems }
}

export function createCommand<K extends CommandKind>(
  context: ImportContext,
  idEnd: string,
  kind: K,
  carId: CarId | null,
  payload: CommandPayload<K>,
): Command {
  return {
    id: commandIdSchema.parse(`${context.importId}-${idEnd}`),
    kind,
    carId,
    seen: null,
    by: context.by,
    code: null,
    second: null,
    happened: null,
    made: context.made,
    payload,
  }
}

export function importedCarId(context: ImportContext, line: number): CarId {
  return carIdSchema.parse(`${context.importId}-${line}`)
}

/** Words are found again whatever their case and spacing. */
export function wordKey(text: string): string {
  return cleanLine(text).toLowerCase()
}

export type Found<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly problem: LineProblem }

export const found = <T>(value: T): Found<T> => ({ ok: true, value })

/** The one thing of that name; none or several are a problem of the line. */
export function findByName<T>(
  things: Iterable<T>,
  nameOfThing: (thing: T) => string,
  wanted: string,
  where: { readonly line: number; readonly column: string; readonly next: string },
): Found<T> {
  const key = wordKey(wanted)
  const matches = [...things].filter((thing) => wordKey(nameOfThing(thing)) === key)
  const [first] = matches
  if (matches.length === 1 && first !== undefined) return found(first)
  const message =
    matches.length === 0
      ? `There is no ${where.column} '${wanted.slice(0, 80)}' here.`
      : `There are ${matches.length} entries called '${wanted.slice(0, 80)}', so it is not certain which is meant.`
  return { ok: false, problem: { line: where.line, column: where.column, message, next: where.next } }
}
