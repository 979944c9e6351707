import { eq } from 'drizzle-orm'
import { parseJson } from '../domain/text/parse-json.ts'
import type { Database, ReadDatabase } from './database.ts'
import { setting } from './schema.ts'

/** What the host itself remembers, beside what the workshop decides. */
export type SettingName =
  | 'copiedTo'
  | 'copies'
  | 'copyRecord'
  | 'demo'
  | 'epoch'
  | 'lastCheck'
  | 'network'
  | 'ownWindow'
  | 'reportsPrepared'
  | 'restored'
  | 'updates'

/** As it was written; null while it is not set. */
export function readSetting(db: Pick<ReadDatabase, 'reader'>, name: SettingName): string | null {
  return db.reader.orm.select().from(setting).where(eq(setting.name, name)).get()?.value ?? null
}

/** The same of a setting that is JSON; null also for what this program has not written. */
export function readJsonSetting(db: Pick<ReadDatabase, 'reader'>, name: SettingName): unknown {
  return parseJson(readSetting(db, name) ?? 'null')
}

/** On the disk when this returns. @throws SqliteError when the disk is full or fails */
export function writeSetting(db: Pick<Database, 'writer'>, name: SettingName, value: string): void {
  db.writer.orm
    .insert(setting)
    .values({ name, value })
    .onConflictDoUpdate({ target: setting.name, set: { value } })
    .run()
}
