import { readWorkshop } from '../../db/reads.ts'
import type { PersonId } from '../../domain/ids.ts'
import { ok, refuse, type Refusal, type Result } from '../../domain/refusal.ts'
import type { ApiServices } from './api-services.ts'
import type { Asker } from './pairing.ts'
import { RefusedError } from './refused-error.ts'

type Known = Pick<ApiServices, 'deps' | 'sessions'>

/** Whether a manager is signed in on the asking device; looking does not put the end of the session off. */
export function isManagerHere(services: Known, asker: Asker): boolean {
  return managerHere(services, asker) !== null
}

/**
 * For what only managers are shown.
 *
 * @param refusal what anybody else is told
 * @throws RefusedError with it
 */
export function requireManagerHere(services: Known, asker: Asker, refusal: Refusal): void {
  if (!isManagerHere(services, asker)) throw new RefusedError(refusal)
}

/** The manager who gave their code on this device, for what they do; puts the end of the session off. */
export function signedInManager(services: Known, asker: Asker): Result<PersonId> {
  const manager = managerHere(services, asker)
  if (manager === null) return noManager
  services.sessions.use(asker.device.id)
  return ok(manager)
}

function managerHere({ deps, sessions }: Known, { device }: Asker): PersonId | null {
  const personId = sessions.person(device.id)
  const person = personId === null ? undefined : readWorkshop(deps.db).people.get(personId)
  return person?.active === true && person.roles.includes('manager') ? person.id : null
}

const noManager = refuse(
  'not-allowed',
  'Only a manager who is signed in on this device may do this; a session ends after 30 minutes without use.',
  'Sign in with a manager’s code and try again.',
)
