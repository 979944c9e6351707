import { signedIn, signIn, signOut } from '../../db/devices.ts'
import type { Database } from '../../db/database.ts'
import type { Moment } from '../../domain/car.ts'
import type { DeviceId, PersonId } from '../../domain/ids.ts'

/** Who has given their code on a device and has not left it since. */
export interface Sessions {
  readonly start: (device: DeviceId, personId: PersonId) => void
  readonly end: (device: DeviceId) => void
  /** The person; null when nobody is signed in or the session has run out, which ends it. */
  readonly person: (device: DeviceId) => PersonId | null
  /** Puts the end off: to be called for what a person does, never for what a screen reads by itself. */
  readonly use: (device: DeviceId) => void
}

const IDLE_MS = 30 * 60_000

/** Times of use are kept in memory only, so that a session never outlasts the run of the host that it began in. */
export function createSessions(db: Database, now: () => Moment): Sessions {
  const lastUse = new Map<DeviceId, Moment>()

  const end = (device: DeviceId) => {
    lastUse.delete(device)
    signOut(db, device)
  }

  return {
    start: (device, personId) => {
      signIn(db, device, personId, now())
      lastUse.set(device, now())
    },
    end,
    person: (device) => {
      const personId = signedIn(db, device)
      if (personId === null) return null
      const used = lastUse.get(device)
      if (used !== undefined && now() - used <= IDLE_MS) {
        // A clock that was set back must not make the session longer.
        if (used > now()) lastUse.set(device, now())
        return personId
      }
      end(device)
      return null
    },
    use: (device) => {
      if (lastUse.has(device)) lastUse.set(device, now())
    },
  }
}
