import type { CarState, Moment } from '../car.ts'
import type { CarId } from '../ids.ts'
import { comparePlans } from '../plan/compare-plans.ts'
import type { Plan } from '../plan/plan.ts'
import { dateToDayIndex } from '../time/calendar.ts'
import { addDays, daysBetween, weekdayNumber } from '../time/local-date.ts'
import { localDateOf } from '../time/zone.ts'
import { workshopCalendar } from '../value/planned-value.ts'
import { targetKey } from '../value/target.ts'
import { isStorage, type WorkshopState } from '../workshop.ts'
import type { KeptPlan, PlanCarRow, PlanDay, PlanPersonRow, PlanView } from './plan-view-shapes.ts'
import type { NameOf } from './shared-views.ts'
import { targetWords } from './work-words.ts'

export interface PlanViewInput {
  readonly workshop: WorkshopState
  /** Cars in the order in which they were added, at least those of the plans. */
  readonly cars: readonly CarState[]
  /** The place of each in the order in which all were added: its hatching stays when others come. */
  readonly placeOf: (carId: CarId) => number
  readonly nameOf: NameOf
  readonly now: Moment
  readonly state: PlanView['state']
  readonly inForce: KeptPlan | null
  /** What the planner would do now; null when that is what is in force. */
  readonly proposal: Pick<KeptPlan, 'planId' | 'plan'> | null
}

/** So many ways of hatching tell cars apart. */
const HATCHES = 12

/** A plan reaches so far at most; more days are not shown. */
const MOST_DAYS = 3 * 366

export function planView(input: PlanViewInput): PlanView {
  const { workshop, cars, placeOf, now, state, inForce, proposal } = input
  const plans = [inForce?.plan, proposal?.plan].filter((plan) => plan !== undefined)
  const days = planDays(input, plans)
  const names = new Map(cars.map(({ id, name }) => [id, name]))
  const by = { zone: workshop.zone, nameOf: (id: CarState['id']) => names.get(id) ?? 'a car' }
  return {
    zone: workshop.zone,
    now,
    state,
    inForce,
    proposal:
      proposal === null ? null : { ...comparePlans(inForce?.plan ?? null, proposal.plan, by), ...proposal },
    bays: [...workshop.bays.values()]
      .filter((bay) => bay.active || plans.some(({ stays }) => stays.some(({ bayId }) => bayId === bay.id)))
      .map((bay) => ({ bayId: bay.id, name: bay.name, kinds: bay.kinds, storage: isStorage(bay) })),
    people: personRows(input, plans, days),
    cars: cars.flatMap((car) => carRow(car, placeOf(car.id) % HATCHES, plans)),
    days,
  }
}

function personRows(
  { workshop, nameOf }: PlanViewInput,
  plans: readonly Plan[],
  days: readonly PlanDay[],
): readonly PlanPersonRow[] {
  const [first = '', last = ''] = [days[0]?.date, days.at(-1)?.date]
  const isPlanned = (id: string): boolean =>
    plans.some(({ work }) => work.some(({ people }) => people.some((each) => each === id)))
  return [...workshop.people.values()]
    .filter(({ id, active }) => active || isPlanned(id))
    .map(({ id, skills, absences }) => ({
      personId: id,
      name: nameOf(id),
      skills,
      off: absences
        .filter(({ from, to }) => from <= last && to >= first)
        .map(({ from, to }) => ({ from: from < first ? first : from, to: to > last ? last : to })),
    }))
}

/** Cars that a plan has something of. */
function carRow(car: CarState, hatch: number, plans: readonly Plan[]): readonly PlanCarRow[] {
  const isOf = ({ carId }: { readonly carId: string }): boolean => carId === car.id
  const planned = plans.flatMap((plan) => plan.cars.filter(isOf))
  const visitId = planned.at(-1)?.visitId ?? car.currentVisit
  const visit = visitId === null ? undefined : car.visits.get(visitId)
  if (visit === undefined || !plans.some(({ stays, cars }) => cars.some(isOf) || stays.some(isOf))) return []
  const targets = plans.flatMap(({ work }) => work.filter(isOf).map(({ target }) => target))
  return [
    {
      carId: car.id,
      visitId: visit.id,
      name: car.name,
      shellNumber: car.shellNumber,
      hatch,
      promised: visit.promised,
      priority: visit.priority,
      workNames: Object.fromEntries(targets.map((target) => [targetKey(target), targetWords(car, target)])),
    },
  ]
}

/** From the Monday of this week to the day of the last finish or promise, at least to the Sunday after next. */
function planDays({ workshop, now }: PlanViewInput, plans: readonly Plan[]): readonly PlanDay[] {
  const { zone, holidays } = workshop
  const today = localDateOf(now, zone)
  const first = addDays(today, 1 - weekdayNumber(today))
  const ends = plans.flatMap(({ work, cars: planned, stays, moves }) => [
    ...work.map(({ finish }) => finish),
    ...moves.map(({ finish }) => finish),
    ...stays.map(({ to }) => to),
    ...planned.flatMap(({ finish, finish80 }) => [finish ?? now, finish80 ?? now]),
  ])
  const promises = plans.flatMap(({ cars: planned }) => planned.flatMap(({ promised }) => promised ?? []))
  const lastFinish = localDateOf(
    ends.reduce((last, each) => Math.max(last, each), now),
    zone,
  )
  const last = [lastFinish, addDays(first, LEAST_DAYS - 1), ...promises].toSorted().at(-1) ?? first
  const calendar = workshopCalendar(workshop)
  const names = new Map(holidays.map(({ date, name }) => [date, name]))
  return Array.from({ length: Math.min(MOST_DAYS, daysBetween(first, last) + 1) }, (_, index) => {
    const day = calendar.day(dateToDayIndex(first) + index)
    const date = addDays(first, index)
    return {
      date,
      from: day.startMs,
      to: day.endMs,
      spans: day.spans.map(({ startMs, endMs }) => ({ from: startMs, to: endMs })),
      holiday: names.get(date) ?? null,
    }
  })
}

const LEAST_DAYS = 14
