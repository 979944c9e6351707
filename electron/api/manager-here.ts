import { readWorkshop } from '../../db/reads.ts'
import type { PersonId } from '../../domain/ids.ts'
import { ok, refuse, type Result } from '../../domain/refusal.ts'
import type { ApiServices } from './api-services.ts'
import type { Asker } from './pairing.ts'
import type { ApiContext } from './trpc.ts'

type Known = Pick<ApiServices, 'deps' | 'sessions'>

/** What each call knows of who asks. */
export function apiContext(services: Known, asker: Asker): ApiContext {
  return {
    asker,
    managerHere: (isDeed) => {
      const manager = managerHere(services, asker)
      if (isDeed && manager !== null) services.sessions.use(asker.device.id)
      return manager
    },
  }
}

/** Whether a manager is signed in on the asking device; looking does not put the end of the session off. */
export function isManagerHere(services: Known, asker: Asker): boolean {
  return managerHere(services, asker) !== null
}

/** The manager who gave their code on this device, for a file that is theirs to have; puts the end of the session off. */
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
