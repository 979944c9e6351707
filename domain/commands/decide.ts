import type { CarState, EntryState, Moment } from '../car.ts'
import type { EstimateHistory } from '../estimate/estimate-history.ts'
import type { Fact, NewFact, PayloadOf } from '../facts.ts'
import type { BayId, BookingId, CarId, DeviceId, PersonId } from '../ids.ts'
import type { WorkshopState } from '../workshop.ts'
import type { contactSchema } from './command-shapes.ts'
import type { z } from 'zod'

export type Contact = z.infer<typeof contactSchema>

/** What the database gathers before a command is decided. */
export interface DecideContext {
  readonly now: Moment
  /** When it happened: as stated, else `now`. */
  readonly happened: Moment
  /** Who acts, already known to the host; null only for the first set-up. */
  readonly by: PersonId | null
  /** A second signer whose code the host has checked. */
  readonly second: PersonId | null
  readonly device: DeviceId | null
  readonly workshop: WorkshopState
  /** The car that the command is about; null for the workshop itself and for a car that does not exist yet. */
  readonly car: CarState | null
  readonly others: Others
  /** What finished repairs tell: only for `acceptEstimate` and `reviewEstimate`, null otherwise. */
  readonly learned: EstimateHistory | null
  /** The facts of the chain that the command is about, in order: only for `voidFact`, empty otherwise. */
  readonly history: readonly Fact[]
  /** The kept plan that `takePlan` names; null when none is kept under its id, and for every other command. */
  readonly keptPlan: PlanToTake | null
  /** Cars in hand that name the contact which `eraseContact` is about; none for every other command. */
  readonly namedBy: readonly CarState[]
}

/** What is kept of a plan that somebody wants to take. */
export type PlanToTake =
  | { readonly state: 'kept'; readonly fact: PayloadOf<'planTaken'> }
  | { readonly state: 'taken' }
  /** Its content is not what its digest says. */
  | { readonly state: 'damaged' }

/** What is known of other cars. */
export interface Others {
  readonly shellNumbers: ReadonlyMap<string, CarId>
  /** Standing bookings of all cars. */
  readonly bookings: readonly OtherBooking[]
  /** Entries that count, of the person whose time the command is about, on all cars and the workshop, around the time in question. */
  readonly entries: readonly EntryState[]
  /** Where every other shell stands now. */
  readonly standing: ReadonlyMap<CarId, BayId>
  readonly carNames: ReadonlyMap<CarId, string>
  /** Digests of the photos that the store holds, as far as the command names them. */
  readonly knownPhotos: ReadonlySet<string>
}

export interface OtherBooking {
  readonly bookingId: BookingId
  readonly carId: CarId
  readonly bayId: BayId
  readonly from: string
  readonly to: string
}

export interface Decided {
  readonly facts: readonly NewFact[]
  /** For the contact book. */
  readonly contacts: readonly { readonly id: string; readonly contact: Contact }[]
  /** New codes, to be hashed by the host. */
  readonly codes: readonly { readonly personId: PersonId; readonly code: string }[]
}
