import { z } from 'zod'
import {
  attachmentIdSchema,
  costIdSchema,
  findingIdSchema,
  lineIdSchema,
  reportIdSchema,
  repairIdSchema,
  variationIdSchema,
  visitIdSchema,
} from '../ids.ts'
import { reportChoicesSchema } from '../report/report-choices.ts'
import { costSchema, moneySchema } from './money-facts.ts'
import {
  estimateLineSchema,
  nameSchema,
  noteSchema,
  optionalNoteSchema,
  payerSchema,
  reasonSchema,
  sha256Schema,
  weekSchema,
  workTargetSchema,
} from './shapes.ts'

export const ANSWERED_BY = ['letter', 'call', 'visit', 'message'] as const
const answer = { how: z.enum(ANSWERED_BY), note: optionalNoteSchema }

/** Person-hours more (positive) or less (negative). */
const hoursMoreSchema = z.number().min(-10_000).max(10_000)
const variedHoursSchema = z.strictObject({ target: workTargetSchema, hours: hoursMoreSchema })

/** What is put to the payer are the likely hours, with how few and how many they may become. */
const variationLineSchema = variedHoursSchema
  .extend({ low: hoursMoreSchema, high: hoursMoreSchema })
  .refine(({ low, hours, high }) => low <= hours && hours <= high, {
    error: 'Give the hours in order: low, likely, high.',
  })

/** Person-hours that are not exceeded with 50, 80 and 90 %. */
const bandSchema = {
  estimated: z.number().positive(),
  p50: z.number().positive(),
  p80: z.number().positive(),
  p90: z.number().positive(),
}

/** What was said of a repair's hours, how it was found and on how many finished jobs it rests. */
const statedBandSchema = z.strictObject({
  repairId: repairIdSchema,
  ...bandSchema,
  method: z.enum(['order statistic', 'normal-inverse-gamma', 'prior']),
  rests: z.strictObject({ own: z.int().min(0), others: z.int().min(0) }),
})
export type StatedBand = z.infer<typeof statedBandSchema>

export const BANDS_WHEN = ['accepted', 'assessed'] as const
export type BandsWhen = (typeof BANDS_WHEN)[number]

export const agreementFacts = {
  /** New lines and new figures of lines; the first figure of a target stays as its baseline. */
  estimateSet: z.strictObject({
    visitId: visitIdSchema,
    lines: z.array(estimateLineSchema).min(1).max(2_000),
  }),
  estimateAccepted: z.strictObject({
    visitId: visitIdSchema,
    payer: payerSchema,
    lineIds: z.array(lineIdSchema).max(2_000),
    costIds: z.array(costIdSchema).max(1_000),
    ...answer,
  }),
  /** The manager's look at the estimate once the layers are graded. */
  estimateReviewed: z.strictObject({ repairId: repairIdSchema, note: optionalNoteSchema }),
  /** The bands as they were shown when lines were accepted or an estimate was reviewed, so that later they can be judged. */
  bandsStated: z.strictObject({
    visitId: visitIdSchema,
    when: z.enum(BANDS_WHEN),
    repairs: z.array(statedBandSchema).max(400),
    car: z.strictObject(bandSchema).nullable(),
  }),
  variationRaised: z.strictObject({
    variationId: variationIdSchema,
    visitId: visitIdSchema,
    payer: payerSchema,
    title: nameSchema,
    why: noteSchema,
    ifNot: optionalNoteSchema,
    findings: z.array(findingIdSchema).max(60),
    attachments: z.array(attachmentIdSchema).max(60),
    lines: z.array(variationLineSchema).min(1, 'A variation needs hours on at least one gate.').max(400),
    costs: z.array(costSchema).max(200),
  }),
  variationDecided: z.strictObject({
    variationId: variationIdSchema,
    decision: z.enum(['accepted', 'declined']),
    /** What the payer accepted instead of what was asked; null when they took it as it stood. */
    changed: z
      .strictObject({
        lines: z.array(variedHoursSchema).min(1, 'Say which hours were accepted.').max(400),
        costs: z.array(z.strictObject({ costId: costIdSchema, amount: moneySchema })).max(200),
      })
      .nullable(),
    ...answer,
  }),
  /** What the manager chose for declined work, but for 'closed as found', which is a fact of its own. */
  declinedSettled: z.strictObject({
    variationId: variationIdSchema,
    choice: z.enum(['workshop pays', 'less work', 'stopped']),
    reason: reasonSchema,
  }),
  closedAsFound: z.strictObject({
    repairId: repairIdSchema,
    variationId: variationIdSchema.nullable(),
    attachments: z.array(attachmentIdSchema).max(60),
    protection: noteSchema,
    answer: noteSchema,
    cautionShown: z.boolean(),
  }),
  /** An issued report is kept as its files, by digest, and never changes; it prints the head of the chain. */
  reportIssued: z.strictObject({
    reportId: reportIdSchema,
    visitId: visitIdSchema,
    week: weekSchema,
    /** Of the PDF. */
    sha256: sha256Schema,
    /** Of the page beside it; null for reports from before there were pages. */
    page: sha256Schema.nullable(),
    head: sha256Schema,
    ...reportChoicesSchema.shape,
    /** Those that it shows, whoever chose them. */
    photos: z.array(attachmentIdSchema).max(60).readonly(),
    title: nameSchema,
  }),
}
