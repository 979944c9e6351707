import { z } from 'zod'
import { copyScheduleSchema } from './copy-schedule.ts'

/** How copies of a workshop are made on this computer: its disks are not those of another one. */
export const copiesSetSchema = z.strictObject({
  /** Absolute path. */
  folder: z.string().min(1),
  /** Null makes copies by hand alone. */
  schedule: copyScheduleSchema.nullable(),
  /** A last good copy that is older is warned of. */
  warnAfterDays: z.int().min(1, 'Give 1 day or more.').max(90, 'Give 90 days or less.'),
  isSealed: z.boolean(),
  /** When the schedule was set, epoch milliseconds. */
  since: z.int(),
  /** Copies were made into this folder. */
  isKnown: z.boolean(),
})

/** What became of the copies so far; times are epoch milliseconds. */
export const copyRecordSchema = z.strictObject({
  /** The last whole one. */
  good: z
    .strictObject({ at: z.int(), number: z.int().min(1), folder: z.string(), stamp: z.string() })
    .nullable(),
  /** The last that was begun: why it was not made, or what people should know of it, in words. */
  tried: z
    .strictObject({ at: z.int(), problem: z.string().nullable(), warnings: z.array(z.string()) })
    .nullable(),
})

/** That a workshop goes on from a copy, until a manager has read what there is to know of it. */
export const restoredSchema = z.strictObject({
  /** When the copy was made, epoch milliseconds. */
  made: z.int(),
  /** In words. */
  notes: z.array(z.string()),
})

export type RestoredFrom = z.infer<typeof restoredSchema>
export type CopiesSet = z.infer<typeof copiesSetSchema>
export type CopyRecord = z.infer<typeof copyRecordSchema>

export const NO_COPY_YET: CopyRecord = { good: null, tried: null }
