import type { CarState, EntryState } from '../car.ts'
import { fact } from '../facts.ts'
import type { TimeSpan } from '../facts/time-facts.ts'
import type { EntryId, PersonId } from '../ids.ts'
import { ok, refuse, type Result } from '../refusal.ts'
import { momentWords } from '../rules/time-holds.ts'
import { dayEnd, dayStart, instantToIso, localDateOf, MS_PER_HOUR } from '../time/zone.ts'
import { clockCountsTo } from '../value/person-day.ts'
import { targetStanding } from '../value/target.ts'
import type { CommandPayload } from './command-shapes.ts'
import type { Decided, DecideContext } from './decide.ts'
import { firstRefusal, record, refuseIf, unknownPeople, type Decider, type Refused } from './deciders.ts'

type TimeKind = 'startClock' | 'stopClock' | 'confirmClock' | 'logTime' | 'correctTime' | 'completeWatch'

export const timeDeciders: { readonly [K in TimeKind]: Decider<K> } = {
  startClock: (payload, context) => {
    const { others, happened, workshop } = context
    const running = others.entries.find((entry) => entry.time.kind === 'running')
    return (
      firstRefusal(
        entryRefusal(payload, context),
        refuseIf(
          running !== undefined,
          'overlap',
          'A clock of this person is running already.',
          'Stop it first; one person works in one place at a time.',
        ),
        overlapRefusal(payload.personId, { start: happened, end: happened + 1 }, null, context),
      ) ?? record(fact('clockStarted', { ...payload, start: instantToIso(happened, workshop.zone) }))
    )
  },

  stopClock: (payload, context) => stopClock(payload, context),

  confirmClock: (payload, context) => {
    const found = findEntry(context, payload.entryId)
    if (!found.ok) return found
    const { personId, time, stoppedAt } = found.value
    if (time.kind === 'day')
      return refuse('not-now', 'This entry has no clock.', 'Correct the entry instead.')
    const span = { start: Date.parse(time.start), end: Date.parse(payload.end) }
    return (
      firstRefusal(
        ownTimeRefusal(personId, context),
        spanRefusal(span, context),
        refuseIf(
          stoppedAt !== null && span.end > stoppedAt,
          'bad-input',
          'The clock was stopped before that.',
          'Confirm a time up to when it was stopped.',
        ),
        overlapRefusal(personId, span, payload.entryId, context),
      ) ?? record(fact('clockConfirmed', payload))
    )
  },

  logTime: (payload, context) =>
    firstRefusal(
      entryRefusal(payload, context),
      timeRefusal(payload.personId, payload.time, null, context),
    ) ?? record(fact('timeLogged', { ...payload, watchMinutes: watchAfter(payload, context) })),

  correctTime: (payload, context) => {
    const found = findEntry(context, payload.replaces)
    if (!found.ok) return found
    return (
      firstRefusal(
        refuseIf(
          found.value.personId !== payload.personId,
          'bad-input',
          "A correction keeps the entry's person.",
          'Void the entry and enter it for the other person.',
        ),
        entryRefusal({ ...payload, hotWork: false }, context),
        timeRefusal(payload.personId, payload.time, payload.replaces, context),
      ) ?? record(fact('timeCorrected', payload))
    )
  },

  completeWatch: (payload, context) => {
    const found = findEntry(context, payload.entryId)
    if (!found.ok) return found
    const { watch } = found.value
    if (!watch) return refuse('unknown', 'This entry has no fire watch.', 'Nothing to do.')
    const until = watch.from + (watch.minutes * MS_PER_HOUR) / 60
    return (
      firstRefusal(
        refuseIf(watch.completed !== null, 'already', 'This watch is completed already.', 'Nothing to do.'),
        refuseIf(
          context.now < until,
          'not-now',
          `The fire watch goes on until ${momentWords(until, context.workshop.zone, context.now)}.`,
          'Look again then, and complete it when nothing smoulders.',
        ),
      ) ?? record(fact('watchCompleted', payload))
    )
  },
}

/** Entries of the car, or of the workshop itself when the command has no car. */
const findEntry = (context: DecideContext, id: EntryId): Result<EntryState> => {
  const entry = (context.car ?? context.workshop).entries.get(id)
  return entry && entry.gone === null
    ? ok(entry)
    : refuse('unknown', 'This time entry is not known.', 'Reload the screen.')
}

const stopClock = (payload: CommandPayload<'stopClock'>, context: DecideContext): Result<Decided> => {
  const { workshop, happened } = context
  const found = findEntry(context, payload.entryId)
  if (!found.ok) return found
  const entry = found.value
  if (entry.time.kind !== 'running')
    return refuse('already', 'This clock is stopped already.', 'Correct the entry if its time is wrong.')
  const start = Date.parse(entry.time.start)
  const counted = payload.overtime ? happened : clockCountsTo(workshop, entry.personId, start, happened)
  const refused = firstRefusal(
    ownTimeRefusal(entry.personId, context),
    refuseIf(
      happened <= start,
      'bad-input',
      'The clock would end before it starts.',
      'Give a time after its start.',
    ),
    payload.overtime ? spanRefusal({ start, end: happened }, context) : null,
    overlapRefusal(entry.personId, { start, end: counted }, entry.id, context),
    sharesRefusal(payload.shares, entry.on),
  )
  if (refused) return refused
  const iso = (moment: number) => instantToIso(moment, workshop.zone)
  return record(
    fact('clockStopped', {
      ...payload,
      end: iso(happened),
      countsTo: iso(counted),
      watchMinutes: entry.hotWork ? workshop.settings.watchMinutes : null,
    }),
  )
}

interface EntryParts {
  readonly entryId: EntryId
  readonly personId: PersonId
  readonly on: EntryState['on']
  readonly cause: string | null
  readonly hotWork: boolean
  readonly shares?: readonly number[] | null
}

const entryRefusal = (payload: EntryParts, context: DecideContext): Refused | null =>
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
    context.car ? causeRefusal(context.car, payload) : null,
  )

/** A technician logs their own time; a manager may log anybody's. */
const ownTimeRefusal = (personId: PersonId, { by, workshop }: DecideContext): Refused | null =>
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
  const delivered = car.currentVisit !== null && car.visits.get(car.currentVisit)?.status === 'delivered'
  return firstRefusal(
    refuseIf(
      delivered,
      'not-now',
      'The car was delivered.',
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

const sharesRefusal = (shares: readonly number[] | null, on: EntryState['on']): Refused | null => {
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

/** Hours on a passed gate are rework and have a cause; a reopened gate brings its own. */
const causeRefusal = (car: CarState, { on, cause }: EntryParts): Refused | null =>
  refuseIf(
    on.kind === 'work' &&
      cause === null &&
      on.targets.some((target) => targetStanding(car, target) === 'passed'),
    'bad-input',
    'This gate is passed already, so the hours are rework.',
    'Say why: choose a cause.',
  )

interface Span {
  readonly start: number
  readonly end: number
}

const MOST_HOURS = 24

const spanRefusal = ({ start, end }: Span, { now }: DecideContext): Refused | null =>
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

const timeRefusal = (
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

const overlapRefusal = (
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

/** Hot work entered by hand starts a watch only while that watch would still go on. */
const watchAfter = (payload: CommandPayload<'logTime'>, { now, workshop }: DecideContext): number | null => {
  if (!payload.hotWork || payload.time.kind === 'day') return null
  const minutes = workshop.settings.watchMinutes
  return Date.parse(payload.time.end) + minutes * 60_000 > now ? minutes : null
}
