import { readWorkshop } from '../../db/reads.ts'
import type { ApiServices } from './api-services.ts'
import type { Asker } from './pairing.ts'

/** Whether a manager is signed in on the asking device; looking does not put the end of the session off. */
export function isManagerHere({ deps, sessions }: ApiServices, { device }: Asker): boolean {
  const personId = sessions.person(device.id)
  const person = personId === null ? undefined : readWorkshop(deps.db).people.get(personId)
  return person?.active === true && person.roles.includes('manager')
}
