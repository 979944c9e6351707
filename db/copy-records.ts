import {
  type CopiesSet,
  copiesSetSchema,
  type CopyRecord,
  copyRecordSchema,
  NO_COPY_YET,
  type RestoredFrom,
  restoredSchema,
} from '../domain/copies/copy-settings.ts'
import type { Database, ReadDatabase } from './database.ts'
import { inTransaction } from './handle.ts'
import { readJsonSetting, writeSetting } from './settings.ts'

/** Null while nothing is set on this computer, and for what this program has not written. */
export function readCopiesSet(db: Pick<ReadDatabase, 'reader'>): CopiesSet | null {
  return copiesSetSchema.safeParse(readJsonSetting(db, 'copies')).data ?? null
}

/** Where copies go from now on, and when. */
export function writeCopiesSet(db: Pick<Database, 'writer'>, set: CopiesSet): void {
  writeSetting(db, 'copies', JSON.stringify(set))
}

/** What became of the last copies; nothing before a first one. */
export function readCopyRecord(db: Pick<ReadDatabase, 'reader'>): CopyRecord {
  return copyRecordSchema.safeParse(readJsonSetting(db, 'copyRecord')).data ?? NO_COPY_YET
}

/** Records what became of a copy, and up to where a whole one holds everything. */
export function recordCopy(db: Pick<Database, 'reader' | 'writer'>, tried: CopyRecord): void {
  inTransaction(db.writer, () => {
    const good = tried.good ?? readCopyRecord(db).good
    writeSetting(db, 'copyRecord', JSON.stringify({ ...tried, good }))
    if (tried.good !== null) writeSetting(db, 'copiedTo', String(tried.good.number))
  })
}

/** Null where nothing was restored, or a manager has read it. */
export function readRestore(db: Pick<ReadDatabase, 'reader'>): RestoredFrom | null {
  return restoredSchema.safeParse(readJsonSetting(db, 'restored')).data ?? null
}

/** @param restored null once a manager has read it */
export function rememberRestore(db: Pick<Database, 'writer'>, restored: RestoredFrom | null): void {
  writeSetting(db, 'restored', JSON.stringify(restored))
}
