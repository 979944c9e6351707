import type { CarState, VisitState } from '../car.ts'
import { activeRepairs, isFinished, openAway, standsOpen } from '../rules/standing.ts'
import { dayWords } from '../text/words.ts'
import { daysBetween } from '../time/local-date.ts'
import { dayStart, localDateOf } from '../time/zone.ts'
import { carHours } from '../value/hours.ts'
import { openEntries } from './clock-views.ts'
import { keepsFromWork } from './hold-view.ts'
import { carPhoto } from './photo-view.ts'
import { carFaults } from './repair-card.ts'
import type { HoldView } from './shared-views.ts'
import type { ViewContext } from './view-context.ts'
import type { CarHeader, CarLine } from './view-shapes.ts'
import { type WorkItem, workItems } from './work-items.ts'
import { inSentence } from './work-words.ts'

export const currentVisit = (car: CarState): VisitState | null =>
  (car.currentVisit && car.visits.get(car.currentVisit)) || null

export const isInWork = (car: CarState): boolean => currentVisit(car)?.status === 'in work'

export function carHeader(car: CarState, context: ViewContext): CarHeader {
  const visit = currentVisit(car)
  return {
    carId: car.id,
    revision: car.revision,
    shellNumber: car.shellNumber,
    name: car.name,
    body: car.body,
    year: car.year,
    owner: visit === null ? '' : context.nameOf(visit.ownerId),
    visitId: car.currentVisit,
    status: visit?.status ?? 'enquired',
    warranty: visit?.kind === 'warranty' && visit.from === null,
    cameFrom: visit?.from ?? null,
    promised: visit?.from === null ? visit.promised : null,
    priority: visit?.priority ?? 1,
    ...whereItStands(car, visit, context),
    hours: carHours(car, car.currentVisit, context),
    photo: carPhoto(car),
  }
}

/** `items` are the car's work items where they are known already; only a car in work has any. */
export function carLine(
  car: CarState,
  context: ViewContext,
  items: readonly WorkItem[] = carWork(car, context),
): CarLine {
  const header = carHeader(car, context)
  const repairs = activeRepairs(car)
  return {
    ...header,
    ...nextAndHeld(car, items, context),
    onIt: peopleOnIt(car, context),
    openRepairs: repairs.filter(standsOpen).length,
    finishedRepairs: repairs.filter(isFinished).length,
    repairs: repairs.length,
    decisionsOpen: [...car.variations.values()].filter(({ status }) => status === 'raised').length,
    faults: carFaults(car).map(({ words }) => words),
    latePromise: isLate(header, context),
  }
}

/** Cars whose visit is in work have something to do next; others do not, whatever is open on them. */
export const carWork = (car: CarState, context: ViewContext): readonly WorkItem[] =>
  isInWork(car) ? workItems(car, context) : []

/** Why an item cannot be worked on, as a sentence that names it. */
export function heldWords({ name }: WorkItem, hold: HoldView): string {
  return hold.words.startsWith(name) ? hold.words : `${name}: ${hold.words}`
}

/** Holds that say something by themselves: not that what covers a repair, or lies behind it, comes first. */
export const isRootHold = (hold: HoldView): boolean => keepsFromWork(hold) && !FOLLOWING.has(hold.code)

const FOLLOWING: ReadonlySet<HoldView['code']> = new Set(['order', 'uncover first', 'closed in order'])

type Where = Pick<CarHeader, 'place' | 'since' | 'daysThere' | 'fixture'>

function whereItStands(
  car: CarState,
  visit: VisitState | null,
  { workshop, today, nameOf }: ViewContext,
): Where {
  const daysSince = (moment: number): number => daysBetween(localDateOf(moment, workshop.zone), today)
  if (car.standing !== null) {
    const { bayId, fixture, since } = car.standing
    const place = workshop.bays.get(bayId)?.name ?? 'a bay'
    return { place, since, daysThere: daysSince(since), fixture }
  }
  const away = openAway(car)
  if (away !== null) {
    const since = dayStart(away.from, workshop.zone)
    return { place: `away at ${nameOf(away.firmId)}`, since, daysThere: daysSince(since), fixture: null }
  }
  if (visit !== null && visit.from !== null)
    return { place: `came from ${visit.from}`, since: null, daysThere: null, fixture: null }
  const place = visit?.status === 'delivered' ? 'delivered' : 'not here'
  return { place, since: null, daysThere: null, fixture: null }
}

type NextAndHeld = Pick<CarLine, 'next' | 'held'>

function nextAndHeld(car: CarState, items: readonly WorkItem[], context: ViewContext): NextAndHeld {
  const visit = currentVisit(car)
  const status = visit?.status ?? 'enquired'
  if (visit !== null && visit.from !== null) return { next: 'a visit to be opened', held: null }
  if (status !== 'in work') return { next: STATUS_WORDS[status], held: null }
  const away = openAway(car)
  if (away !== null)
    return {
      next: `back on ${dayWords(away.expected, context.year)}`,
      held: `The shell is away: ${away.what}`,
    }
  if (items.length === 0)
    return { next: car.repairs.size === 0 ? 'no repairs yet' : 'all repairs finished', held: null }
  const free = items.filter((item) => item.mayBeWorkedOn)
  if (free.length > 0) return { next: nextWords(foremost(free)), held: null }
  const roots = items.filter(({ holds }) => holds.some(isRootHold))
  const leading = foremost(roots.length > 0 ? roots : items)
  const hold = leading?.holds.find(isRootHold) ?? leading?.holds.find(keepsFromWork) ?? leading?.holds[0]
  return { next: nextWords(leading), held: leading && hold ? heldWords(leading, hold) : null }
}

const STATUS_WORDS = {
  enquired: 'enquiry',
  agreed: 'agreed, not begun',
  paused: 'paused',
  finished: 'finished, to be delivered',
  delivered: 'delivered',
} as const

/** What somebody is on, else what moved last: that is what people talk about. */
function foremost(items: readonly WorkItem[]): WorkItem | undefined {
  return items.toSorted((a, b) => b.onIt.length - a.onIt.length || b.lastStep - a.lastStep)[0]
}

function nextWords(item: WorkItem | undefined): string {
  if (item === undefined) return ''
  return item.work.kind === 'gate' ? `${item.work.gate} next, ${inSentence(item.name)}` : `${item.name} next`
}

function peopleOnIt(car: CarState, { nameOf }: ViewContext): readonly string[] {
  return [...new Set(openEntries(car).running.map(({ personId }) => nameOf(personId)))]
}

/** A paused visit is not late, and neither is one that is done. */
function isLate({ promised, status }: CarHeader, { today }: ViewContext): boolean {
  return promised !== null && promised < today && (status === 'agreed' || status === 'in work')
}
