import type { CarState, Standing, VisitState } from '../car.ts'
import { openAway } from '../rules/standing.ts'
import { daysBetween } from '../time/local-date.ts'
import { dayStart, localDateOf } from '../time/zone.ts'
import { carHours } from '../value/hours.ts'
import { carPhoto } from './photo-view.ts'
import type { HoursPair } from './shared-views.ts'
import type { ViewContext } from './view-context.ts'
import type { CarHeader } from './view-shapes.ts'
import { isOver } from '../visit-over.ts'

export const currentVisit = (car: CarState): VisitState | null =>
  (car.currentVisit && car.visits.get(car.currentVisit)) || null

/** What a car's facts say for its header; names, the workshop and the time now come to it when it is shown. */
export interface HeaderFacts extends Pick<
  CarState,
  'id' | 'revision' | 'shellNumber' | 'name' | 'body' | 'year'
> {
  readonly visit: Pick<
    VisitState,
    'id' | 'ownerId' | 'status' | 'kind' | 'from' | 'promised' | 'priority'
  > | null
  readonly standing: Standing | null
  readonly away: { readonly firmId: string; readonly from: string } | null
  readonly photo: string | null
}

export function carHeader(car: CarState, context: ViewContext): CarHeader {
  return headerOf(headerFacts(car), carHours(car, car.currentVisit, context), context)
}

export function headerFacts(car: CarState): HeaderFacts {
  const { id, revision, shellNumber, name, body, year, standing } = car
  const visit = currentVisit(car)
  const away = openAway(car)
  return {
    id,
    revision,
    shellNumber,
    name,
    body,
    year,
    visit: visit && {
      id: visit.id,
      ownerId: visit.ownerId,
      status: visit.status,
      kind: visit.kind,
      from: visit.from,
      promised: visit.promised,
      priority: visit.priority,
    },
    standing: standing && { ...standing },
    away: away && { firmId: away.firmId, from: away.from },
    photo: carPhoto(car),
  }
}

export function headerOf(facts: HeaderFacts, hours: HoursPair, context: ViewContext): CarHeader {
  const { id, revision, shellNumber, name, body, year, visit, photo } = facts
  return {
    carId: id,
    revision,
    shellNumber,
    name,
    body,
    year,
    owner: visit === null ? '' : context.nameOf(visit.ownerId),
    visitId: visit?.id ?? null,
    status: visit?.status ?? 'enquired',
    warranty: visit?.kind === 'warranty' && visit.from === null,
    cameFrom: visit?.from ?? null,
    promised: visit?.from === null ? visit.promised : null,
    priority: visit?.priority ?? 1,
    ...whereItStands(facts, context),
    hours,
    photo,
  }
}

type Where = Pick<CarHeader, 'place' | 'since' | 'daysThere' | 'fixture'>

function whereItStands(
  { standing, away, visit }: HeaderFacts,
  { workshop, today, nameOf }: ViewContext,
): Where {
  const daysSince = (moment: number): number => daysBetween(localDateOf(moment, workshop.zone), today)
  if (standing !== null) {
    const { bayId, fixture, since } = standing
    const place = workshop.bays.get(bayId)?.name ?? 'a bay'
    return { place, since, daysThere: daysSince(since), fixture }
  }
  if (away !== null) {
    const since = dayStart(away.from, workshop.zone)
    return { place: `away at ${nameOf(away.firmId)}`, since, daysThere: daysSince(since), fixture: null }
  }
  if (visit !== null && visit.from !== null)
    return { place: `came from ${visit.from}`, since: null, daysThere: null, fixture: null }
  const place = visit !== null && isOver(visit) ? visit.status : 'not here'
  return { place, since: null, daysThere: null, fixture: null }
}
