import { z } from 'zod'

/** What a check found, as it is remembered: findings beyond the first hundred are counted only. */
export const lastCheckSchema = z.strictObject({
  /** When it ended, epoch milliseconds. */
  at: z.number().int(),
  /** How long it took, milliseconds. */
  took: z.number().int().nonnegative(),
  /** Why it broke off; null when it went to its end. */
  brokenOff: z.string().nullable(),
  faults: z.number().int().nonnegative(),
  notes: z.number().int().nonnegative(),
  findings: z.array(
    z.strictObject({
      severity: z.enum(['fault', 'note']),
      what: z.string(),
      meaning: z.string(),
      todo: z.string(),
      /** What mending did, or why it could not; null before it was tried. */
      mended: z.strictObject({ isMended: z.boolean(), words: z.string() }).nullable(),
    }),
  ),
})

export type LastCheck = Readonly<z.infer<typeof lastCheckSchema>>
export type CheckedFinding = LastCheck['findings'][number]
