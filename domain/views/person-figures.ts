import type { PersonId } from '../ids.ts'
import type { WorkshopState } from '../workshop.ts'

/**
 * Figures by person are off until the manager turns them on; then managers see everybody's and each person their own.
 *
 * @param by who is signed in on the device
 */
export function mayShowPerson(workshop: WorkshopState, by: PersonId | null, personId: string): boolean {
  return by !== null && workshop.settings.figuresByPerson && (isManager(workshop, by) || personId === by)
}

/** Whether they may see any, if only their own. */
export const mayShowPeople = (workshop: WorkshopState, by: PersonId | null): boolean =>
  by !== null && mayShowPerson(workshop, by, by)

const isManager = (workshop: WorkshopState, by: PersonId): boolean =>
  workshop.people.get(by)?.roles.includes('manager') === true
