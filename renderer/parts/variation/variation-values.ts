import { z } from 'zod'
import { costKindSchema } from '../../../domain/facts/money-facts.ts'
import { nameSchema, noteSchema, optionalNoteSchema, payerSchema } from '../../../domain/facts/shapes.ts'
import { type Gate, GATES } from '../../../domain/gates.ts'
import { attachmentIdSchema, costIdSchema, findingIdSchema, type RepairId } from '../../../domain/ids.ts'
import { labourMoney } from '../../../domain/money/money-sum.ts'
import type { VariationDraft } from '../../../domain/views/variation-draft.ts'
import type { HoursBand } from '../../../domain/views/variation-shapes.ts'
import type { FormControl } from '../form/fields.tsx'
import { typedMoneySchema } from '../form/money-amount.ts'

export const ENDS = ['low', 'likely', 'high'] as const

/** Hours of one gate as they are typed: null is empty, NaN is no figure. */
export type TypedBand = { readonly [End in (typeof ENDS)[number]]: number | null }
export const noBand: TypedBand = { low: null, likely: null, high: null }

const typedHours = z
  .number({ error: 'Give a figure, like 4.5.' })
  .min(-10_000, 'Less than 10,000 hours, please.')
  .max(10_000, 'Less than 10,000 hours, please.')
  .nullable()

export const bandSchema = z
  .object({ low: typedHours, likely: typedHours, high: typedHours })
  .superRefine((band, of) => {
    const { low, likely, high } = band
    const refuse = (end: (typeof ENDS)[number], message: string) =>
      of.addIssue({ code: 'custom', path: [end], message })
    if (likely === null) {
      if (low !== null || high !== null) refuse('likely', 'Give the likely hours too.')
      return
    }
    if (likely === 0 && (low ?? 0) + (high ?? 0) !== 0)
      refuse('likely', 'Likely cannot be 0 h: leave the gate empty.')
    if (low !== null && low > likely) refuse('low', `Low is more than likely: at most ${likely} h.`)
    if (high !== null && high < likely) refuse('high', `High is less than likely: at least ${likely} h.`)
  })

/** What a variation is raised from. @param currency of the amounts, which are typed in its major unit */
export const raiseSchema = (currency: string) =>
  z
    .object({
      payer: payerSchema,
      title: nameSchema,
      why: noteSchema,
      ifNot: optionalNoteSchema,
      findings: z.array(findingIdSchema),
      attachments: z.array(attachmentIdSchema).max(60, 'Choose at most 60 photos.'),
      hours: z.record(z.enum(GATES), bandSchema),
      costs: z.array(
        z.object({
          costId: costIdSchema,
          kind: costKindSchema,
          name: nameSchema,
          amount: typedMoneySchema(currency),
        }),
      ),
    })
    .refine(({ hours }) => gatesWithHours(hours).length > 0, {
      error: 'Give hours more or less on one gate at least.',
      path: ['hours'],
    })

export type RaiseInput = z.input<ReturnType<typeof raiseSchema>>
export type RaiseControl = FormControl<RaiseInput>

type TypedHours = Readonly<Record<Gate, TypedBand>>

/** An end that is left empty is as sure as the likely hours; null where there are none. */
export function bandOf({ low, likely, high }: TypedBand): HoursBand | null {
  if (likely === null || likely === 0 || Number.isNaN(likely)) return null
  return { low: low ?? likely, likely, high: high ?? likely }
}

/** The bands that count. */
function gatesWithHours(hours: TypedHours): readonly (HoursBand & { readonly gate: Gate })[] {
  return GATES.flatMap((gate) => {
    const band = bandOf(hours[gate])
    return band === null ? [] : [{ gate, ...band }]
  })
}

export const hoursToLines = (hours: TypedHours, repairId: RepairId) =>
  gatesWithHours(hours).map(({ gate, low, likely, high }) => ({
    target: { kind: 'gate' as const, repairId, gate },
    hours: likely,
    low,
    high,
  }))

/** The sum of the bands, and what its hours cost today in minor units; null as long as the hours of one gate have no rate. */
export function totalsOf(
  hours: TypedHours,
  perHour: VariationDraft['perHour'],
): { readonly band: HoursBand; readonly labour: HoursBand | null } {
  const bands = gatesWithHours(hours)
  const priced = bands.map((band) => {
    const rate = perHour?.[band.gate] ?? null
    const money = (value: number) => labourMoney(value, rate).labour
    return rate === null ? null : { low: money(band.low), likely: money(band.likely), high: money(band.high) }
  })
  const known = priced.filter((money) => money !== null)
  return { band: addBands(bands), labour: known.length < priced.length ? null : addBands(known) }
}

const addBands = (bands: readonly HoursBand[]): HoursBand =>
  bands.reduce(
    (sum, { low, likely, high }) => ({
      low: sum.low + low,
      likely: sum.likely + likely,
      high: sum.high + high,
    }),
    { low: 0, likely: 0, high: 0 },
  )
