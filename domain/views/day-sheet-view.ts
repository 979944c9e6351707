import type { CarState, EntryState, Moment } from '../car.ts'
import type { Gate } from '../gates.ts'
import type { PersonId, RepairId } from '../ids.ts'
import type { Plan } from '../plan/plan.ts'
import { gateAsks } from '../rules/asks.ts'
import { NO_SKILL } from '../rules/work-holds.ts'
import { dateToIsoWeek, isoWeekDates } from '../time/iso-week.ts'
import { dayEnd, dayStart } from '../time/zone.ts'
import { entryHours } from '../value/entry-hours.ts'
import { targetHours } from '../value/hours.ts'
import { personDayEnd } from '../value/person-day.ts'
import { perRevision } from '../value/per-revision.ts'
import { targetKey } from '../value/target.ts'
import { type CarOnFloor, carOnFloor } from './car-on-floor.ts'
import { isInWork } from './car-line.ts'
import { byUrgency } from './cars-view.ts'
import { clockView, clockViews, watchViews } from './clock-views.ts'
import { byLatest, entryView } from './entry-view.ts'
import { gateMarks } from './gate-marks.ts'
import { isPhotoAsk } from './photo-ask.ts'
import { sectionView } from './section-view.ts'
import { createViewContext, type ViewContext, type ViewInput } from './view-context.ts'
import type { AskView, DaySheetLine, DaySheetView } from './view-shapes.ts'
import type { WorkItem } from './work-items.ts'

interface DaySheetInput extends ViewInput {
  readonly cars: readonly CarState[]
  readonly personId: PersonId
  /** The plan in force; null before a first one was taken. */
  readonly plan: Plan | null
}

/** What one person can do now, in the order in which it should be done, and what waits and why. */
export function daySheetView({ cars, personId, plan, ...input }: DaySheetInput): DaySheetView {
  const context = createViewContext(input)
  const { workshop, at, nameOf } = context
  const skills = workshop.people.get(personId)?.skills ?? []
  const own = personEntries(cars, personId, context)
  const running = own.find(({ entry }) => entry.time.kind === 'running')
  const planned = plannedStarts(plan, personId)
  const work = personWork(cars, new Set(skills), { running, planned }, context)
  const line = (each: Work): DaySheetLine => dayLine(each, plannedStart(each, planned), context)
  return {
    now: at,
    personId,
    person: nameOf(personId),
    skills,
    clock: running === undefined ? null : (clockView(running.car, running.entry, context)[0] ?? null),
    hoursToday: hoursSince(own, context.today, context),
    hoursThisWeek: hoursSince(own, weekStart(context), context),
    dayEnds: personDayEnd(workshop, personId, at),
    entries: own.map(({ car, entry }) => entryView(car, entry, context)).toSorted(byLatest),
    watches: watchViews(cars, context),
    toConfirm: clockViews(cars, 'unconfirmed', context).filter((clock) => clock.personId === personId),
    canDo: work.filter(({ item }) => item.mayBeWorkedOn).map(line),
    waits: work.filter(({ item }) => !item.mayBeWorkedOn).map(line),
  }
}

interface OwnEntry {
  /** Null for time on the workshop itself. */
  readonly car: CarState | null
  readonly entry: EntryState
  /** The moment it starts, or its local date where it has no times. */
  readonly begins: Moment | string
}

interface Work extends CarOnFloor {
  readonly item: WorkItem
}

/** By visit and target key: when the plan has the person start. */
type PlannedStarts = ReadonlyMap<string, Moment>

function plannedStarts(plan: Plan | null, personId: PersonId): PlannedStarts {
  const own = plan?.work.filter(({ people }) => people.includes(personId)) ?? []
  return new Map(own.map(({ visitId, target, start }) => [`${visitId} ${targetKey(target)}`, start]))
}

const plannedStart = ({ car, item }: Work, planned: PlannedStarts): Moment | null =>
  planned.get(`${car.currentVisit} ${item.key}`) ?? null

/**
 * Next gates and tasks that the person has the skill for, on cars in work: what their clock runs on first, then what the
 * plan gives them in its order, then by the car's priority and promised date, then as the repairs were added.
 */
