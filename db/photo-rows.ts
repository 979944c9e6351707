import { count, eq, sql } from 'drizzle-orm'
import type { Moment } from '../domain/car.ts'
import type { Database, ReadDatabase } from './database.ts'
import { perHandle, type Handle } from './handle.ts'
import type { StoredPhoto } from './photos/photo-store.ts'
import { placeholders } from './placeholders.ts'
import { photo } from './schema.ts'

export type PhotoRow = typeof photo.$inferSelect

/**
 * Records a photo that has been stored, so that commands may refer to it. Harmless for one that is known.
 *
 * @param now when it was received, epoch milliseconds
 */
export function recordPhoto(db: Database, stored: StoredPhoto, now: Moment): PhotoRow {
  const { sha256, byteCount, facts } = stored
  const { type, width, height, taken } = facts
  queries(db.writer).add.run({
    sha256,
    bytes: byteCount,
    type,
    width,
    height,
    cameraLocal: taken?.local ?? null,
    cameraOffset: taken?.offset ?? null,
    received: new Date(now).toISOString(),
  })
  const row = photoRowOn(db.writer, sha256)
  if (!row) throw new Error(`The photo ${sha256} was not recorded.`)
  return row
}

/** Null for a photo that was never received. */
export function photoRow(db: ReadDatabase, sha256: string): PhotoRow | null {
  return photoRowOn(db.reader, sha256)
}

/** The same as one connection sees it. */
export function photoRowOn(handle: Handle, sha256: string): PhotoRow | null {
  return queries(handle).find.get({ sha256 }) ?? null
}

/** How many photos were received, and how many bytes they have together. */
export function photoTotals(db: ReadDatabase): { readonly photos: number; readonly photoBytes: number } {
  const { photos, photoBytes } = queries(db.reader).totals.get() ?? { photos: 0, photoBytes: null }
  return { photos, photoBytes: photoBytes ?? 0 }
}

const queries = perHandle(({ orm }) => ({
  add: orm.insert(photo).values(placeholders(photo)).onConflictDoNothing().prepare(),
  find: orm
    .select()
    .from(photo)
    .where(eq(photo.sha256, sql.placeholder('sha256')))
    .prepare(),
  totals: orm
    .select({ photos: count(), photoBytes: sql<number | null>`sum(${photo.bytes})` })
    .from(photo)
    .prepare(),
}))
