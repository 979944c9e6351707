import { z } from 'zod'
import { gateSchema } from '../gates.ts'
import { awayIdSchema, bayIdSchema, bookingIdSchema, partyIdSchema, repairIdSchema } from '../ids.ts'
import { dateSchema, fixtureSchema, noteSchema, optionalNoteSchema, reasonSchema } from './shapes.ts'

const booking = {
  bookingId: bookingIdSchema,
  bayId: bayIdSchema,
  /** First and last day, both inclusive. */
  from: dateSchema,
  to: dateSchema,
}

export const placeFacts = {
  bayBooked: z.strictObject(booking),
  bookingChanged: z.strictObject(booking),
  bookingCancelled: z.strictObject({ bookingId: bookingIdSchema, reason: optionalNoteSchema }),
  /** Where the shell really stands from now on, and on what. A move ends every lift of the support hold. */
  shellMoved: z.strictObject({ bayId: bayIdSchema, fixture: fixtureSchema, note: optionalNoteSchema }),
  shellSentAway: z.strictObject({
    awayId: awayIdSchema,
    firmId: partyIdSchema,
    what: noteSchema,
    from: dateSchema,
    expected: dateSchema,
  }),
  shellReturned: z.strictObject({
    awayId: awayIdSchema,
    bayId: bayIdSchema,
    fixture: fixtureSchema,
    /** Gates undone by what was done away: dipping strips primer and sealer inside cavities. */
    tookBack: z.array(z.strictObject({ repairId: repairIdSchema, gate: gateSchema })).max(200),
    uncovered: optionalNoteSchema,
    reason: reasonSchema,
  }),
}
