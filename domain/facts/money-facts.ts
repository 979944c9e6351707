import { z } from 'zod'
import { costIdSchema, repairIdSchema, spendingIdSchema, visitIdSchema } from '../ids.ts'
import { dateSchema, nameSchema, payerSchema } from './shapes.ts'

/** Whole minor units of the workshop's currency (cents), so that sums are exact. Without tax. */
export const moneySchema = z
  .int('Give an amount of money in whole cents.')
  .min(0, 'An amount of money cannot be negative.')
  .max(100_000_000_00, 'More than 100 million on one line is not believable; split the line.')

export const COST_KINDS = ['part', 'material', 'outside work'] as const
export const costKindSchema = z.enum(COST_KINDS)

/** Money that is not hours: what a part, a material or work by another firm is expected to cost. */
export const costSchema = z.strictObject({
  costId: costIdSchema,
  /** Null when it is for the whole car. */
  repairId: repairIdSchema.nullable(),
  kind: costKindSchema,
  name: nameSchema,
  amount: moneySchema,
})

/** Labour rates per person-hour. */
const rateTableSchema = z.strictObject({
  /** Local date from which they hold, until those of a later date. */
  from: dateSchema,
  usual: moneySchema,
  /** Of skills that are charged otherwise. */
  bySkill: z.array(z.strictObject({ skill: nameSchema, perHour: moneySchema })).max(40),
})

export const moneyFacts = {
  /** New money lines of an estimate and new figures of lines; the first figure of a line stays as its baseline. */
  costsSet: z.strictObject({
    visitId: visitIdSchema,
    costs: z
      .array(costSchema.extend({ payer: payerSchema }))
      .min(1)
      .max(1_000),
  }),
  /** A line that its payer never accepted and that nothing was spent on is no longer estimated. */
  costTakenOff: z.strictObject({ visitId: visitIdSchema, costId: costIdSchema }),
  /** A bill or a take from the shelf, as it was paid. What never happened is voided. */
  costSpent: z.strictObject({
    spendingId: spendingIdSchema,
    visitId: visitIdSchema,
    repairId: repairIdSchema.nullable(),
    /** The agreed line that it is spent on; null when none was agreed. */
    costId: costIdSchema.nullable(),
    kind: costKindSchema,
    name: nameSchema,
    date: dateSchema,
    amount: moneySchema,
    payer: payerSchema,
  }),
}

export const workshopMoneyFacts = { ratesSet: rateTableSchema }

export type CostKind = z.infer<typeof costKindSchema>
export type Cost = z.infer<typeof costSchema>
export type RateTable = z.infer<typeof rateTableSchema>
