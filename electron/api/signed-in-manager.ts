import type { Database } from '../../db/database.ts'
import { readWorkshop } from '../../db/reads.ts'
import type { PersonId } from '../../domain/ids.ts'
import { ok, refuse, type Result } from '../../domain/refusal.ts'
import type { Asker } from './pairing.ts'
import type { Sessions } from './sessions.ts'

/** The manager who gave their code on this device; puts the end of the session off. */
export function signedInManager(db: Database, sessions: Sessions, { device }: Asker): Result<PersonId> {
  const personId = sessions.person(device.id)
  const person = personId === null ? undefined : readWorkshop(db).people.get(personId)
  if (person?.active !== true || !person.roles.includes('manager')) return noManager
  sessions.use(device.id)
  return ok(person.id)
}

const noManager = refuse(
  'not-allowed',
  'Only a manager who is signed in on this device may do this; a session ends after 30 minutes without use.',
  'Sign in with a manager’s code and try again.',
)
