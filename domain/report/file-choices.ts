import { z } from 'zod'

/** What leaves the workshop with a car's file only when the manager says so; all false unless ticked. */
export const fileChoicesSchema = z.strictObject({
  /** The owner's and other payers' names, addresses and numbers. */
  contacts: z.boolean(),
  /** Money of estimates, variations and spendings, and rates. */
  prices: z.boolean(),
  /** Clocked hours, person by person. */
  hours: z.boolean(),
})
export type FileChoices = z.infer<typeof fileChoicesSchema>

export const NOTHING_MORE: FileChoices = { contacts: false, prices: false, hours: false }
