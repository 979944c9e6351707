import { createHash } from 'node:crypto'
import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { checkDatabase } from '../../db/check.ts'
import { photosFolder } from '../../db/data-paths.ts'
import type { ReadDatabase } from '../../db/database.ts'
import { openDatabase } from '../../db/open-database.ts'
import { photoRow } from '../../db/photo-rows.ts'
import { incomingFolder, originalsFolder } from '../../db/photos/photo-files.ts'
import { openPhotoReader } from '../../db/photos/photo-store.ts'
import type { FactKind } from '../../domain/facts.ts'

/** One request that changes something. It is sent again, the same to the last byte, until it is answered. */
export type Writing = FactsWriting | PhotoWriting

export interface FactsWriting {
  readonly what: 'facts'
  readonly procedure: 'command' | 'importCommit'
  readonly body: unknown
  /** The kinds of facts that each of its commands leaves, by the command's id: all of them or none. */
  readonly leaves: ReadonlyMap<string, readonly FactKind[]>
  /** Told the journal numbers when it was answered with success; none for an import. */
  readonly accepted: (numbers: readonly number[]) => void
}

export interface PhotoWriting {
  readonly what: 'photo'
  readonly bytes: Uint8Array
  readonly sha256: string
  readonly accepted: () => void
}

/** What was sent to the hosts that were killed. */
export interface Book {
  readonly sent: Set<Writing>
  /** Those that were answered with success: journal numbers of a command, null where none were told. */
  readonly answers: Map<Writing, readonly number[] | null>
  /** Those that were found recorded although the kill came before their answer. */
  readonly recovered: Set<Writing>
}

/**
 * Looks for everything in the book beside the host that has just opened the folder again and has not been written to:
 * whatever was answered must be there, whatever was not must be there wholly or not at all, and nothing else may be.
 *
 * @returns what is not as it must be
 */
export async function verifyFolder(dataDir: string, book: Book): Promise<readonly string[]> {
  const db = openDatabase(dataDir, { readonly: true })
  try {
    const findings = await checkDatabase(db, openPhotoReader(photosFolder(dataDir)))
    return [
      ...findings.filter(({ severity }) => severity === 'fault').map(({ what }) => what),
      ...factProblems(recordedCommands(db), book),
      ...photoProblems(db, photosFolder(dataDir), book),
    ]
  } finally {
    db.close()
  }
}

interface Recorded {
  readonly numbers: readonly number[]
  readonly kinds: readonly string[]
}

function recordedCommands({ reader }: ReadDatabase): ReadonlyMap<string, Recorded> {
  const rows = reader.sqlite
    .prepare('SELECT command_id AS id, number, kind FROM journal ORDER BY number')
    .all()
  const lines = rows as readonly { readonly id: string; readonly number: number; readonly kind: string }[]
  return new Map(
    [...Map.groupBy(lines, ({ id }) => id)].map(([id, group]) => [
      id,
      { numbers: group.map(({ number }) => number), kinds: group.map(({ kind }) => kind) },
    ]),
  )
}

function factProblems(recorded: ReadonlyMap<string, Recorded>, book: Book): readonly string[] {
  const writings = [...book.sent].filter((writing) => writing.what === 'facts')
  const known = new Set(writings.flatMap(({ leaves }) => [...leaves.keys()]))
  const strays = [...recorded.keys()].filter((id) => !known.has(id))
  return [
    ...writings.flatMap((writing) => factProblem(writing, recorded, book) ?? []),
    ...strays.map((id) => `${id} was recorded, but nobody sent it`),
  ]
}

function factProblem(
  writing: FactsWriting,
  recorded: ReadonlyMap<string, Recorded>,
  { answers, recovered }: Book,
): string | null {
  const ids = [...writing.leaves.keys()]
  const lines = ids.flatMap((id) => recorded.get(id) ?? [])
  if (lines.length === 0)
    return answers.has(writing) || recovered.has(writing) ? `${ids.join()} is lost` : null
  for (const [id, kinds] of writing.leaves) {
    const left = recorded.get(id)?.kinds.join() ?? ''
    if (left !== kinds.join()) return `${id} left '${left}' instead of '${kinds.join()}'`
  }
  if (!answers.has(writing)) recovered.add(writing)
  const told = answers.get(writing)?.join()
  const numbers = lines.flatMap((line) => line.numbers).join()
  return told === undefined || told === numbers
    ? null
    : `${ids.join()} was acknowledged as ${told}, but is ${numbers}`
}

function photoProblems(
  db: ReadDatabase,
  folder: string,
  { sent, answers, recovered }: Book,
): readonly string[] {
  const listed = digestsByName(originalsFolder(folder))
  const changed = [...listed].filter(([name, digest]) => name !== digest)
  const problems = [
    ...changed.map(([name]) => `the photo ${name} holds other bytes than were sent`),
    ...readdirSync(incomingFolder(folder)).map((name) => `${name} was left behind by an upload`),
  ]
  for (const writing of sent) {
    if (writing.what === 'facts') continue
    const isThere = listed.has(writing.sha256) && photoRow(db, writing.sha256) !== null
    if (!isThere && answers.has(writing)) problems.push(`the photo ${writing.sha256} is lost`)
    if (isThere && !answers.has(writing)) recovered.add(writing)
  }
  return problems
}

/** The digest of what each file holds by its name, which must be the same. */
function digestsByName(folder: string): ReadonlyMap<string, string> {
  const files = readdirSync(folder, { recursive: true, withFileTypes: true }).filter((entry) =>
    entry.isFile(),
  )
  return new Map(
    files.map(({ name, parentPath }) => [name, sha256Of(readFileSync(join(parentPath, name)))] as const),
  )
}

/** By Node's own hash, apart from the program's. */
export function sha256Of(bytes: Uint8Array): string {
  return createHash('sha256').update(bytes).digest('hex')
}
