import { createHmac, randomBytes, scrypt, scryptSync, timingSafeEqual } from 'node:crypto'
import { promisify } from 'node:util'
import { and, eq, ne, sql } from 'drizzle-orm'
import type { Moment } from '../domain/car.ts'
import type { Decided } from '../domain/commands/decide.ts'
import type { DeviceId, PersonId } from '../domain/ids.ts'
import { ok, refuse, type Result } from '../domain/refusal.ts'
import { codeKeyId } from './code-key.ts'
import type { Database, ReadDatabase } from './database.ts'
import { perHandle } from './handle.ts'
import { placeholders } from './placeholders.ts'
import { code, codeLock, session } from './schema.ts'

export interface CodeAttempt {
  readonly personId: PersonId
  readonly device: DeviceId
  readonly code: string
  /** Epoch milliseconds. */
  readonly now: Moment
}

/**
 * Tells whether a code is the person's own. Every fifth wrong one on a device locks that person there: for a minute,
 * then two, four and so on up to an hour. The right one ends the count; other devices are not touched.
 *
 * The attempt is counted on the disk before the code is tried, so that neither many attempts at once nor a killed host
 * buys further ones.
 *
 * @returns refusal 'wrong-code' or 'locked'
 */
export async function verifyCode(db: Database, attempt: CodeAttempt): Promise<Result<PersonId>> {
  const { personId, device, now } = attempt
  const lock = currentLock(db, attempt)
  if (lock && lock.lockedUntil > now) return locked(lock.lockedUntil - now)
  const row = queries(db.writer).find.get({ personId })
  if (!row) return refuse('wrong-code', 'This person has no code yet.', 'Have a manager set one.')
  if (row.keyId !== codeKeyId(db.codeKey))
    return refuse(
      'wrong-code',
      'The codes of this workshop were set on another computer and cannot be checked on this one.',
      'Set the codes anew with the recovery sheet.',
    )
  const wrong = (lock?.wrong ?? 0) + 1
  const lockedUntil = wrong % WRONG_BEFORE_LOCK === 0 ? now + lockMs(wrong / WRONG_BEFORE_LOCK) : 0
  queries(db.writer).count.run({ personId, device, wrong, lockedUntil })
  if (!timingSafeEqual(await hashLater(db.codeKey, attempt.code, row.salt, row.cost), row.hash))
    return lockedUntil > 0
      ? locked(lockedUntil - now)
      : refuse('wrong-code', 'This is not the right code.', 'Try again, or have a manager set a new code.')
  queries(db.writer).unlock.run({ personId, device })
  return ok(personId)
}

/** A lock from a time when the clock was far ahead begins anew, so that it lasts no longer than it was meant to. */
function currentLock(db: Database, { personId, device, now }: CodeAttempt) {
  const lock = queries(db.writer).lock.get({ personId, device })
  if (lock === undefined) return null
  const until = now + lockMs(Math.max(1, Math.floor(lock.wrong / WRONG_BEFORE_LOCK)))
  if (lock.lockedUntil <= until) return lock
  queries(db.writer).count.run({ personId, device, wrong: lock.wrong, lockedUntil: until })
  return { ...lock, lockedUntil: until }
}

/** True when one of these people has a code, on whatever computer it was set. */
export function hasCode(db: ReadDatabase, people: readonly PersonId[]): boolean {
  return people.some((personId) => queries(db.reader).find.get({ personId }) !== undefined)
}

/**
 * Sets codes inside the transaction that records the command. Whoever is signed in with an older code on another device
 * gives the new one there.
 */
export function writeCodes(db: Database, codes: Decided['codes'], device: DeviceId | null): void {
  for (const { personId, code: text } of codes) {
    const salt = randomBytes(SALT_BYTES)
    const cost = db.codeCost
    const hash = scryptSync(pepper(db.codeKey, text), salt, HASH_BYTES, { N: cost })
    queries(db.writer).write.run({ personId, keyId: codeKeyId(db.codeKey), cost, salt, hash })
    queries(db.writer).forgive.run({ personId })
    db.writer.orm
      .delete(session)
      .where(and(eq(session.personId, personId), device ? ne(session.deviceId, device) : undefined))
      .run()
  }
}

const WRONG_BEFORE_LOCK = 5
const MS_PER_MINUTE = 60_000
const LONGEST_LOCK_MINUTES = 60

const SALT_BYTES = 16
const HASH_BYTES = 32

function lockMs(times: number): number {
  return Math.min(LONGEST_LOCK_MINUTES, 2 ** (times - 1)) * MS_PER_MINUTE
}

function locked(ms: number) {
  const minutes = Math.ceil(ms / MS_PER_MINUTE)
  const wait = minutes === 1 ? 'a minute' : `${minutes} minutes`
  return refuse(
    'locked',
    'Too many wrong codes were given for this person on this device.',
    `Try again in ${wait}, or use another device.`,
  )
}

const scryptLater = promisify<Uint8Array, Uint8Array, number, { readonly N: number }, Buffer>(scrypt)

/** On a thread of its own, so that nobody else waits for it. */
function hashLater(key: Uint8Array, text: string, salt: Uint8Array, cost: number): Promise<Buffer> {
  return scryptLater(pepper(key, text), salt, HASH_BYTES, { N: cost })
}

function pepper(key: Uint8Array, text: string): Uint8Array {
  return createHmac('sha256', key).update(text, 'utf8').digest()
}

const queries = perHandle(({ orm }) => {
  const isOfBoth = and(
    eq(codeLock.personId, sql.placeholder('personId')),
    eq(codeLock.deviceId, sql.placeholder('device')),
  )
  return {
    find: orm
      .select()
      .from(code)
      .where(eq(code.personId, sql.placeholder('personId')))
      .prepare(),
    write: orm
      .insert(code)
      .values(placeholders(code))
      .onConflictDoUpdate({
        target: code.personId,
        set: {
          keyId: sql`excluded.key_id`,
          cost: sql`excluded.cost`,
          salt: sql`excluded.salt`,
          hash: sql`excluded.hash`,
        },
      })
      .prepare(),
    lock: orm.select().from(codeLock).where(isOfBoth).prepare(),
    count: orm
      .insert(codeLock)
      .values({
        personId: sql.placeholder('personId'),
        deviceId: sql.placeholder('device'),
        wrong: sql.placeholder('wrong'),
        lockedUntil: sql.placeholder('lockedUntil'),
      })
      .onConflictDoUpdate({
        target: [codeLock.personId, codeLock.deviceId],
        set: { wrong: sql`excluded.wrong`, lockedUntil: sql`excluded.locked_until` },
      })
      .prepare(),
    unlock: orm.delete(codeLock).where(isOfBoth).prepare(),
    forgive: orm
      .delete(codeLock)
      .where(eq(codeLock.personId, sql.placeholder('personId')))
      .prepare(),
  }
})