function personWork(
  cars: readonly CarState[],
  skills: ReadonlySet<string>,
  own: { readonly running: OwnEntry | undefined; readonly planned: PlannedStarts },
  context: ViewContext,
): readonly Work[] {
  const on = own.running?.entry.on
  const clocked = new Set(on?.kind === 'work' ? on.targets.map((target) => targetKey(target)) : [])
  const isOnClock = ({ item }: Work): number => Number(clocked.has(item.key))
  const start = (work: Work): number => plannedStart(work, own.planned) ?? Number.MAX_SAFE_INTEGER
  return cars
    .filter(isInWork)
    .map((car) => carOnFloor(car, context))
    .toSorted((a, b) => byUrgency(a.line, b.line))
    .flatMap((each) => each.items.map((item) => ({ ...each, item })))
    .filter(
      ({ item }) => item.plan.skill === NO_SKILL || skills.has(item.plan.skill) || clocked.has(item.key),
    )
    .toSorted((a, b) => isOnClock(b) - isOnClock(a) || start(a) - start(b))
}

function dayLine({ car, line, item }: Work, planned: Moment | null, context: ViewContext): DaySheetLine {
  const { work, holds, target, plan, name } = item
  const repair = work.kind === 'gate' ? work.repair : null
  const missing = holds.filter(({ broughtByWork, until }) => broughtByWork && until === null)
  return {
    carId: car.id,
    carName: car.name,
    body: car.body,
    shellNumber: car.shellNumber,
    place: line.place,
    repairId: repair?.id ?? null,
    taskId: work.kind === 'task' ? work.task.id : null,
    name,
    zone: repair?.plan.zone ?? null,
    gate: work.kind === 'gate' ? work.gate : null,
    hotWork: plan.hotWork,
    marks: repair === null ? [] : gateMarks(repair, holds, context.nameOf),
    hours: targetHours(car, car.currentVisit, target, context),
    likelyHours: plan.hours.likely,
    missing: missing.map(({ words }) => words),
    photoAsks: work.kind === 'gate' ? photoAsks(car, work.repair.id, work.gate) : [],
    holds,
    section: repair === null ? null : sectionView(car, repair),
    promised: line.promised,
    planned,
  }
}

const photoAsks = (car: CarState, repairId: RepairId, gate: Gate): readonly AskView[] =>
  gateAsks(car, repairId, gate).filter((ask) => !ask.met && isPhotoAsk(ask))

/** The person's entries of this week that count, and a clock that still runs from before it. */
function personEntries(
  cars: readonly CarState[],
  personId: PersonId,
  context: ViewContext,
): readonly OwnEntry[] {
  const isThisWeek = inDates(weekStart(context), context)
  const workshopOwn = [...context.workshop.entries.values()]
    .filter((entry) => entry.personId === personId && entry.gone === null)
    .map((entry) => datedEntry(null, entry))
  const onCars = cars.flatMap((car) => entriesByPerson(car).get(personId) ?? [])
  return [...onCars, ...workshopOwn].filter((own) => own.entry.time.kind === 'running' || isThisWeek(own))
}

function hoursSince(own: readonly OwnEntry[], from: string, context: ViewContext): number {
  return own.filter(inDates(from, context)).reduce((sum, { entry }) => sum + entryHours(entry, context), 0)
}

/** Monday of this week. */
const weekStart = ({ today }: ViewContext): string => isoWeekDates(dateToIsoWeek(today))[0] ?? today

/** Entries from a local date up to today; those with a start are compared as instants: a calendar reckoning for each is dear. */
function inDates(from: string, { today, workshop }: ViewContext): (own: OwnEntry) => boolean {
  const start = dayStart(from, workshop.zone)
  const end = dayEnd(today, workshop.zone)
  return ({ begins }) =>
    typeof begins === 'string' ? from <= begins && begins <= today : start <= begins && begins < end
}

/** Entries that count, by person, with their starts read: ten years of them are looked through on every visit of the screen. */
const entriesByPerson = perRevision((car): ReadonlyMap<PersonId, readonly OwnEntry[]> => {
  const counting = [...car.entries.values()].filter(({ gone }) => gone === null)
  return Map.groupBy(
    counting.map((entry) => datedEntry(car, entry)),
    ({ entry }) => entry.personId,
  )
})

const datedEntry = (car: CarState | null, entry: EntryState): OwnEntry => ({
  car,
  entry,
  begins: entry.time.kind === 'day' ? entry.time.date : Date.parse(entry.time.start),
})
