import { type UpdateSetting, updateSettingSchema } from '../domain/updates.ts'
import type { Database, ReadDatabase } from './database.ts'
import { readSetting, writeSetting } from './settings.ts'

/** Null while nothing is looked for, and for what this program has not written. */
export function readUpdateSetting(db: Pick<ReadDatabase, 'reader'>): UpdateSetting | null {
  try {
    return updateSettingSchema.safeParse(JSON.parse(readSetting(db, 'updates') ?? 'null')).data ?? null
  } catch {
    return null
  }
}

export function writeUpdateSetting(db: Pick<Database, 'writer'>, set: UpdateSetting | null): void {
  writeSetting(db, 'updates', JSON.stringify(set))
}
