import { type UpdateSetting, updateSettingSchema } from '../domain/updates.ts'
import type { Database, ReadDatabase } from './database.ts'
import { readJsonSetting, writeSetting } from './settings.ts'

/** Null while nothing is looked for, and for what this program has not written. */
export function readUpdateSetting(db: Pick<ReadDatabase, 'reader'>): UpdateSetting | null {
  return updateSettingSchema.safeParse(readJsonSetting(db, 'updates')).data ?? null
}

/** @param set null looks for nothing any more */
export function writeUpdateSetting(db: Pick<Database, 'writer'>, set: UpdateSetting | null): void {
  writeSetting(db, 'updates', JSON.stringify(set))
}
