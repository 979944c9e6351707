import type { VisitState } from '../car.ts'
import { moneyWords } from '../text/money-words.ts'
import { dateRangeWords, hours } from '../text/words.ts'
import { type MoneySum, totalOf } from './money-sum.ts'
import type { PayerMoney, VisitMoney } from './visit-money.ts'

export interface MoneyWordsBy {
  /** ISO 4217, three letters. */
  readonly currency: string
  /** The year now: dates in it are said without their year. */
  readonly year: number
}

/** How the visit is charged, what its payers are asked for by it and what the workshop carries: a sentence each. */
export function chargeSentences(visit: VisitState, money: VisitMoney, by: MoneyWordsBy): readonly string[] {
  const payers = money.byPayer.filter(({ payer }) => payer !== 'workshop')
  const words = (sum: MoneySum) => sumWords(sum, by.currency)
  return [
    ...(visit.kind === 'warranty' ? ['A warranty visit: the workshop pays for its own work.'] : []),
    howCharged(visit),
    ...payers.map(({ payer, asked }) => `The ${payer} is asked for ${words(asked)}${askedNote(visit)}.`),
    ...carriedSentences(visit, money, payers, by),
    ...(visit.charge.by === 'fixed'
      ? []
      : payers
          .filter(({ beyond }) => !isNothing(beyond))
          .map(
            ({ payer, beyond }) =>
              `${words(beyond)} more went beyond what the ${payer} has authorised: it is not asked for until they accept a variation for it.`,
          )),
  ]
}

function howCharged({ charge }: VisitState): string {
  switch (charge.by) {
    case 'hour':
      return 'Charged by the hour: what is spent within what is authorised is paid for.'
    case 'fixed':
      return 'A fixed price: what is authorised is paid for, whatever it takes.'
    case 'capped':
      return `Charged by the hour up to ${hours(charge.capHours)}: further hours are the workshop’s.`
  }
}

const askedNote = ({ charge }: VisitState): string => (charge.by === 'fixed' ? '' : ' so far')

function carriedSentences(
  { charge }: VisitState,
  { cap }: VisitMoney,
  payers: readonly PayerMoney[],
  { currency }: MoneyWordsBy,
): readonly string[] {
  if (charge.by === 'capped' && cap !== null) {
    const used = `${hours(cap.usedHours)} are worked against the cap of ${hours(cap.capHours)}`
    return isNothing(cap.carried)
      ? [`${used}.`]
      : [`${used}: the workshop carries ${sumWords(cap.carried, currency)}.`]
  }
  if (charge.by !== 'fixed') return []
  return payers.flatMap(({ payer, expected, authorised }) => {
    const [whole, price] = [totalOf(expected), totalOf(authorised)]
    if (whole === null || price === null || hasUnpriced(expected, authorised)) return []
    if (whole === price) return [`The work for the ${payer} is expected to come to just that.`]
    return whole > price
      ? [
          `The work for the ${payer} is expected to come to ${moneyWords(whole, currency)}: the workshop carries ${moneyWords(whole - price, currency)}.`,
        ]
      : [
          `The work for the ${payer} is expected to come to ${moneyWords(whole, currency)}: ${moneyWords(price - whole, currency)} stay with the workshop.`,
        ]
  })
}

const hasUnpriced = (...sums: readonly MoneySum[]): boolean =>
  sums.some(({ unpricedHours }) => unpricedHours !== 0)

const isNothing = ({ labour, goods, unpricedHours }: MoneySum): boolean =>
  labour === 0 && goods === 0 && unpricedHours === 0

/** '€1,250.00', '€1,250.00 and 4.0 h without a rate', '4.0 h without a rate' */
function sumWords(sum: MoneySum, currency: string): string {
  const total = totalOf(sum)
  return joined(total, sum.unpricedHours, currency)
}

function joined(amount: number | null, unpricedHours: number, currency: string): string {
  const without = unpricedHours === 0 ? [] : [`${hours(unpricedHours)} without a rate`]
  return [...(amount === null ? [] : [moneyWords(amount, currency)]), ...without].join(' and ')
}

/**
 * Which days hours have no rate for; null when none is missing. A table of rates holds until the next one, so that the days
 * without one lie before the first.
 *
 * @param dates local dates, in order
 */
export function withoutRateWords(dates: readonly string[], hasRates: boolean, year: number): string | null {
  const [first, last] = [dates[0], dates.at(-1)]
  if (first === undefined || last === undefined) return null
  if (!hasRates) return 'No rates are set, so that hours have no money yet; set rates on the Workshop screen.'
  return `No rate is set for ${dateRangeWords(first, last, year)}; set rates on the Workshop screen.`
}
