import type { CarState } from '../car.ts'
import type { PersonId } from '../ids.ts'
import type { Plan } from '../plan/plan.ts'
import { openAway } from '../rules/standing.ts'
import { isStorage } from '../workshop.ts'
import { attentionGroups } from './attention-view.ts'
import { bookingViews } from './booking-view.ts'
import { currentVisit } from './car-header.ts'
import { type CarOnFloor, carOnFloor } from './car-on-floor.ts'
import { byUrgency } from './cars-view.ts'
import { clockViews, watchViews } from './clock-views.ts'
import { managersList } from './managers-list.ts'
import { peopleToday } from './people-today.ts'
import { photosToday } from './photos-today.ts'
import { todaySentences } from './today-sentences.ts'
import { createViewContext, type ViewContext, type ViewInput } from './view-context.ts'
import type { ShopFloorView } from './view-shapes.ts'
import { isOver } from '../visit-over.ts'

interface ShopFloorInput extends ViewInput {
  readonly cars: readonly CarState[]
  readonly by: PersonId | null
  /** The newest plan; null before a first one. */
  readonly plan: Plan | null
}

/**
 * Where every car is, what holds it and what needs the manager today. `by` is who looks: a technician has no manager's
 * list; without a person the device shows it. Delivered cars are left out.
 */
export function shopFloorView({ cars, by, plan, ...input }: ShopFloorInput): ShopFloorView {
  const context = createViewContext(input)
  const { workshop, at } = context
  const isForManager = by === null || workshop.people.get(by)?.roles.includes('manager') === true
  const floor = cars
    .filter((car) => !isOver(currentVisit(car)))
    .map((car) => carOnFloor(car, context))
    .toSorted((a, b) => byUrgency(a.line, b.line))
  const clockedOn = clockViews(cars, 'running', context)
  return {
    now: at,
    workshop: workshop.name,
    clockedOn,
    ...peopleToday(new Set(clockedOn.map(({ personId }) => personId)), context),
    photosToday: photosToday(cars, context),
    bays: bayViews(floor, context),
    away: awayViews(floor, context),
    nowhere: floor.filter(isNowhere).map(({ line }) => line),
    watches: watchViews(cars, context),
    forYou: managersList(floor, isForManager, context),
    attention: isForManager ? attentionGroups(cars, context) : [],
    today: todaySentences(floor, context),
    finishes: plan?.cars.map(({ carId, finish80 }) => ({ carId, finish80 })) ?? [],
  }
}

function bayViews(floor: readonly CarOnFloor[], context: ViewContext): ShopFloorView['bays'] {
  const cars = Map.groupBy(
    floor.filter(({ car }) => car.standing !== null),
    ({ car }) => car.standing?.bayId,
  )
  const bookings = Map.groupBy(
    floor.flatMap(({ car }) => bookingViews(car, context)),
    ({ bayId }) => bayId,
  )
  return [...context.workshop.bays.values()]
    .filter(({ id, active }) => active || cars.has(id))
    .map((bay) => ({
      id: bay.id,
      name: bay.name,
      kinds: bay.kinds,
      storage: isStorage(bay),
      floor: bay.floor,
      cars: (cars.get(bay.id) ?? []).map(({ line }) => line),
      bookings: (bookings.get(bay.id) ?? []).toSorted((a, b) => a.from.localeCompare(b.from)),
    }))
}

function awayViews(floor: readonly CarOnFloor[], { today, nameOf }: ViewContext): ShopFloorView['away'] {
  return floor.flatMap(({ car, line }) => {
    const away = openAway(car)
    if (away === null) return []
    const { id, firmId, what, expected } = away
    return [{ ...line, awayId: id, firm: nameOf(firmId), what, expected, overdue: expected < today }]
  })
}

/** Neither in a bay nor away: a car that has not come yet, or that nobody has put anywhere. */
const isNowhere = ({ car }: CarOnFloor): boolean => car.standing === null && openAway(car) === null
