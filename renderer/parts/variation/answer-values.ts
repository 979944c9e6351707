import { z } from 'zod'
import type { CommandPayload } from '../../../domain/commands/command-shapes.ts'
import { ANSWERED_BY } from '../../../domain/facts/agreement-facts.ts'
import { optionalNoteSchema } from '../../../domain/facts/shapes.ts'
import { moneyWords } from '../../../domain/text/money-words.ts'
import { hours } from '../../../domain/text/words.ts'
import type { VariationView } from '../../../domain/views/view-shapes.ts'
import { clockTimeSchema } from '../clock/clock-time.ts'
import { minorToMajor, typedMoneySchema } from '../form/money-amount.ts'

export const ANSWERS = ['accepted', 'changed', 'declined'] as const
export type Answer = (typeof ANSWERS)[number]

/** @param currency of the amounts, which are typed in its major unit */
export const answerSchema = (currency: string) =>
  z.object({
    answer: z.enum(ANSWERS),
    /** One for each line of the variation, in its order. */
    hours: z.array(
      z
        .number({ error: 'Give a figure, like 4.5; 0 for none.' })
        .min(-10_000, 'Less than 10,000 hours, please.')
        .max(10_000, 'Less than 10,000 hours, please.'),
    ),
    /** One for each of its costs. */
    amounts: z.array(typedMoneySchema(currency)),
    how: z.enum(ANSWERED_BY),
    date: z.iso.date('Give a date.'),
    time: clockTimeSchema,
    note: optionalNoteSchema,
  })

export type AnswerValues = z.output<ReturnType<typeof answerSchema>>

/** As it was asked, to be changed where the payer said otherwise. */
export const askedValues = ({ lines, costs }: VariationView, currency: string) => ({
  hours: lines.map(({ asked }) => asked.likely),
  amounts: (costs ?? []).map(({ asked }) => minorToMajor(asked, currency)),
})

/** What was accepted instead; null when it is what was asked for. */
export function changedOf(
  { lines, costs }: VariationView,
  { hours: accepted, amounts }: Pick<AnswerValues, 'hours' | 'amounts'>,
): CommandPayload<'decideVariation'>['changed'] {
  const changed = {
    lines: lines.map(({ target, asked }, index) => ({ target, hours: accepted[index] ?? asked.likely })),
    costs: (costs ?? []).map(({ costId, asked }, index) => ({ costId, amount: amounts[index] ?? asked })),
  }
  const isSame =
    changed.lines.every((line, index) => line.hours === lines[index]?.asked.likely) &&
    changed.costs.every(({ amount }, index) => amount === costs?.[index]?.asked)
  return isSame ? null : changed
}

/** What the manager signs for, line by line. */
export function answerWords(
  variation: VariationView,
  values: AnswerValues,
  changed: ReturnType<typeof changedOf>,
  currency: string,
): readonly string[] {
  const { title, lines, costs, asked } = variation
  const whole =
    changed === null
      ? `${hours(asked.likely)}, answered by ${values.how}`
      : `Asked ${hours(asked.likely)}, accepted ${hours(changed.lines.reduce((sum, line) => sum + line.hours, 0))}, answered by ${values.how}`
  const parts =
    changed === null
      ? []
      : [
          ...changed.lines.map(
            (line, index) =>
              `${lines[index]?.what ?? 'work'}: ${hours(line.hours)} of ${hours(lines[index]?.asked.likely ?? 0)}`,
          ),
          ...changed.costs.map(
            ({ amount }, index) =>
              `${costs?.[index]?.name ?? 'cost'}: ${moneyWords(amount, currency)} of ${moneyWords(costs?.[index]?.asked ?? 0, currency)}`,
          ),
        ]
  return [title, whole, ...parts, ...(values.note === '' ? [] : [values.note])]
}
