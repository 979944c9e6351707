import type { Gate } from '../../domain/gates.ts'
import type { RepairView } from '../../domain/views/view-shapes.ts'
import type { When } from '../parts/frame/when.tsx'

interface Signed {
  readonly also: readonly string[]
  /** Local date and time it was done, unless now. */
  readonly date: string
  readonly time: string
  readonly coat: string
  readonly note: string
}

/** Line by line what is signed for, as the code dialog shows it. */
export function signWords(
  view: RepairView,
  next: NonNullable<RepairView['next']>,
  values: Signed,
  doers: string,
  isNow: boolean,
  when: When,
): readonly string[] {
  const more = values.also.length
  return [
    `${view.repair.name}, ${view.car.name}${more > 0 ? `, and ${more} more` : ''}`,
    SAYS[next.gate],
    `Done by ${doers}, ${isNow ? 'now' : `${when.day(values.date)}, ${values.time}`}`,
    ...(next.gate === 'painted' ? [`${values.coat} coat`] : []),
    ...next.holds.flatMap(({ released }) =>
      released === null ? [] : [`Released by ${released.by}: ${released.reason}`],
    ),
    ...(values.note === '' ? [] : [values.note]),
  ]
}

/** What passing each gate says. */
const SAYS: Readonly<Record<Gate, string>> = {
  opened: 'The covering metal is off and the cavity can be seen.',
  assessed: 'Every layer has a grade and a decision.',
  fabricated: 'Every repair section is made and let in; nothing behind its closing panel still needs metal.',
  sealed: 'The seams are sealed and every drain path is open.',
  primed: 'Bare metal that will be hidden is primed.',
  'trial-fitted': 'The last fit-up of each of its fit groups is good.',
  welded: 'The closing panel is on.',
  painted: 'It is painted, as the coat says.',
}
