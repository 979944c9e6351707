import { createHmac } from 'node:crypto'
import { eq, sql } from 'drizzle-orm'
import type { Command } from '../domain/commands/command-shapes.ts'
import type { CarId } from '../domain/ids.ts'
import { perHandle, type Handle } from './handle.ts'
import { placeholders } from './placeholders.ts'
import { commandAnswer } from './schema.ts'

/** What was recorded for an accepted command; the same again when the command is repeated. */
export interface Accepted {
  readonly ok: true
  /** Number of the journal's last line after it. */
  readonly revision: number
  /** Journal numbers of the command's own facts; empty when it only changed contacts or codes. */
  readonly numbers: readonly number[]
  readonly carId: CarId | null
}

export type EarlierAnswer =
  | { readonly kind: 'none' }
  | { readonly kind: 'same'; readonly answer: Accepted }
  /** The id is known, but what it stood for or who sent it is not the same. */
  | { readonly kind: 'other' }

/** What a command is recognised by when it is repeated. */
export interface Repeatable extends Pick<Command, 'id' | 'payload' | 'carId' | 'by'> {
  readonly kind: string
}

/** What a command was answered when it came before, found by its id. @param key that its digest is made with */
export function findAnswer(writer: Handle, command: Repeatable, key: Uint8Array): EarlierAnswer {
  const row = queries(writer).find.get({ commandId: command.id })
  if (!row) return { kind: 'none' }
  if (row.digest !== commandDigest(command, key)) return { kind: 'other' }
  const { revision, numbers, carId } = row
  return { kind: 'same', answer: { ok: true, revision, numbers, carId } }
}

/** To be called in the transaction that records what the command left. @throws SqliteError for an id that is known */
export function rememberAnswer(writer: Handle, command: Repeatable, key: Uint8Array, answer: Accepted): void {
  const { revision, numbers, carId } = answer
  const row = { commandId: command.id, digest: commandDigest(command, key), revision, carId }
  queries(writer).remember.run({ ...row, numbers })
}

/**
 * Keyed, because a payload may hold a name or a code: from a plain digest in a copy of the database they could be found
 * by trying.
 */
function commandDigest({ kind, payload, carId, by }: Repeatable, key: Uint8Array): string {
  return createHmac('sha256', key).update(JSON.stringify({ kind, payload, carId, by })).digest('hex')
}

const queries = perHandle(({ orm }) => ({
  find: orm
    .select()
    .from(commandAnswer)
    .where(eq(commandAnswer.commandId, sql.placeholder('commandId')))
    .prepare(),
  remember: orm.insert(commandAnswer).values(placeholders(commandAnswer)).prepare(),
}))
