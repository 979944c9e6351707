import type { CarState } from '../car.ts'
import { openAway } from '../rules/standing.ts'
import type { Contact } from './decide.ts'
import { isOver } from '../visit-over.ts'

/** What stands in the contact book once somebody was erased: every screen and letter then says this. */
export const ERASED_CONTACT: Contact = { name: '(name erased)', phone: '', email: '', address: '' }

/**
 * Whether a contact is still needed for a car: as owner or insurer of a visit that goes on, or as the firm that has its shell.
 * An enquiry alone needs nobody: it may never come to anything.
 */
export function isNeededFor(car: CarState, id: string): boolean {
  const visit = car.currentVisit === null ? undefined : car.visits.get(car.currentVisit)
  const goesOn = visit !== undefined && !isOver(visit) && visit.status !== 'enquired'
  return (goesOn && (visit.ownerId === id || visit.insurerId === id)) || openAway(car)?.firmId === id
}
