import type { CarState, EntryState, Moment } from '../car.ts'
import type { WorkTarget } from '../facts/shapes.ts'
import type { TimeSpan } from '../facts/time-facts.ts'
import type { EntryId, PersonId } from '../ids.ts'
import { refuse } from '../refusal.ts'
import { momentWords } from '../rules/time-holds.ts'
import { dayEnd, dayStart, localDateOf, MS_PER_HOUR } from '../time/zone.ts'
import { targetStanding } from '../value/target.ts'
import type { DecideContext } from './decide.ts'
import { firstRefusal, refuseIf, unknownPeople, type Refused } from './deciders.ts'
import { isOver } from '../visit-over.ts'

interface EntryParts {
  readonly entryId: EntryId
  readonly personId: PersonId
  readonly on: EntryState['on']
  readonly cause: string | null
  readonly hotWork: boolean
  readonly shares?: readonly number[] | null
}

/**
 * What any new time entry must hold: known people and work, one's own time, shares that add up, a cause for rework.
 *
 * @param start when its work began
 */
export const entryRefusal = (payload: EntryParts, start: Moment, context: DecideContext): Refused | null =>
  firstRefusal(
    unknownPeople(context, [payload.personId]),
    ownTimeRefusal(payload.personId, context),
    refuseIf(
      (context.car ?? context.workshop).entries.has(payload.entryId),
      'already',
      'This entry is known already.',
      'Nothing to do.',
    ),
    onRefusal(payload.on, context),
    sharesRefusal(payload.shares ?? null, payload.on),
    context.car ? causeRefusal(context.car, payload, start) : null,
  )

/** A technician logs their own time; a manager may log anybody's. */
export const ownTimeRefusal = (personId: PersonId, { by, workshop }: DecideContext): Refused | null =>
  refuseIf(
    personId !== by && !(by && workshop.people.get(by)?.roles.includes('manager')),
    'not-allowed',
    "Only a manager may enter another person's time.",
    'Choose yourself on this device, or ask a manager.',
  )

const onRefusal = (on: EntryState['on'], { car }: DecideContext): Refused | null => {
  if (on.kind === 'workshop')
    return refuseIf(car !== null, 'bad-input', 'Workshop time belongs to no car.', 'Log it on the workshop.')
  if (!car) return refuse('unknown', 'This car is not known.', 'Choose the car again.')
  const visit = car.currentVisit === null ? undefined : car.visits.get(car.currentVisit)
  return firstRefusal(
    refuseIf(
      isOver(visit),
      'not-now',
      visit?.status === 'delivered' ? 'The car was delivered.' : 'The visit was not taken on.',
      'Open a new visit, or log the hours in the old week by correction.',
    ),
    refuseIf(
      on.targets.some((target) =>
        target.kind === 'gate' ? !car.repairs.has(target.repairId) : !car.tasks.has(target.taskId),
      ),
      'unknown',
      'The repair or task of this entry is not known.',
      'Choose it again.',
    ),
  )
}

/** @param shares 0 to 1, one for each target, adding up to 1; null shares by the estimates */
export const sharesRefusal = (shares: readonly number[] | null, on: EntryState['on']): Refused | null => {
  if (shares === null) return null
  const wanted = on.kind === 'work' ? on.targets.length : 0
  const sum = shares.reduce((total, share) => total + share, 0)
  return refuseIf(
    shares.length !== wanted || Math.abs(sum - 1) > 1e-6,
    'bad-input',
    'The shares do not add up to the whole.',
    'Give one share for each repair or task, 100 % in all.',
  )
}

/** Hours after a gate was passed are rework and have a cause; a reopened gate brings its own. */
const causeRefusal = (car: CarState, { on, cause }: EntryParts, start: Moment): Refused | null =>
  refuseIf(
    on.kind === 'work' && cause === null && on.targets.some((target) => isPassedBefore(car, target, start)),
    'bad-input',
    'This gate is passed already, so the hours are rework.',
    'Say why: choose a cause.',
  )

