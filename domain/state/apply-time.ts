import type { CarDraft, Stamp, TimeEntry } from '../car.ts'
import type { Fact, FactOf } from '../facts.ts'
import type { WorkTarget } from '../facts/shapes.ts'
import type { TimeSpan } from '../facts/time-facts.ts'
import type { EntryId } from '../ids.ts'
import { entryStart } from '../value/entry-hours.ts'
import { isSameTarget } from '../value/target.ts'

type Entries = Map<EntryId, TimeEntry>
/** Which targets of an entry had been passed once when it was worked. */
type FlagsOf = (entry: Pick<TimeEntry, 'on' | 'time' | 'cause'>) => readonly boolean[]

/** Clocks, hours by hand, corrections and fire watches. */
export const applyTimeFact = (car: CarDraft, fact: Fact, stamp: Stamp): void =>
  applyTimeToEntries(car.entries, fact, stamp, (entry) => reworkFlags(car, entry))

/** The same for the workshop's own entries, which are never rework. */
export const applyTimeToEntries = (entries: Entries, fact: Fact, stamp: Stamp, flagsOf: FlagsOf): void => {
  switch (fact.kind) {
    case 'clockStarted':
      return startClock(entries, fact, stamp, flagsOf)
    case 'clockStopped':
      return stopClock(entries, fact)
    case 'clockConfirmed': {
      const entry = entries.get(fact.payload.entryId)
      if (!entry || entry.time.kind === 'day') return
      entry.time = { kind: 'span', start: entry.time.start, end: fact.payload.end }
      entry.stoppedAt ??= Date.parse(fact.payload.end)
      entry.confirmed = true
      return
    }
    case 'timeLogged': {
      const { entryId, personId, on, hotWork, cause, time, shares, note, watchMinutes } = fact.payload
      const entry = handEntry(
        { entryId, personId, on, hotWork, cause, time, shares, note },
        fact.visitId,
        stamp,
      )
      const from = endOf(time)
      const watch = watchMinutes === null ? null : { minutes: watchMinutes, from, completed: null }
      entries.set(entryId, { ...entry, rework: flagsOf(entry), watch })
      return
    }
    case 'timeCorrected':
      return correctTime(entries, fact, stamp, flagsOf)
    case 'watchCompleted': {
      const watch = entries.get(fact.payload.entryId)?.watch
      if (watch) watch.completed = stamp
      return
    }
    default:
      return
  }
}

const startClock = (entries: Entries, fact: FactOf<'clockStarted'>, stamp: Stamp, flagsOf: FlagsOf): void => {
  const { entryId, personId, on, hotWork, cause, start } = fact.payload
  entries.set(entryId, {
    id: entryId,
    personId,
    visitId: fact.visitId,
    on,
    by: 'clock',
    hotWork,
    cause,
    rework: flagsOf({ on, time: { kind: 'running', start }, cause }),
    stamp,
    time: { kind: 'running', start },
    stoppedAt: null,
    confirmed: true,
    shares: null,
    note: '',
    watch: null,
    gone: null,
  })
}

const stopClock = (entries: Entries, fact: FactOf<'clockStopped'>): void => {
  const { entryId, end, countsTo, shares, watchMinutes } = fact.payload
  const entry = entries.get(entryId)
  if (entry?.time.kind !== 'running') return
  entry.time = { kind: 'span', start: entry.time.start, end: countsTo }
  entry.stoppedAt = Date.parse(end)
  entry.confirmed = Date.parse(countsTo) === entry.stoppedAt
  entry.shares = shares
  if (watchMinutes !== null) entry.watch = { minutes: watchMinutes, from: entry.stoppedAt, completed: null }
}

const correctTime = (
  entries: Entries,
  fact: FactOf<'timeCorrected'>,
  stamp: Stamp,
  flagsOf: FlagsOf,
): void => {
  const { entryId, replaces, personId, on, cause, time, shares, reason } = fact.payload
  const old = entries.get(replaces)
  if (!old) return
  old.gone = { stamp, reason }
  const corrected = { entryId, personId, on, hotWork: old.hotWork, cause, time, shares, note: old.note }
  entries.set(entryId, {
    ...handEntry(corrected, old.visitId, stamp),
    rework: flagsOf(corrected),
    watch: old.watch,
  })
}

type HandEntry = Pick<TimeEntry, 'personId' | 'on' | 'hotWork' | 'cause' | 'shares' | 'note'> & {
  readonly entryId: EntryId
  readonly time: TimeSpan
}

const handEntry = (
  { entryId, ...entry }: HandEntry,
  visitId: Fact['visitId'],
  stamp: Stamp,
): Omit<TimeEntry, 'rework' | 'watch'> => ({
  ...entry,
  id: entryId,
  visitId,
  by: 'hand',
  stamp,
  stoppedAt: null,
  confirmed: true,
  gone: null,
})

/** Judges the hours on a gate or task again when it is passed first: some may be entered before the time stated. */
export const flagRework = (car: CarDraft, passed: WorkTarget): void => {
  for (const entry of car.entries.values())
    if (entry.visitId === car.currentVisit && entry.gone === null && isOn(entry, passed))
      entry.rework = reworkFlags(car, entry)
}

const isOn = ({ on }: TimeEntry, target: WorkTarget): boolean =>
  on.kind === 'work' && on.targets.some((each) => isSameTarget(each, target))

/** Judged by when the work was done, so that it is the same whenever the hours are entered. */
const reworkFlags = (car: CarDraft, { on, time, cause }: Parameters<FlagsOf>[0]): readonly boolean[] =>
  on.kind === 'workshop'
    ? []
    : on.targets.map((target) => {
        const record =
          target.kind === 'gate'
            ? car.repairs.get(target.repairId)?.gates[target.gate]
            : car.tasks.get(target.taskId)
        const first = record?.firstPassed ?? null
        return first !== null && entryStart(time, cause) >= first
      })

const endOf = (time: TimeSpan): number =>
  Date.parse(time.kind === 'span' ? time.end : `${time.date}T12:00:00Z`)
