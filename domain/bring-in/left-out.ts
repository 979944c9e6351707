import type { FactKind } from '../facts.ts'

/**
 * Facts of a car that speak of the other workshop's own things, with the reason that people read. They stay in the journal
 * that came with the car and are not taken over.
 */
export const LEFT_OUT: Readonly<Partial<Record<FactKind, string>>> = {
  bayBooked: 'Bookings are of the other workshop’s bays',
  bookingChanged: 'Bookings are of the other workshop’s bays',
  bookingCancelled: 'Bookings are of the other workshop’s bays',
  shellMoved: 'Moves are between the other workshop’s bays',
  workPinned: 'Plans are of the other workshop’s people',
  workUnpinned: 'Plans are of the other workshop’s people',
  leftSaid: 'Plans are of the other workshop’s people',
  decisionExpected: 'Plans are of the other workshop’s people',
  fixturePlanned: 'Plans are of the other workshop’s people',
  hoursTaken: 'What was said of hours rests on the other workshop’s finished jobs',
  bandsStated: 'What was said of hours rests on the other workshop’s finished jobs',
  costsSet: 'Money is of the other workshop’s books',
  costTakenOff: 'Money is of the other workshop’s books',
  costSpent: 'Money is of the other workshop’s books',
  reportIssued: 'Reports to the owner are the other workshop’s letters',
}
