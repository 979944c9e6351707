import type { CarState } from '../car.ts'
import { carWarnings } from '../watch/car-warnings.ts'
import { ownClocksPastDay } from '../watch/clocks.ts'
import { byWorst, type Warning } from '../watch/warning.ts'
import type { AttentionGroup, AttentionLine } from './attention-shapes.ts'
import { clockWords, saidOf } from './attention-words.ts'
import type { ViewContext } from './view-context.ts'

/** What somebody should look at on these cars and on the workshop's own clocks, each with the way to it. */
export function attentionGroups(cars: readonly CarState[], context: ViewContext): readonly AttentionGroup[] {
  const own = ownClocksPastDay(context)
  return toGroups(
    [
      ...cars.flatMap((car) => carWarnings(car, context).map((warning) => ({ car, warning }))),
      ...own.map((warning) => ({ car: null, warning })),
    ],
    context,
  )
}

/** The same for one car. */
export const carAttention = (car: CarState, context: ViewContext): readonly AttentionGroup[] =>
  toGroups(
    carWarnings(car, context).map((warning) => ({ car, warning })),
    context,
  )

/** The car is null where it is the workshop's own time. */
interface Found {
  readonly car: CarState | null
  readonly warning: Warning
}

const TITLES: Readonly<Record<Warning['kind'], string>> = {
  'not authorised': 'Hours that nobody has authorised',
  clock: 'Clocks past the end of the day',
  'over authorised': 'More hours than authorised',
  overrun: 'Past the 80 % mark',
  'after the end': 'Hours on finished work',
}

function toGroups(found: readonly Found[], context: ViewContext): readonly AttentionGroup[] {
  const sorted = found.toSorted((a, b) => byWorst(a.warning, b.warning))
  return [...Map.groupBy(sorted, ({ warning }) => warning.kind)].map(([kind, of]) => ({
    title: TITLES[kind],
    lines: of.flatMap((each) => toLine(each, context)),
  }))
}

function toLine({ car, warning }: Found, context: ViewContext): readonly AttentionLine[] {
  const { key, since } = warning
  if (car === null)
    return warning.kind === 'clock'
      ? clockWords(null, warning, context).map((said) => ({
          key,
          since,
          carName: context.workshop.name,
          ...said,
        }))
      : []
  return saidOf(car, warning, context).map((said) => ({
    key: `${car.id} ${key}`,
    since,
    carName: car.name,
    ...said,
  }))
}
