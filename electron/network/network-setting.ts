import { z } from 'zod'
import type { Database } from '../../db/database.ts'
import { readSetting, writeSetting } from '../../db/settings.ts'

const settingSchema = z.strictObject({
  isOpen: z.boolean(),
  scheme: z.enum(['https', 'http']),
  /** Kept while it is closed, too: what a tablet keeps goes by the address, port included. */
  port: z.int().min(1).max(65_535),
})

/** How the workshop network was left. */
export type NetworkSetting = z.infer<typeof settingSchema>

/** Null before it was first opened. */
export function readNetworkSetting(db: Database): NetworkSetting | null {
  const text = readSetting(db, 'network')
  return text === null ? null : (settingSchema.safeParse(jsonOf(text)).data ?? null)
}

export function writeNetworkSetting(db: Database, setting: NetworkSetting): void {
  writeSetting(db, 'network', JSON.stringify(setting))
}

function jsonOf(text: string): unknown {
  try {
    return JSON.parse(text)
  } catch {
    return null
  }
}
