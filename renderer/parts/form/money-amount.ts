import { z } from 'zod'
import { moneySchema } from '../../../domain/facts/money-facts.ts'
import { minorDigits, moneyWords } from '../../../domain/text/money-words.ts'
import { hours, plural } from '../../../domain/text/words.ts'
import type { AmountView } from '../../../domain/views/money-view.ts'

/**
 * An amount as people type it, in the currency's major unit; read as whole minor units.
 *
 * @param currency ISO 4217, three letters
 */
export function typedMoneySchema(currency: string) {
  const digits = minorDigits(currency)
  return z
    .number({ error: 'Give an amount.' })
    .refine((major) => isWhole(major * 10 ** digits), {
      error:
        digits === 0
          ? `Amounts in ${currency} have no decimals.`
          : `Amounts in ${currency} have at most ${plural('decimal', digits)}.`,
    })
    .transform((major) => Math.round(major * 10 ** digits))
    .pipe(moneySchema)
}

/** Within what doubles blur of a product of two. */
const isWhole = (value: number): boolean => Math.abs(value - Math.round(value)) < 1e-6

/** Minor units as they stand in a field. */
export const minorToMajor = (amount: number, currency: string): number => amount / 10 ** minorDigits(currency)

/** '€1,250.00'; '€1,250.00 + 4.0 h' when some hours have no rate, '4.0 h' when none has. */
export function amountWords({ total, unpricedHours }: AmountView, currency: string): string {
  const words = total === null ? [] : [moneyWords(total, currency)]
  return [...words, ...(unpricedHours === 0 ? [] : [hours(unpricedHours)])].join(' + ')
}
