import ical, { escape, ICalCalendarMethod, type ICalEventData } from 'ical-generator'
import { type PlanOf, type PlanPiece, planPieces, type PlanTelling } from '../../domain/plan/plan-words.ts'
import type { Plan } from '../../domain/plan/plan.ts'
import { hours, joinWords } from '../../domain/text/words.ts'
import { asSentence } from '../../domain/views/work-words.ts'
import { targetKey } from '../../domain/value/target.ts'

/**
 * The plan of one person, bay or car as iCalendar (RFC 5545), times in UTC: an event for each gate, task, move and stay. An
 * event keeps its UID from plan to plan, so a newer file brought into the same calendar moves what is there. It names
 * cars, work, bays and the people who do it; never owners.
 *
 * @param name what the calendar is called
 * @returns null when nothing is planned: a calendar has one event at least (RFC 5545, section 3.6)
 */
export function planCalendar(plan: Plan, of: PlanOf, telling: PlanTelling, name: string): string | null {
  const pieces = planPieces(plan, of, telling)
  if (pieces.length === 0) return null
  const uids = pieceUids(pieces, of)
  const calendar = ical({
    prodId: '//Panelwright//Plan//EN',
    method: ICalCalendarMethod.PUBLISH,
    // The library escapes every text but this one.
    name: escape(name, false),
    events: pieces.map((piece, index) => pieceEvent(piece, uids[index] ?? '', plan.madeAt)),
  })
  return `${calendar.toString()}\r\n`
}

function pieceEvent({ told }: PlanPiece, id: string, madeAt: number): ICalEventData {
  const { start, finish, title, car, place } = told
  return {
    id,
    stamp: new Date(madeAt),
    start: new Date(start),
    // What takes no time has no end: an end lies after its start (section 3.8.2.2).
    end: finish > start ? new Date(finish) : null,
    summary: `${car}, ${title}`,
    location: place === '' ? null : place,
    description: description(told),
  }
}

function description({ people, hours: left, why, pinned, begun }: PlanPiece['told']): string {
  return [
    people.length === 0 ? '' : `with ${joinWords(people)}`,
    left === null ? '' : `${hours(left)} of work left${begun ? ', begun' : ''}`,
    why,
    pinned,
  ]
    .filter((line) => line !== '')
    .map(asSentence)
    .join('\n')
}

/**
 * Made of ids, which are letters, digits and hyphens. What has no id of its own is counted for each car and bay in order of
 * time.
 */
function pieceUids(pieces: readonly PlanPiece[], of: PlanOf): readonly string[] {
  const counts = new Map<string, number>()
  return pieces.map(({ source }) => {
    const key = uidKey(source)
    const count = (counts.get(key) ?? 0) + 1
    counts.set(key, count)
    return `${key}${count === 1 ? '' : `.${count}`}.${ofId(of)}@panelwright`
  })
}

function uidKey(source: PlanPiece['source']): string {
  switch (source.kind) {
    case 'work':
      return `${source.work.visitId}.${targetKey(source.work.target).replace('/', '.')}`
    case 'move':
      return `move.${source.move.carId}.${source.move.to}`
    case 'stay':
      return source.stay.bookingId === null
        ? `stay.${source.stay.carId}.${source.stay.bayId}`
        : `booking.${source.stay.bookingId}`
  }
}

/** Two people on the same work have an event each, also when both plans are in one calendar. */
const ofId = (of: PlanOf): string =>
  of.kind === 'person' ? of.personId : of.kind === 'bay' ? of.bayId : of.carId
