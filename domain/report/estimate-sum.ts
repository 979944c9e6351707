import type { Payer } from '../facts/shapes.ts'
import { addMoney, totalOf } from '../money/money-sum.ts'
import { visitMoney } from '../money/visit-money.ts'
import { bandSentence } from '../text/likely-words.ts'
import { moneyWords } from '../text/money-words.ts'
import { hours, moreOrLess } from '../text/words.ts'
import { inSentence } from '../views/work-words.ts'
import { hoursPlain } from './estimate-repair-told.ts'
import { type EstimateTelling, section } from './estimate-telling.ts'
import type { FigureRow, ReportSection } from './owner-week-shapes.ts'
import { textBlock } from './report-blocks.ts'

const WHO: Readonly<Record<Payer, string>> = {
  owner: 'You',
  insurer: 'Your insurer',
  workshop: 'Our workshop',
}

/** Hours by who pays, with money where rates are set. */
export function sumSection(telling: EstimateTelling): ReportSection | null {
  const { estimate, context } = telling
  const { payers, whole } = estimate
  if (payers.length === 0) return null
  const moneyOf = moneyByPayer(telling)
  const figures = (accepted: number, waiting: number, money: string | null): readonly string[] => [
    hours(accepted),
    hours(waiting),
    ...(moneyOf === null ? [] : [money ?? '']),
  ]
  const rows: FigureRow[] = payers.map(({ payer, accepted, waiting }) => ({
    label: WHO[payer],
    figures: figures(accepted, waiting, moneyOf?.byPayer.get(payer) ?? null),
    isTotal: false,
  }))
  const total = { label: 'In all', figures: figures(whole.accepted, whole.waiting, moneyOf?.whole ?? null) }
  const head = ['', 'accepted', 'proposed', ...(moneyOf === null ? [] : ['money'])]
  return section('What it comes to', [
    { kind: 'figures', head, rows: payers.length === 1 ? rows : [...rows, { ...total, isTotal: true }] },
    ...(whole.band === null
      ? []
      : [textBlock(`The hours of all of it: ${inSentence(bandSentence(whole.band))}`)]),
    ...(whole.asked === 0 ? [] : [textBlock(askedText(whole.asked, moneyOf !== null))]),
    ...(moneyOf === null ? [] : [textBlock(moneyOf.note)]),
    ...(moneyOf === null && context.workshop.rates.length === 0
      ? [textBlock('The figures are hours; ask us for our rates.')]
      : []),
  ])
}

function askedText(asked: number, hasMoney: boolean): string {
  const money = hasMoney ? 'the money takes them in' : 'they are not among these'
  return `Variations of ${moreOrLess(asked, hoursPlain)} wait for an answer, because of what we found; ${money}.`
}

interface LetterMoney {
  readonly byPayer: ReadonlyMap<Payer, string>
  readonly whole: string
  readonly note: string
}

/** Accepted and proposed at today's and the agreed rates; null where not a single hour has a rate. */
function moneyByPayer({ car, visit, context }: EstimateTelling): LetterMoney | null {
  const { byPayer, whole } = visitMoney(car, visit, context)
  const { currency } = context.workshop
  const sums = byPayer.map(
    ({ payer, authorised, waiting }) => [payer, addMoney([authorised, waiting])] as const,
  )
  const all = addMoney([whole.authorised, whole.waiting])
  if (totalOf(all) === null) return null
  const words = (sum: typeof all): string => moneyWords(totalOf(sum) ?? 0, currency)
  const goods =
    all.goods === 0
      ? ''
      : ` They take in ${moneyWords(all.goods, currency)} for parts, materials and outside work.`
  const missing =
    all.unpricedHours === 0 ? '' : ` ${hours(all.unpricedHours)} have no rate yet and are not in them.`
  return {
    byPayer: new Map(sums.map(([payer, sum]) => [payer, words(sum)])),
    whole: words(all),
    note: `Amounts are without tax.${goods}${missing}`,
  }
}
