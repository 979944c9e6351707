import type { CarState, VisitState } from '../car.ts'
import type { WorkTarget } from '../facts/shapes.ts'
import { localDateOf } from '../time/zone.ts'
import type { HoursContext } from '../value/entry-hours.ts'
import { hoursToGo } from '../value/hours-to-go.ts'
import type { TargetFigures, VisitFigures } from '../value/hours.ts'
import { targetKey } from '../value/target.ts'
import { type AgreedHours, payerShares } from './agreed-hours.ts'
import { labourMoney, splitMoney } from './money-sum.ts'
import type { MoneyFigure, Posting } from './posting.ts'
import { rateOn, skillOf } from './rates.ts'
import type { SpentHours } from './spent-hours.ts'

export interface LabourInput {
  readonly agreed: ReadonlyMap<string, readonly AgreedHours[]>
  readonly figures: VisitFigures
  readonly spent: readonly SpentHours[]
  /** Local date. */
  readonly today: string
}

/** What the hours of a visit come to. */
export function labourPostings(
  car: CarState,
  visit: VisitState,
  input: LabourInput,
  context: HoursContext,
): readonly Posting[] {
  const { agreed, figures, spent, today } = input
  const { rates, zone } = context.workshop
  const estimated = [...figures.values()].flatMap((each) => {
    const own = agreed.get(targetKey(each.target)) ?? []
    const skill = skillOf(car, each.target)
    const price = (hours: number, date: string) => labourMoney(hours, rateOn(rates, date, skill))
    const toGo = hoursToGo(car, visit, each, context)
    return [
      ...own.flatMap((part) => agreedPostings(part, each, today, price)),
      ...own.map(({ payer, baseline }): Posting => {
        const date = cameIn(car, visit, each.target, zone)
        return { payer, figure: 'baseline', sum: price(baseline, date), date }
      }),
      ...toGoPostings(payerShares(car, each.target, own), price(toGo, today), today),
    ]
  })
  return [...estimated, ...spent.flatMap(spentPostings)]
}

/** Of authorised hours, what is given back leaves every part of them alike. */
function agreedPostings(
  { payer, hours, agreed }: AgreedHours,
  { hours: figures, standing }: TargetFigures,
  today: string,
  price: (hours: number, date: string) => Posting['sum'],
): readonly Posting[] {
  if (agreed === null) {
    const stillWaits = standing === 'open' || standing === 'passed'
    return stillWaits ? [{ payer, figure: 'waiting', sum: price(hours, today), date: today }] : []
  }
  const before = figures.authorised + figures.givenBack
  const kept =
    before === 0 ? Number(standing === 'open' || standing === 'passed') : figures.authorised / before
  const sum = price(hours * kept, agreed)
  const figuresOf: readonly MoneyFigure[] = standing === 'open' ? ['authorised'] : ['authorised', 'earned']
  return figuresOf.map((figure) => ({ payer, figure, sum, date: agreed }))
}

function toGoPostings(
  shares: ReturnType<typeof payerShares>,
  money: Posting['sum'],
  date: string,
): readonly Posting[] {
  const parts = splitMoney(
    money,
    shares.map(([, share]) => share),
  )
  return shares.flatMap(([payer], index) => {
    const sum = parts[index]
    return sum === undefined ? [] : [{ payer, figure: 'expected' as const, sum, date }]
  })
}

const spentPostings = ({ payer, date, moneyWithin, moneyBeyond }: SpentHours): readonly Posting[] => [
  ...(['spent', 'expected'] as const).flatMap((figure) => [
    { payer, figure, sum: moneyWithin, date },
    { payer, figure, sum: moneyBeyond, date },
  ]),
  { payer, figure: 'beyond', sum: moneyBeyond, date },
]

/** When a repair or task first stood in this visit: its estimate is made then. */
function cameIn(car: CarState, visit: VisitState, target: WorkTarget, zone: string): string {
  const added =
    target.kind === 'gate' ? car.repairs.get(target.repairId)?.added : car.tasks.get(target.taskId)?.added
  return localDateOf(Math.max(visit.opened.happened, added?.happened ?? 0), zone)
}
