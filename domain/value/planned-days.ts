import type { CarState, VisitState } from '../car.ts'
import { authorisedAmounts, type AuthorisedAmount } from './authorised-amounts.ts'
import type { HoursContext, IsCounted } from './entry-hours.ts'
import { figuresOf } from './hours.ts'
import type { DayShare, PlannedDay } from './planned-value.ts'
import { targetKey } from './target.ts'

/** By amount: the days on which the plan that it was authorised under has its work; nothing where no plan has. */
export type PlannedAmounts = ReadonlyMap<AuthorisedAmount['id'], readonly DayShare[]>

/**
 * Planned value of a visit by local date. Each authorised amount lies on the days of its own plan, so that what is accepted
 * later moves nothing that was planned before. Hours that are given back leave their days too, as they leave the
 * authorised ones; less work that no plan knows is taken off the days of its gate or task alike. What is authorised and in
 * no plan has no planned value.
 */
export function plannedDays(
  car: CarState,
  visit: VisitState,
  planned: PlannedAmounts,
  context: HoursContext,
  isCounted: IsCounted | null = null,
): readonly PlannedDay[] {
  const amounts = authorisedAmounts(car).filter(({ visitId }) => visitId === visit.id)
  const figures = figuresOf(car, visit, context, isCounted)
  return [...Map.groupBy(amounts, ({ target }) => targetKey(target))].flatMap(([key, own]) => {
    if (isCounted !== null && !isCounted(key)) return []
    const hours = figures.get(key)?.hours ?? { authorised: 0, givenBack: 0 }
    const whole = hours.authorised + hours.givenBack
    const kept = hours.givenBack === 0 ? 1 : hours.authorised / whole
    return daysOfTarget(own, planned, kept)
  })
}

function daysOfTarget(
  amounts: readonly AuthorisedAmount[],
  planned: PlannedAmounts,
  kept: number,
): readonly PlannedDay[] {
  const inPlan = amounts.filter(({ id }) => isPlanned(planned, id))
  const known = sumOf(inPlan)
  const taken = sumOf(amounts.filter(({ id, hours }) => hours < 0 && !isPlanned(planned, id)))
  const part = known > 0 ? (kept * Math.max(0, known + taken)) / known : kept
  return inPlan.flatMap(({ id, target, hours }) =>
    (planned.get(id) ?? [])
      .map(({ date, share }) => ({ target, date, hours: hours * share * part }))
      .filter((day) => day.hours !== 0),
  )
}

const isPlanned = (planned: PlannedAmounts, id: string): boolean => (planned.get(id)?.length ?? 0) > 0

const sumOf = (amounts: readonly AuthorisedAmount[]): number =>
  amounts.reduce((sum, { hours }) => sum + hours, 0)
