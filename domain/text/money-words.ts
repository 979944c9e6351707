/**
 * An amount in words of figures, like '€1,250.00'. Whole amounts of a currency without minor units have no decimals.
 *
 * @param amount in the currency's minor unit (cents)
 * @param currency ISO 4217, three letters
 */
export function moneyWords(amount: number, currency: string): string {
  const format = moneyFormat(currency)
  return format.format(amount / 10 ** minorDigits(currency))
}

/** Decimals of a currency: 2 for most, 0 or 3 for some (ISO 4217, by the platform's Intl). */
export const minorDigits = (currency: string): number =>
  moneyFormat(currency).resolvedOptions().maximumFractionDigits ?? 2

const formats = new Map<string, Intl.NumberFormat>()

function moneyFormat(currency: string): Intl.NumberFormat {
  const known = formats.get(currency) ?? new Intl.NumberFormat('en-GB', { style: 'currency', currency })
  formats.set(currency, known)
  return known
}
