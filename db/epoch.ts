import { randomUUID } from 'node:crypto'
import type { Database, ReadDatabase } from './database.ts'
import { readSetting, writeSetting } from './settings.ts'

/**
 * Names the line of history that a database goes on with. A restore or a workshop taken in starts another one: what
 * screens have read before, and the journal numbers that devices remember, are of no use in it.
 */
export function readEpoch(db: ReadDatabase): string {
  const epoch = readSetting(db, 'epoch')
  if (epoch === null) throw new Error('a database that a host has opened has an epoch')
  return epoch
}

/** To be called when a host opens its database. */
export function ensureEpoch(db: Database): void {
  if (readSetting(db, 'epoch') === null) startEpoch(db)
}

/** Begins another line of history: screens read everything anew, devices send again what they have kept. */
export function startEpoch(db: Database): void {
  writeSetting(db, 'epoch', randomUUID())
}
