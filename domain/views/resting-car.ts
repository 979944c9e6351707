import type { CarState, EntryState, Moment, VisitState } from '../car.ts'
import { MS_PER_DAY } from '../time/zone.ts'
import { isElsewhere } from '../value/own-visits.ts'
import { carHours } from '../value/hours.ts'
import type { HoursPair } from './shared-views.ts'
import { type HeaderFacts, headerFacts, headerOf, currentVisit } from './car-header.ts'
import { type LineCounts, lineCounts, restWords } from './car-line.ts'
import { openEntries } from './clock-views.ts'
import { closedAsFoundFor } from './variation-view.ts'
import type { ViewContext } from './view-context.ts'
import type { CarLine } from './view-shapes.ts'
import { workshopFromFacts } from '../state/workshop-state.ts'
import { isOver } from '../visit-over.ts'

/**
 * A delivered car on which nothing is open: no clock, no fire watch, no variation that waits or was declined and not settled.
 * Views of today have nothing of it once its last photo and hours are of an earlier week, and its line among all cars is
 * told from this alone. Holds what JSON can hold.
 */
export interface RestingCar {
  readonly header: HeaderFacts
  readonly hours: HoursPair
  readonly counts: LineCounts
  readonly visits: readonly VisitSpan[]
  /** No hours and no photo of it are of a later moment. */
  readonly until: Moment
  /** When its variations in visits here were answered. */
  readonly answered: readonly Moment[]
}

export type VisitSpan = Pick<VisitState, 'id' | 'from' | 'status' | 'statusSince'> & {
  readonly opened: Pick<VisitState['opened'], 'happened'>
}

/** Null for every other car. */
export function restingCar(car: CarState): RestingCar | null {
  if (!isResting(car)) return null
  return {
    header: headerFacts(car),
    hours: carHours(car, car.currentVisit, { at: 0, workshop: NO_WORKSHOP }),
    counts: lineCounts(car),
    visits: [...car.visits.values()].map(({ id, from, status, statusSince, opened: { happened } }) => ({
      id,
      from,
      status,
      statusSince,
      opened: { happened },
    })),
    until: lastMoment(car),
    answered: [...car.variations.values()].flatMap(({ visitId, decided }) =>
      decided === null || isElsewhere(car, visitId) ? [] : [decided.happened],
    ),
  }
}

/** The same as `carLine` of the whole car. */
export function restingLine({ header, hours, counts }: RestingCar, context: ViewContext): CarLine {
  return {
    ...headerOf(header, hours, context),
    next: restWords(header.visit),
    held: null,
    onIt: [],
    ...counts,
    latePromise: false,
  }
}

/** Without a running clock neither the time nor the workshop plays a part in hours. */
const NO_WORKSHOP = workshopFromFacts([])

function isResting(car: CarState): boolean {
  if (!isOver(currentVisit(car))) return false
  const { running, unconfirmed, watched } = openEntries(car)
  const closed = closedAsFoundFor(car)
  return (
    running.length + unconfirmed.length + watched.length === 0 &&
    [...car.variations.values()].every(({ id, status }) =>
      status === 'declined' || status === 'stopped' ? closed.has(id) : status !== 'raised',
    )
  )
}

/** A day without times lasts to its end in every zone. */
function lastMoment(car: CarState): Moment {
  let last = 0
  for (const { time } of car.entries.values()) last = Math.max(last, endOf(time))
  for (const { countsAt } of car.attachments.values()) last = Math.max(last, countsAt)
  return last
}

function endOf(time: EntryState['time']): Moment {
  if (time.kind === 'day') return Date.parse(time.date) + 2 * MS_PER_DAY
  return Date.parse(time.kind === 'span' ? time.end : time.start)
}
