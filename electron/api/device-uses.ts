import { recordUse } from '../../db/devices.ts'
import type { Database } from '../../db/database.ts'
import type { Moment } from '../../domain/car.ts'
import type { DeviceId } from '../../domain/ids.ts'

/** Every answer would else write to the disk. */
const KEPT_EVERY_MS = 60_000

/**
 * Keeps when each device last asked for anything, at most once a minute. A full disk must not keep people from reading, so
 * what goes wrong is logged.
 */
export function createDeviceUses(
  db: Database,
  log: (line: string) => void,
): (id: DeviceId, now: Moment) => void {
  const kept = new Map<DeviceId, Moment>()
  return (id, now) => {
    const last = kept.get(id)
    if (last !== undefined && Math.abs(now - last) < KEPT_EVERY_MS) return
    kept.set(id, now)
    try {
      recordUse(db, id, now)
    } catch (error) {
      log(`The last use of a device could not be kept: ${String(error)}`)
    }
  }
}
