import type { PersonId } from '../ids.ts'
import { isPersonIn, personDayEnd } from '../value/person-day.ts'
import type { Person } from '../workshop.ts'
import type { ViewContext } from './view-context.ts'
import type { ShopFloorView } from './view-shapes.ts'

type PeopleToday = Pick<ShopFloorView, 'peopleIn' | 'notClocked' | 'awayToday'>

/** Who is in without a clock, and who does not come today; `clocked` are those whose clock runs, wherever they should be. */
export function peopleToday(clocked: ReadonlySet<PersonId>, context: ViewContext): PeopleToday {
  const { workshop, at, nameOf, today } = context
  const active = [...workshop.people.values()].filter((person) => person.active)
  const isIn = ({ id }: Person): boolean => isPersonIn(workshop, id, at)
  const named = ({ id }: Person) => ({ personId: id, person: nameOf(id) })
  const unclocked = active.filter(({ id }) => !clocked.has(id))
  return {
    peopleIn: active.filter(isIn).length,
    notClocked: unclocked.filter(isIn).map(named),
    awayToday: unclocked
      .filter(({ id }) => personDayEnd(workshop, id, at) === null)
      .map((person) => ({ ...named(person), until: absentUntil(person, today) })),
  }
}

function absentUntil({ absences }: Person, date: string): string | null {
  const last = absences
    .filter(({ from, to }) => from <= date && date <= to)
    .map(({ to }) => to)
    .toSorted()
  return last.at(-1) ?? null
}
