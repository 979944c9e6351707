import type { CarState, Stamp, VisitState } from '../car.ts'
import { moneyWords } from '../text/money-words.ts'
import { hours } from '../text/words.ts'
import { repairName, targetWords } from '../views/work-words.ts'
import { bookChapter, bookSection, tableBlock } from './car-book-blocks.ts'
import type { BookBlock, BookChapter, BookSection } from './car-book-shapes.ts'
import { amountWords, type BookTelling, dateOf, dayOf } from './car-book-telling.ts'

/** What was agreed in hours, what it was to cost and what was bought; amounts and rates only where prices may leave. */
export function agreedChapter(telling: BookTelling): BookChapter | null {
  const visits = [...telling.car.visits.values()]
  const { prices } = telling.choices
  return bookChapter('What was agreed', prices ? 'In hours and in money without tax' : 'In hours', [
    ...visits.map((visit, index) =>
      estimateSection(
        telling,
        visit,
        visits.length === 1 ? 'The estimate' : `The estimate of visit ${index + 1}`,
      ),
    ),
    bookSection('Bought and paid', spendingBlocks(telling)),
    bookSection('Rates', prices ? rateBlocks(telling) : []),
  ])
}

function estimateSection(telling: BookTelling, { lines, costs }: VisitState, heading: string): BookSection {
  const { car } = telling
  const acceptedOn = (accepted: Stamp | null): string =>
    accepted === null ? 'not yet' : dayOf(telling, accepted.happened)
  return bookSection(
    heading,
    tableBlock(
      [
        ['Work', 4],
        ['Agreed', 1],
        ['Paid by', 1.2],
        ['Accepted', 1.8],
      ],
      byWork(car, [...lines.values()]).map(({ name, agreed, payer, accepted }) => [
        name,
        hours(agreed),
        `the ${payer}`,
        acceptedOn(accepted),
      ]),
    ),
    tableBlock(
      [
        ['Cost', 4],
        ['Agreed', 1],
        ['Paid by', 1.2],
        ['Accepted', 1.8],
      ],
      [...costs.values()].map((cost) => [
        `${cost.name} (${cost.kind})`,
        amountWords(telling, cost.amount),
        `the ${cost.payer}`,
        acceptedOn(cost.accepted),
      ]),
    ),
  )
}

type Line = VisitState['lines'] extends ReadonlyMap<unknown, infer L> ? L : never

interface AgreedWork {
  readonly name: string
  readonly agreed: number
  readonly payer: Line['payer']
  readonly accepted: Stamp | null
}

/** Gates of a repair that the same payer accepted at the same time are one row. */
function byWork(car: CarState, lines: readonly Line[]): readonly AgreedWork[] {
  const rows = Map.groupBy(lines, ({ target, payer, accepted }) =>
    [target.kind === 'gate' ? target.repairId : target.taskId, payer, accepted?.number ?? ''].join(' '),
  )
  return [...rows.values()].flatMap(([first, ...more]) => {
    if (first === undefined) return []
    const { target, payer, accepted } = first
    const name = target.kind === 'gate' ? repairName(car, target.repairId) : targetWords(car, target)
    const agreed = more.reduce((sum, line) => sum + line.agreed, first.agreed)
    // Hours that moved to another repair leave nothing here.
    return agreed === 0 ? [] : [{ name, agreed, payer, accepted }]
  })
}

function spendingBlocks(telling: BookTelling): readonly BookBlock[] {
  return tableBlock(
    [
      ['Day', 1.8],
      ['What', 4],
      ['Amount', 1.2],
      ['Paid by', 1.2],
    ],
    [...telling.car.spendings.values()].map(({ date, name, kind, amount, payer }) => [
      dateOf(date),
      `${name} (${kind})`,
      amountWords(telling, amount),
      `the ${payer}`,
    ]),
  )
}

function rateBlocks({ context: { workshop } }: BookTelling): readonly BookBlock[] {
  return tableBlock(
    [
      ['From', 1.8],
      ['Work', 4],
      ['An hour', 1.2],
    ],
    workshop.rates.flatMap(({ from, usual, bySkill }) => [
      [dateOf(from), 'all other work', moneyWords(usual, workshop.currency)],
      ...bySkill.map(({ skill, perHour }) => [dateOf(from), skill, moneyWords(perHour, workshop.currency)]),
    ]),
  )
}
