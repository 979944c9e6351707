import { eq } from 'drizzle-orm'
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

export function readSetting(db: Pick<ReadDatabase, 'reader'>, name: SettingName): string | null {
  return db.reader.orm.select().from(setting).where(eq(setting.name, name)).get()?.value ?? null
}

export function writeSetting(db: Pick<Database, 'writer'>, name: SettingName, value: string): void {
  db.writer.orm
    .insert(setting)
    .values({ name, value })
    .onConflictDoUpdate({ target: setting.name, set: { value } })
    .run()
}
