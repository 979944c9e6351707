import type { CarState, VisitState } from '../car.ts'
import { activeRepairs, isFinished, openAway, standsOpen } from '../rules/standing.ts'
import { dayWords } from '../text/words.ts'
import { carHeader, currentVisit } from './car-header.ts'
import { openEntries } from './clock-views.ts'
import { keepsFromWork } from './hold-view.ts'
import { carFaults } from './repair-card.ts'
import type { HoldView } from './shared-views.ts'
import type { ViewContext } from './view-context.ts'
import type { CarHeader, CarLine } from './view-shapes.ts'
import { type WorkItem, workItems } from './work-items.ts'
import { inSentence } from './work-words.ts'

export const isInWork = (car: CarState): boolean => currentVisit(car)?.status === 'in work'

/** `items` are the car's work items where they are known already; only a car in work has any. */
export function carLine(
  car: CarState,
  context: ViewContext,
  items: readonly WorkItem[] = carWork(car, context),
): CarLine {
  const header = carHeader(car, context)
  return {
    ...header,
    ...nextAndHeld(car, items, context),
    onIt: peopleOnIt(car, context),
    ...lineCounts(car),
    latePromise: isLate(header, context),
  }
}

export type LineCounts = Pick<
  CarLine,
  'openRepairs' | 'finishedRepairs' | 'repairs' | 'decisionsOpen' | 'faults'
>

export function lineCounts(car: CarState): LineCounts {
  const repairs = activeRepairs(car)
  return {
    openRepairs: repairs.filter(standsOpen).length,
    finishedRepairs: repairs.filter(isFinished).length,
    repairs: repairs.length,
    decisionsOpen: [...car.variations.values()].filter(({ status }) => status === 'raised').length,
    faults: carFaults(car).map(({ words }) => words),
  }
}

/** Cars whose visit is in work have something to do next; others do not, whatever is open on them. */
export const carWork = (car: CarState, context: ViewContext): readonly WorkItem[] =>
  isInWork(car) ? workItems(car, context) : []

/** Why an item cannot be worked on, as a sentence that names it. */
function heldWords({ name }: WorkItem, hold: HoldView): string {
  return hold.words.startsWith(name) ? hold.words : `${name}: ${hold.words}`
}

/** Holds that say something by themselves: not that what covers a repair, or lies behind it, comes first. */
export const isRootHold = (hold: HoldView): boolean => keepsFromWork(hold) && !FOLLOWING.has(hold.code)

const FOLLOWING: ReadonlySet<HoldView['code']> = new Set(['order', 'uncover first', 'closed in order'])

type NextAndHeld = Pick<CarLine, 'next' | 'held'>

function nextAndHeld(car: CarState, items: readonly WorkItem[], context: ViewContext): NextAndHeld {
  const visit = currentVisit(car)
  const status = visit?.status ?? 'enquired'
  if (status !== 'in work' || (visit !== null && visit.from !== null))
    return { next: restWords(visit), held: null }
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

/** What comes next on a car that is not in work. */
export function restWords(visit: Pick<VisitState, 'status' | 'from'> | null): string {
  if (visit !== null && visit.from !== null) return 'a visit to be opened'
  const status = visit?.status ?? 'enquired'
  return status === 'in work' ? '' : STATUS_WORDS[status]
}

const STATUS_WORDS = {
  enquired: 'enquiry',
  agreed: 'agreed, not begun',
  paused: 'paused',
  finished: 'finished, to be delivered',
  delivered: 'delivered',
  'not taken on': 'not taken on',
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
