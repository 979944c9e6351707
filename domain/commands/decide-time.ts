import type { EntryState, Moment } from '../car.ts'
import { fact } from '../facts.ts'
import type { EntryId, PersonId } from '../ids.ts'
import { ok, refuse, type Result } from '../refusal.ts'
import { momentWords } from '../rules/time-holds.ts'
import { instantToIso, MS_PER_HOUR } from '../time/zone.ts'
import { entryStart } from '../value/entry-hours.ts'
import { isElsewhere } from '../value/own-visits.ts'
import { clockCountsTo } from '../value/person-day.ts'
import type { CommandPayload } from './command-shapes.ts'
import type { Decided, DecideContext } from './decide.ts'
import { firstRefusal, record, refuseIf, unknownRepairs, type Decider, type Refused } from './deciders.ts'
import {
  entryRefusal,
  overlapRefusal,
  ownTimeRefusal,
  sharesRefusal,
  spanRefusal,
  timeRefusal,
} from './time-refusals.ts'

type TimeKind = 'startClock' | 'stopClock' | 'confirmClock' | 'logTime' | 'correctTime' | 'completeWatch'

export const timeDeciders: { readonly [K in TimeKind]: Decider<K> } = {
  startClock: (payload, context) => {
    const { others, workshop } = context
    const running = others.entries.find((entry) => entry.time.kind === 'running')
    const start = afterLastEntry(payload.personId, context)
    return (
      firstRefusal(
        entryRefusal(payload, start, context),
        retiredRefusal(payload.on, context),
        refuseIf(
          running !== undefined,
          'overlap',
          'A clock of this person is running already.',
          'Stop it first; one person works in one place at a time.',
        ),
        overlapRefusal(payload.personId, { start, end: start + 1 }, null, context),
      ) ?? record(fact('clockStarted', { ...payload, start: instantToIso(start, workshop.zone) }))
    )
  },

  stopClock: (payload, context) => stopClock(payload, context),

  confirmClock: (payload, context) => {
    const found = findEntry(context, payload.entryId)
    if (!found.ok) return found
    const { personId, time, stoppedAt, hotWork } = found.value
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
        refuseIf(
          time.kind === 'running' && hotWork && wouldStillWatch(span.end, context),
          'not-now',
          'This clock still runs, on hot work.',
          'Stop it first, so that its fire watch starts.',
        ),
        overlapRefusal(personId, span, payload.entryId, context),
      ) ?? record(fact('clockConfirmed', payload))
    )
  },

  logTime: (payload, context) =>
    firstRefusal(
      entryRefusal(payload, entryStart(payload.time, payload.cause), context),
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
        entryRefusal({ ...payload, hotWork: false }, entryStart(payload.time, payload.cause), context),
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
  if (entry && context.car && isElsewhere(context.car, entry.visitId)) return workedElsewhere
  return entry && entry.gone === null
    ? ok(entry)
    : refuse('unknown', 'This time entry is not known.', 'Reload the screen.')
}

const workedElsewhere = refuse(
  'not-allowed',
  'These hours were worked in another workshop and stay as they came.',
  'Add a note to the car instead.',
)

/**
 * What is sent at once takes the host's time, what waited on a device the time of its entry: between the two lies the way to the
 * host, so that what somebody did next may be stated a little before it. Longer than this it is a mistake.
 */
const WAY_MS = 60_000
const SHORTEST_ENTRY_MS = 1_000

/** When a clock starts: as stated, or with the end of the person's last entry where that lies just after it. */
const afterLastEntry = (personId: PersonId, { others, happened, now }: DecideContext): number => {
  const ends = others.entries.flatMap(({ personId: of, time }) =>
    of === personId && time.kind === 'span' ? [Date.parse(time.end)] : [],
  )
  return Math.max(happened, ...ends.filter((end) => end <= now && end - happened <= WAY_MS))
}

/** When a clock stops: as stated, or just after its start where that lies just after it. */
const afterStart = (start: number, { happened, now }: DecideContext): number =>
  start < happened || start - happened > WAY_MS ? happened : Math.min(start + SHORTEST_ENTRY_MS, now)

const stopClock = (payload: CommandPayload<'stopClock'>, context: DecideContext): Result<Decided> => {
  const { workshop } = context
  const found = findEntry(context, payload.entryId)
  if (!found.ok) return found
  const entry = found.value
  if (entry.time.kind !== 'running')
    return refuse('already', 'This clock is stopped already.', 'Correct the entry if its time is wrong.')
  const start = Date.parse(entry.time.start)
  const end = afterStart(start, context)
  const counted = payload.overtime ? end : clockCountsTo(workshop, entry.personId, start, end)
  const refused = firstRefusal(
    ownTimeRefusal(entry.personId, context),
    refuseIf(
      end <= start,
      'bad-input',
      'The clock would end before it starts.',
      'Give a time after its start.',
    ),
    payload.overtime ? spanRefusal({ start, end }, context) : null,
    overlapRefusal(entry.personId, { start, end: counted }, entry.id, context),
    sharesRefusal(payload.shares, entry.on),
  )
  if (refused) return refused
  const iso = (moment: number) => instantToIso(moment, workshop.zone)
  return record(
    fact('clockStopped', {
      ...payload,
      end: iso(end),
      countsTo: iso(counted),
      watchMinutes: entry.hotWork ? workshop.settings.watchMinutes : null,
    }),
  )
}

/** What was worked on a repair before it was retired may still be entered; nobody starts on it any more. */
const retiredRefusal = (on: CommandPayload<'startClock'>['on'], { car }: DecideContext): Refused | null =>
  car === null || on.kind === 'workshop'
    ? null
    : unknownRepairs(
        car,
        on.targets.flatMap((target) => (target.kind === 'gate' ? [target.repairId] : [])),
      )

/** Hot work entered by hand starts a watch only while that watch would still go on. */
const watchAfter = (payload: CommandPayload<'logTime'>, context: DecideContext): number | null =>
  payload.hotWork && payload.time.kind === 'span' && wouldStillWatch(Date.parse(payload.time.end), context)
    ? context.workshop.settings.watchMinutes
    : null

/** @param end when the hot work ended */
const wouldStillWatch = (end: Moment, { now, workshop }: DecideContext): boolean =>
  end + workshop.settings.watchMinutes * 60_000 > now
