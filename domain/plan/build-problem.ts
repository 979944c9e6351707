import type { CarState, Moment } from '../car.ts'
import type { ThreePoint, WorkTarget } from '../facts/shapes.ts'
import type { BayId, BookingId, CarId, PersonId, RepairId, VisitId } from '../ids.ts'
import { isDone } from '../rules/standing.ts'
import { dateToDayIndex } from '../time/calendar.ts'
import type { WorkshopState } from '../workshop.ts'
import { type DraftPlan, draftPlan } from './build/draft-plan.ts'
import type { DraftWork } from './build/draft-work.ts'
import type { EarliestStart } from './build/earliest.ts'
import { firstRanks } from './build/first-ranks.ts'
import { TICKS_PER_HOUR, type TickScale } from './build/tick-scale.ts'
import type { PlanInput } from './plan-input.ts'
import type { PlanFault } from './plan.ts'
import { type Activity, type Link, type Problem, TICK_MINUTES } from './problem.ts'

/** A problem with what its numbers stand for, so that an answer can be read back. */
export interface BuiltProblem {
  readonly problem: Problem
  /** Epoch ms of tick 0: now, rounded up to a tick. */
  readonly origin: Moment
  readonly zone: string
  /** By activity. */
  readonly work: readonly BuiltWork[]
  /** By car. Cars that are not in work are there for their bookings only and come last. */
  readonly carIds: readonly CarId[]
  readonly visitIds: readonly (VisitId | null)[]
  readonly cars: readonly BuiltCar[]
  readonly bayIds: readonly BayId[]
  readonly bayNames: readonly string[]
  readonly personIds: readonly PersonId[]
  readonly personNames: readonly string[]
  /** By car and booking. */
  readonly bookingIds: readonly (readonly BookingId[])[]
  readonly idle: readonly IdleCar[]
  /** What was left out or not taken as pinned. */
  readonly faults: readonly PlanFault[]
}

/** What is said of a car beside its work. */
export interface BuiltCar {
  readonly name: string
  readonly promised: string | null
  readonly priority: number
  /** False when some of its work was left out. */
  readonly whole: boolean
}

/** A car in a bay for one, with nothing to plan that needs a bay: the plan takes it for gone from there. */
export interface IdleCar {
  readonly carId: CarId
  readonly name: string
  readonly bay: number
}

/** What an activity stands for. */
export interface BuiltWork {
  readonly carId: CarId
  readonly visitId: VisitId
  readonly target: WorkTarget
  /** Null for a task. */
  readonly repairId: RepairId | null
  /** 'Sill, left: welded', or the task's name. */
  readonly name: string
  /** Person-hours that are left. */
  readonly hours: number
  readonly begun: boolean
  readonly pinned: { readonly people: boolean; readonly day: boolean }
  /** Person-hours that are left, at three points. */
  readonly points: ThreePoint
  /** Whether what its repair hides is known; true for a task. */
  readonly assessed: boolean
  /** What keeps it from starting, apart from other work, people and bays. */
  readonly earliest: readonly EarliestStart[]
}

/**
 * The planner's problem for a workshop as it stands: every open gate and task of the visits in work, with what is left of
 * it. Bad input does not throw: what cannot be planned is left out with what follows it, and named in `faults`.
 */
export function buildProblem(input: PlanInput): BuiltProblem {
  const draft = draftPlan(input)
  const kept = [...draft.work.keys()].filter((index) => !draft.out.has(index))
  const numbers = new Map(kept.map((index, number) => [index, number]))
  const { people, floor, cars, placed } = draft
  return {
    problem: toProblem(draft, kept, numbers, input.workshop),
    origin: draft.scale.origin,
    zone: draft.scale.zone,
    work: kept.map((index) => builtWork(draft, index)),
    carIds: cars.map(({ id }) => id),
    visitIds: cars.map(({ currentVisit }) => currentVisit),
    cars: builtCars(draft),
    bayIds: floor.bayIds,
    bayNames: floor.bayIds.map((id) => input.workshop.bays.get(id)?.name ?? 'a bay'),
    personIds: people.ids,
    personNames: people.ids.map(input.nameOf),
    bookingIds: placed.bookingIds,
    idle: idleCars(input.cars, draft),
    faults: draft.faults,
  }
}

type Numbers = ReadonlyMap<number, number>

function toProblem(
  draft: DraftPlan,
  kept: readonly number[],
  numbers: Numbers,
  workshop: WorkshopState,
): Problem {
  const { people, floor, placed, scale, lastDate } = draft
  const links = draft.links.flatMap(({ before, after, lag }): Link[] => {
    const [from, to] = [numbers.get(before), numbers.get(after)]
    return from === undefined || to === undefined ? [] : [{ before: from, after: to, lag }]
  })
  return {
    horizon: scale.dayEnd(lastDate),
    midnights: midnights(scale, lastDate),
    calendars: people.calendars,
    people: people.calendarOf.map((calendar) => ({ calendar })),
    bays: floor.bays,
    resources: draft.fixtures.resources,
    cars: placed.cars,
    activities: toActivities(draft, kept, links, workshop),
    links,
    ...toStands(draft, numbers),
    spans: draft.fixtures.spans
      .map((span) => ({ ...span, activities: span.activities.flatMap((each) => numbers.get(each) ?? []) }))
      .filter(({ activities }) => activities.length > 0),
    move: toMove(draft, workshop),
  }
}

function midnights({ today, calendar, from }: TickScale, lastDate: string): readonly number[] {
  const first = dateToDayIndex(today)
  return Array.from({ length: dateToDayIndex(lastDate) - first + 2 }, (_, day) =>
    from(calendar.day(first + day).startMs),
  )
}

