import { z } from 'zod'
import { entryIdSchema, personIdSchema } from '../ids.ts'
import {
  dateSchema,
  instantSchema,
  nameSchema,
  optionalNoteSchema,
  reasonSchema,
  reworkCauseSchema,
  workTargetSchema,
} from './shapes.ts'

/** Gates and tasks of one car, or the workshop itself. */
export const loggedOnSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('work'), targets: z.array(workTargetSchema).min(1).max(40) }),
  z.strictObject({ kind: z.literal('workshop'), what: nameSchema }),
])

/** Clocked or known spans have times; hours brought from paper have a day and a length. */
export const timeSpanSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('span'), start: instantSchema, end: instantSchema }),
  z.strictObject({
    kind: z.literal('day'),
    date: dateSchema,
    hours: z
      .number()
      .positive('Hours must be more than zero.')
      .max(24, 'A day has 24 hours; enter each day by itself.'),
  }),
])

const entry = {
  entryId: entryIdSchema,
  personId: personIdSchema,
  on: loggedOnSchema,
  hotWork: z.boolean(),
  /** Asked for when the gate was passed already or reopened: such hours are rework. */
  cause: reworkCauseSchema.nullable(),
}

/** One share per target, adding up to 1; null shares by the estimates. */
const sharesSchema = z.array(z.number().min(0).max(1)).max(40).nullable()

export const timeFacts = {
  clockStarted: z.strictObject({ ...entry, start: instantSchema }),
  clockStopped: z.strictObject({
    entryId: entryIdSchema,
    end: instantSchema,
    /** The clock's end, or the end of the person's day when it ran past that and nobody has confirmed it. */
    countsTo: instantSchema,
    /** True when the person says that time past the end of their day was really worked. */
    overtime: z.boolean(),
    shares: sharesSchema,
    /** Minutes of fire watch that start now; null when the work was not hot. */
    watchMinutes: z.int().min(30).max(480).nullable(),
  }),
  clockConfirmed: z.strictObject({ entryId: entryIdSchema, end: instantSchema, reason: optionalNoteSchema }),
  timeLogged: z.strictObject({
    ...entry,
    time: timeSpanSchema,
    shares: sharesSchema,
    note: optionalNoteSchema,
    watchMinutes: z.int().min(30).max(480).nullable(),
  }),
  /** The old entry stays in the journal; the new one counts in its place. */
  timeCorrected: z.strictObject({
    entryId: entryIdSchema,
    replaces: entryIdSchema,
    personId: personIdSchema,
    on: loggedOnSchema,
    cause: reworkCauseSchema.nullable(),
    time: timeSpanSchema,
    shares: sharesSchema,
    reason: reasonSchema,
  }),
  watchCompleted: z.strictObject({ entryId: entryIdSchema, note: optionalNoteSchema }),
}

export type LoggedOn = z.infer<typeof loggedOnSchema>
export type TimeSpan = z.infer<typeof timeSpanSchema>
