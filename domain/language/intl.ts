import { rounded } from '../text/words.ts'

/** Figures as a locale writes them, after the program's own rounding: halves go away from zero, and there is no -0. */
export function numbersOf(locale: string): (value: number, decimals: 0 | 1 | 2) => string {
  const [none, one, two] = [0, 1, 2].map(
    (decimals) =>
      new Intl.NumberFormat(locale, { minimumFractionDigits: decimals, maximumFractionDigits: decimals }),
  ) as [Intl.NumberFormat, Intl.NumberFormat, Intl.NumberFormat]
  const formats = { 0: none, 1: one, 2: two } as const
  return (value, decimals) => formats[decimals].format(rounded(value, decimals))
}

/** One or many, as a locale counts. Languages with more forms need their own. */
export function pluralOf(locale: string): (count: number, one: string, many: string) => string {
  const rules = new Intl.PluralRules(locale)
  return (count, one, many) => (rules.select(count) === 'one' ? one : many)
}

/** A local date's parts as a locale names them: day of the month and year in digits. */
export interface DateWords {
  readonly weekday: string
  readonly day: string
  readonly month: string
  readonly year: string
}

/** @param width how long the names of days and months are */
export function datesOf(locale: string, width: 'short' | 'long'): (date: string) => DateWords {
  const format = new Intl.DateTimeFormat(locale, {
    weekday: width,
    day: 'numeric',
    month: width,
    year: 'numeric',
    timeZone: 'UTC',
  })
  return (date) => {
    const parts = format.formatToParts(Date.parse(date))
    const of = (type: keyof DateWords): string => parts.find((part) => part.type === type)?.value ?? ''
    return { weekday: of('weekday'), day: of('day'), month: of('month'), year: of('year') }
  }
}

/** 'a, b and c' */
export function listOf(locale: string): (parts: readonly string[]) => string {
  const format = new Intl.ListFormat(locale)
  return (parts) => format.format(parts)
}