function toActivities(
  draft: DraftPlan,
  kept: readonly number[],
  links: readonly Link[],
  { settings }: WorkshopState,
): readonly Activity[] {
  const { scale, work } = draft
  const drafts = kept.map((index) => work[index] as DraftWork)
  const ranks = firstRanks(
    drafts.map((each) => {
      const frozen = draft.frozenOf(each)
      const day = pinnedDay(draft, each)
      return {
        begun: each.left.begun,
        frozen: frozen === null ? null : scale.from(frozen.start),
        pinned: day === null ? null : scale.dayStart(day),
      }
    }),
    links,
  )
  const repairs = new Map([...new Set(drafts.map(repairKey))].map((key, index) => [key, index]))
  const watch = Math.ceil(settings.watchMinutes / TICK_MINUTES)
  return kept.map((index, number) => {
    const each = work[index] as DraftWork
    const crew = draft.crews[index]
    const day = pinnedDay(draft, each)
    return {
      work: workTicks(each),
      earliest: Math.max(0, ...(draft.earliest[index] ?? []).map(({ tick }) => tick)),
      latestStart: day === null ? null : scale.dayEnd(day) - 1,
      car: carNumber(draft, index),
      bayKind: each.plan.bayKind === null ? null : draft.floor.kindOf(each.plan.bayKind),
      crew: crew?.ok === true ? crew.crew : null,
      watch: each.plan.hotWork ? watch : 0,
      uses: [],
      tail: Math.ceil(each.plan.cureHours * TICKS_PER_HOUR),
      repair: repairs.get(repairKey(each)) ?? 0,
      first: ranks[number] ?? null,
      inForce: inForceTicks(draft, each),
    }
  })
}

/** Each of the crew does an equal part; no hours are a signature, and what is begun takes a tick at least. */
function workTicks({ left: { hours }, plan: { people } }: DraftWork): number {
  return hours === 0 ? 0 : Math.max(1, Math.round((hours * TICKS_PER_HOUR) / people))
}

/** A pinned day that has gone by pins nothing. */
function pinnedDay({ scale }: DraftPlan, { car, key }: DraftWork): string | null {
  const day = car.pins.get(key)?.day ?? null
  return day === null || day < scale.today ? null : day
}

/** What was to start before now counts as starting now: nobody can change that any more. */
function inForceTicks(draft: DraftPlan, work: DraftWork): Activity['inForce'] {
  const given = draft.inForceOf(work)
  if (given === null) return null
  return {
    start: Math.max(0, draft.scale.from(given.start)),
    crew: given.people.flatMap((id) => draft.people.numberOf(id) ?? []).toSorted((a, b) => a - b),
  }
}

const repairKey = ({ car, repair, key }: DraftWork): string => `${car.id} ${repair?.id ?? key}`

const carNumber = ({ cars, work }: DraftPlan, index: number): number | null => {
  const number = cars.indexOf((work[index] as DraftWork).car)
  return number === -1 ? null : number
}

/** Sides that nothing planned closes are left out: their own openings are, and those of other sides that they keep shut. */
function toStands(
  { stands: { stands, apart }, cars }: DraftPlan,
  numbers: Numbers,
): Pick<Problem, 'stands' | 'apart'> {
  const kept = stands.flatMap((stand, index) => {
    const until = numbers.get(stand.until)
    const from = stand.from === null ? null : numbers.get(stand.from)
    if (until === undefined || from === undefined) return []
    return [{ index, stand: { car: cars.findIndex(({ id }) => id === stand.carId), from, until } }]
  })
  const own = new Map(kept.map(({ index }, number) => [index, number]))
  return {
    stands: kept.map(({ stand }) => stand),
    apart: apart.flatMap(([a, b]) => {
      const [one, other] = [own.get(a), own.get(b)]
      return one === undefined || other === undefined ? [] : [[one, other] as const]
    }),
  }
}

/** Where fewer are at work than a move takes, all of them move the shell. */
function toMove({ people }: DraftPlan, { planning }: WorkshopState): Problem['move'] {
  const able = people.ids.flatMap((id, number) => (people.hasHours(id) ? [number] : []))
  return {
    work: Math.ceil(planning.moveMinutes / TICK_MINUTES),
    people: Math.min(planning.movePeople, able.length),
    able,
  }
}

function idleCars(cars: readonly CarState[], { work, floor }: DraftPlan): readonly IdleCar[] {
  const busy = new Set(work.filter(({ plan }) => plan.bayKind !== null).map(({ car }) => car))
  return cars.flatMap((car): IdleCar[] => {
    const bay = car.standing === null || busy.has(car) ? null : floor.bayOf(car.standing.bayId)
    return bay === null || floor.bays[bay]?.storage !== false ? [] : [{ carId: car.id, name: car.name, bay }]
  })
}

function builtCars({ cars, work, out }: DraftPlan): readonly BuiltCar[] {
  const incomplete = new Set([...out].map((index) => work[index]?.car))
  return cars.map((car) => {
    const visit = car.currentVisit === null ? undefined : car.visits.get(car.currentVisit)
    const { promised = null, priority = 1 } = visit ?? {}
    return { name: car.name, promised, priority, whole: !incomplete.has(car) }
  })
}

function builtWork(draft: DraftPlan, index: number): BuiltWork {
  const each = draft.work[index] as DraftWork
  const crew = draft.crews[index]
  const { repair, left } = each
  return {
    carId: each.car.id,
    visitId: each.visitId,
    target: each.target,
    repairId: repair?.id ?? null,
    name: each.name,
    hours: left.hours,
    begun: left.begun,
    pinned: { people: crew?.ok === true && crew.pinned, day: pinnedDay(draft, each) !== null },
    points: left.points,
    assessed: repair === null || isDone(repair, 'assessed'),
    earliest: draft.earliest[index] ?? [],
  }
}
