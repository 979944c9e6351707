import { createHash, randomBytes } from 'node:crypto'
import { and, eq, isNotNull, isNull, sql } from 'drizzle-orm'
import type { Moment } from '../domain/car.ts'
import type { DeviceId, PersonId } from '../domain/ids.ts'
import type { Database, ReadDatabase } from './database.ts'
import { inTransaction, perHandle } from './handle.ts'
import { device, session } from './schema.ts'

export interface Device {
  readonly id: DeviceId
  readonly name: string
  /** ISO 8601, UTC. */
  readonly paired: string
  /** ISO 8601, UTC, to about a minute; null for a device that has not asked for anything yet. */
  readonly lastUsed: string | null
}

/**
 * Pairs a device. Its token, 32 random bytes in base64url, goes into its cookie and is kept nowhere here: only its
 * SHA-256 is, from which it cannot be found.
 */
export function pairDevice(
  db: Database,
  { id, name }: Pick<Device, 'id' | 'name'>,
  now: Moment,
): { readonly device: Device; readonly token: string } {
  const token = randomBytes(TOKEN_BYTES).toString('base64url')
  const paired: Device = { id, name, paired: new Date(now).toISOString(), lastUsed: null }
  db.writer.orm
    .insert(device)
    .values({ ...paired, tokenHash: hashOf(token), revoked: null })
    .run()
  return { device: paired, token }
}

/**
 * Gives a paired device another token in place of the one that it has lost; nobody is signed in on it any more.
 *
 * @returns null when no such device is paired
 */
export function renewDevice(
  db: Database,
  id: DeviceId,
): { readonly device: Device; readonly token: string } | null {
  const token = randomBytes(TOKEN_BYTES).toString('base64url')
  return inTransaction(db.writer, () => {
    signOut(db, id)
    const [renewed] = db.writer.orm
      .update(device)
      .set({ tokenHash: hashOf(token) })
      .where(and(eq(device.id, id), isNull(device.revoked)))
      .returning({ id: device.id, name: device.name, paired: device.paired, lastUsed: device.lastUsed })
      .all()
    return renewed === undefined ? null : { device: renewed, token }
  })
}

/** The device that a cookie's token belongs to; null for an unknown token and for a device that was shut out. */
export function deviceByToken(db: ReadDatabase, token: string): Device | null {
  return queries(db.reader).byToken.get({ tokenHash: hashOf(token) }) ?? null
}

/** The name of the device that a cookie's token belonged to until it was shut out; null for any other token. */
export function shutOutName(db: ReadDatabase, token: string): string | null {
  return queries(db.reader).shutOut.get({ tokenHash: hashOf(token) })?.name ?? null
}

/** Devices that are paired now, in the order of their pairing. */
export function readDevices(db: ReadDatabase): readonly Device[] {
  return queries(db.reader).paired.all()
}

/** False when no such device is paired. */
export function renameDevice(db: Database, id: DeviceId, name: string): boolean {
  const paired = and(eq(device.id, id), isNull(device.revoked))
  return db.writer.orm.update(device).set({ name }).where(paired).run().changes > 0
}

/** Keeps when a device last asked for anything. */
export function recordUse(db: Database, id: DeviceId, now: Moment): void {
  queries(db.writer).use.run({ id, lastUsed: new Date(now).toISOString() })
}

/**
 * Shuts a device out: its cookie counts no longer and nobody is signed in on it.
 *
 * @returns false when no such device is paired
 */
export function revokeDevice(db: Database, id: DeviceId, now: Moment): boolean {
  return inTransaction(db.writer, () => {
    signOut(db, id)
    const revoked = db.writer.orm
      .update(device)
      .set({ revoked: new Date(now).toISOString() })
      .where(and(eq(device.id, id), isNull(device.revoked)))
      .run()
    return revoked.changes > 0
  })
}

/** Signs a person in on a device, whose code the caller has checked; whoever was signed in there before is out. */
export function signIn(db: Database, deviceId: DeviceId, personId: PersonId, now: Moment): void {
  const started = new Date(now).toISOString()
  db.writer.orm
    .insert(session)
    .values({ deviceId, personId, started })
    .onConflictDoUpdate({ target: session.deviceId, set: { personId, started } })
    .run()
}

/** Whoever is signed in on the device is not any more. */
export function signOut(db: Database, deviceId: DeviceId): void {
  db.writer.orm.delete(session).where(eq(session.deviceId, deviceId)).run()
}

/** Who is signed in on a device; null when nobody is. */
export function signedIn(db: ReadDatabase, deviceId: DeviceId): PersonId | null {
  return queries(db.reader).session.get({ deviceId })?.personId ?? null
}

const TOKEN_BYTES = 32

function hashOf(token: string): string {
  return createHash('sha256').update(token, 'utf8').digest('hex')
}

const queries = perHandle(({ orm }) => {
  const columns = { id: device.id, name: device.name, paired: device.paired, lastUsed: device.lastUsed }
  return {
    byToken: orm
      .select(columns)
      .from(device)
      .where(and(eq(device.tokenHash, sql.placeholder('tokenHash')), isNull(device.revoked)))
      .prepare(),
    shutOut: orm
      .select({ name: device.name })
      .from(device)
      .where(and(eq(device.tokenHash, sql.placeholder('tokenHash')), isNotNull(device.revoked)))
      .prepare(),
    use: orm
      .update(device)
      .set({ lastUsed: sql`${sql.placeholder('lastUsed')}` })
      .where(eq(device.id, sql.placeholder('id')))
      .prepare(),
    paired: orm
      .select(columns)
      .from(device)
      .where(isNull(device.revoked))
      .orderBy(device.paired, device.id)
      .prepare(),
    session: orm
      .select({ personId: session.personId })
      .from(session)
      .where(eq(session.deviceId, sql.placeholder('deviceId')))
      .prepare(),
  }
})