function isPassedBefore(car: CarState, target: WorkTarget, start: Moment): boolean {
  if (targetStanding(car, target) !== 'passed') return false
  const work =
    target.kind === 'gate'
      ? car.repairs.get(target.repairId)?.gates[target.gate]
      : car.tasks.get(target.taskId)
  const done = work?.done ?? null
  return done !== null && start >= done.stamp.happened
}

interface Span {
  readonly start: number
  readonly end: number
}

const MOST_HOURS = 24

/** Ends after it starts, at most 24 hours long, and not in the future. */
export const spanRefusal = ({ start, end }: Span, { now }: DecideContext): Refused | null =>
  firstRefusal(
    refuseIf(end <= start, 'bad-input', 'The entry ends before it starts.', 'Correct the start or the end.'),
    refuseIf(
      end - start > MOST_HOURS * MS_PER_HOUR,
      'absurd-hours',
      'The entry is longer than 24 hours.',
      'Enter each day by itself.',
    ),
    refuseIf(
      end > now + 5 * 60_000,
      'bad-input',
      'The entry ends in the future.',
      'Log time once it is worked.',
    ),
  )

/** A span, or a day with its hours, that meets no other entry of the person and keeps the day within 24 hours. */
export const timeRefusal = (
  personId: PersonId,
  time: TimeSpan,
  replaces: EntryId | null,
  context: DecideContext,
): Refused | null => {
  const { workshop } = context
  if (time.kind === 'day') {
    const span = { start: dayStart(time.date, workshop.zone), end: dayEnd(time.date, workshop.zone) }
    return firstRefusal(
      refuseIf(
        span.start > context.now,
        'bad-input',
        'This day is still to come.',
        'Log time once it is worked.',
      ),
      dayRefusal(time.date, time.hours, replaces, context),
    )
  }
  const span = { start: Date.parse(time.start), end: Date.parse(time.end) }
  const date = localDateOf(span.start, workshop.zone)
  return firstRefusal(
    spanRefusal(span, context),
    overlapRefusal(personId, span, replaces, context),
    dayRefusal(date, (span.end - span.start) / MS_PER_HOUR, replaces, context),
  )
}

/** One person works in one place at a time. */
export const overlapRefusal = (
  personId: PersonId,
  { start, end }: Span,
  except: EntryId | null,
  { others, workshop, now }: DecideContext,
): Refused | null => {
  const other = others.entries.find((entry) => {
    if (entry.personId !== personId || entry.id === except || entry.time.kind === 'day') return false
    const from = Date.parse(entry.time.start)
    const to = entry.time.kind === 'span' ? Date.parse(entry.time.end) : from + 1
    return from < end && start < to
  })
  if (!other || other.time.kind === 'day') return null
  const from = momentWords(Date.parse(other.time.start), workshop.zone, now)
  const to =
    other.time.kind === 'span'
      ? ` to ${momentWords(Date.parse(other.time.end), workshop.zone, now)}`
      : ', still running'
  return refuse(
    'overlap',
    `It overlaps another entry of the same person: ${from}${to}.`,
    'Correct one of the two.',
  )
}

/** All entries of one person on one day come to 24 hours at most. */
const dayRefusal = (
  date: string,
  hours: number,
  except: EntryId | null,
  { others, workshop }: DecideContext,
): Refused | null => {
  const others24 = others.entries
    .filter((entry) => entry.id !== except)
    .reduce((sum, { time }) => {
      if (time.kind === 'day') return time.date === date ? sum + time.hours : sum
      if (time.kind === 'running' || localDateOf(Date.parse(time.start), workshop.zone) !== date) return sum
      return sum + (Date.parse(time.end) - Date.parse(time.start)) / MS_PER_HOUR
    }, 0)
  return refuseIf(
    others24 + hours > MOST_HOURS + 1e-9,
    'absurd-hours',
    `With this entry the day would have ${Math.round((others24 + hours) * 10) / 10} hours.`,
    'A day has 24 hours; correct one of the entries.',
  )
}
