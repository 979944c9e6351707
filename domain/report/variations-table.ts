import type { CarState, VariationState } from '../car.ts'
import { variationStanding } from '../money/agreed-hours.ts'
import { labourOfLines } from '../money/labour-of-lines.ts'
import { minorDigits } from '../text/money-words.ts'
import { dateIn } from '../value/local-dates.ts'
import { isElsewhere } from '../value/own-visits.ts'
import type { ViewContext } from '../views/view-context.ts'
import type { Cell, Column, LongTable, Row } from './table.ts'

/**
 * Every variation, car by car; person-hours, and money in the main unit of the workshop's currency, so for managers. What
 * was accepted is empty while the answer waits and 0 where the work is not carried out. Labour goes by the rates of the day
 * of the answer, or of today while it waits, and is empty where hours have no rate.
 */
export function variationsTable(cars: Iterable<CarState>, context: ViewContext): LongTable {
  const columns = columnsIn(context.workshop.currency)
  return { name: 'Variations', columns, rows: variationsRows(cars, context) }
}

/** Those of a car at once, as it may change before the next row is asked for. */
function* variationsRows(cars: Iterable<CarState>, context: ViewContext): Generator<Row> {
  for (const car of cars)
    yield* [...car.variations.values()]
      .filter(({ visitId }) => !isElsewhere(car, visitId))
      .map((variation) => variationRow(car, variation, context))
}

const columnsIn = (currency: string): readonly Column[] => [
  { head: 'Car', kind: 'text' },
  { head: 'Shell number', kind: 'text' },
  { head: 'Payer', kind: 'text' },
  { head: 'Title', kind: 'text' },
  { head: 'Raised on', kind: 'date' },
  { head: 'Decided on', kind: 'date' },
  { head: 'Answer came by', kind: 'text' },
  { head: 'Status', kind: 'text' },
  { head: 'Asked at the least h', kind: 'hours' },
  { head: 'Asked most likely h', kind: 'hours' },
  { head: 'Asked at the most h', kind: 'hours' },
  { head: 'Accepted h', kind: 'hours' },
  { head: `Labour asked ${currency}`, kind: 'money' },
  { head: `Parts, materials and outside work asked ${currency}`, kind: 'money' },
  { head: `Labour accepted ${currency}`, kind: 'money' },
  { head: `Parts, materials and outside work accepted ${currency}`, kind: 'money' },
]

function variationRow(car: CarState, variation: VariationState, context: ViewContext): Row {
  const { payer, title, raised, decided, status, asked, askedCosts } = variation
  const { zone, currency } = context.workshop
  const decidedOn = decided === null ? null : dateIn(zone, decided.happened)
  return [
    car.name,
    car.shellNumber,
    payer,
    title,
    dateIn(zone, raised.happened),
    decidedOn,
    decided?.how ?? null,
    status,
    sumOf(asked, ({ low }) => low),
    sumOf(asked, ({ hours }) => hours),
    sumOf(asked, ({ high }) => high),
    ...acceptedHours(variation, zone),
    ...inMainUnit(
      [
        labourOfLines(car, asked, decidedOn ?? context.today, context.workshop),
        sumOf(askedCosts, ({ amount }) => amount),
        ...acceptedMoney(car, variation, context),
      ],
      currency,
    ),
  ]
}

function acceptedHours(variation: VariationState, zone: string): readonly Cell[] {
  const standing = variationStanding(variation, zone)
  if (standing === null) return [0]
  return [standing.agreed === null ? null : sumOf(variation.lines, ({ hours }) => hours)]
}

/** Labour and goods, minor units. */
function acceptedMoney(
  car: CarState,
  variation: VariationState,
  context: ViewContext,
): readonly [number | null, number | null] {
  const standing = variationStanding(variation, context.workshop.zone)
  if (standing === null) return [0, 0]
  if (standing.agreed === null) return [null, null]
  const labour = labourOfLines(car, variation.lines, standing.agreed, context.workshop)
  return [labour, sumOf(variation.costs, ({ amount }) => amount)]
}

const inMainUnit = (amounts: readonly (number | null)[], currency: string): readonly Cell[] =>
  amounts.map((amount) => (amount === null ? null : amount / 10 ** minorDigits(currency)))

const sumOf = <T>(items: readonly T[], figure: (item: T) => number): number =>
  items.reduce((sum, item) => sum + figure(item), 0)
