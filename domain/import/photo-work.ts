import type { CarState, EntryState, Moment, RepairState } from '../car.ts'
import type { WorkTarget } from '../facts/shapes.ts'
import { gatesBefore, GATES, type Gate } from '../gates.ts'
import type { LayerId, PersonId } from '../ids.ts'
import { gateAsks } from '../rules/asks.ts'
import { evidenceStart } from '../rules/evidence.ts'
import { isActive, nextGate, passedAt } from '../rules/standing.ts'
import { windowHolds } from '../rules/time-holds.ts'
import { dayEnd, dayStart, MS_PER_HOUR } from '../time/zone.ts'
import { entryStart } from '../value/entry-hours.ts'
import { clockCountsTo } from '../value/person-day.ts'
import { targetKey } from '../value/target.ts'
import type { ViewInput } from '../views/view-context.ts'
import { repairName } from '../views/work-words.ts'
import type { IsNear } from './photo-near.ts'
import type { CarForPhotos, GateForPhotos, PassedWork, WorkedSpan } from './photo-match-shapes.ts'

/**
 * What the matching needs of a car's facts; entries that were corrected or voided, and retired repairs, are left out.
 *
 * @param by the person whose camera it is: only what they worked on and passed counts; null for anybody's
 * @param isNear what does not lie near the photos is left out
 */
export function carForPhotos(
  car: CarState,
  input: ViewInput,
  by: PersonId | null,
  isNear: IsNear,
): CarForPhotos {
  const entries = [...car.entries.values()]
  const isTheirs = (people: readonly (PersonId | null)[]) => by === null || people.includes(by)
  const worked = entries
    .filter(
      (entry) => isTheirs([entry.personId]) && isNear(entryStart(entry.time, null), endOf(entry, input)),
    )
    .flatMap((entry) => workedSpans(entry, input))
  const repairs = [...car.repairs.values()].filter(isActive)
  return {
    carId: car.id,
    came: cameAt(car),
    worked: worked.filter(({ target }) => !isRetired(car, target)),
    passed: [...repairs.flatMap(passedGates), ...signedTasks(car)].filter(
      ({ at, people }) => isTheirs(people) && isNear(at, at),
    ),
    gate: onceEach((repairId, gate) => {
      const repair = car.repairs.get(repairId)
      return repair === undefined ? UNKNOWN_GATE : gateForPhotos(car, repair, gate, input)
    }),
    nameOf: (target) =>
      target.kind === 'gate'
        ? repairName(car, target.repairId)
        : (car.tasks.get(target.taskId)?.plan.name ?? 'a task'),
  }
}

/** Hundreds of photos of one spell ask for the same gate. */
function onceEach(gateOf: CarForPhotos['gate']): CarForPhotos['gate'] {
  const known = new Map<string, GateForPhotos>()
  return (repairId, gate) => {
    const key = targetKey({ kind: 'gate', repairId, gate })
    const found = known.get(key) ?? gateOf(repairId, gate)
    known.set(key, found)
    return found
  }
}

/** The photos that an open gate still asks for, in words; nothing once it is done. */
export function lackedPhotos(car: CarState, repair: RepairState, gate: Gate): readonly string[] {
  return unmetPhotoAsks(car, repair, gate).map(({ words }) => words)
}

const UNKNOWN_GATE: GateForPhotos = {
  begun: null,
  passed: null,
  asksBefore: false,
  after: null,
  layers: [],
  prepared: false,
  asLeft: false,
}

function isRetired(car: CarState, target: WorkTarget): boolean {
  return target.kind === 'gate' && car.repairs.get(target.repairId)?.retired !== null
}

/** A day without times counts in every zone: its ends are UTC's, a day further. */
function endOf({ time, personId }: EntryState, { now, workshop }: ViewInput): Moment {
  switch (time.kind) {
    case 'span':
      return Date.parse(time.end)
    case 'running':
      return clockCountsTo(workshop, personId, Date.parse(time.start), now)
    case 'day':
      return Date.parse(time.date) + 2 * 24 * MS_PER_HOUR
  }
}

function workedSpans(entry: EntryState, input: ViewInput): readonly WorkedSpan[] {
  if (entry.gone !== null || entry.on.kind === 'workshop') return []
  const span = { ...spanOf(entry, input), person: input.nameOf(entry.personId) }
  return entry.on.targets.map((target) => ({ target, ...span }))
}

function spanOf(
  { time, by, personId }: EntryState,
  { now, workshop }: ViewInput,
): Pick<WorkedSpan, 'from' | 'to' | 'known'> {
  switch (time.kind) {
    case 'span': {
      const known = by === 'clock' ? 'clock' : 'by hand'
      return { from: Date.parse(time.start), to: Date.parse(time.end), known }
    }
    case 'running': {
      const from = Date.parse(time.start)
      return { from, to: clockCountsTo(workshop, personId, from, now), known: 'running' }
    }
    case 'day':
      return {
        from: dayStart(time.date, workshop.zone),
        to: dayEnd(time.date, workshop.zone),
        known: 'day',
      }
  }
}

interface PassedBy extends PassedWork {
  readonly people: readonly (PersonId | null)[]
}

function passedGates(repair: RepairState): readonly PassedBy[] {
  return GATES.flatMap((gate) => {
    const { done } = repair.gates[gate]
    if (done?.kind !== 'passed') return []
    const target = { kind: 'gate', repairId: repair.id, gate } as const
    return [{ target, at: done.stamp.happened, people: [done.stamp.by, ...done.did] }]
  })
}

function signedTasks(car: CarState): readonly PassedBy[] {
  return [...car.tasks.values()].flatMap(({ id, status, done }) =>
    status === 'passed' && done !== null
      ? [
          {
            target: { kind: 'task', taskId: id } as const,
            at: done.stamp.happened,
            people: [done.stamp.by, ...done.did],
          },
        ]
      : [],
  )
}

/** A visit may be entered after its first hours were worked. */
function cameAt(car: CarState): Moment {
  const opened = [...car.visits.values()].map((visit) => visit.opened.happened)
  const begun = [...car.entries.values()].flatMap(({ time, gone }) =>
    gone === null ? [entryStart(time, null)] : [],
  )
  return [...opened, ...begun].reduce((first, at) => Math.min(first, at), Infinity)
}

function begunAt(car: CarState, { id }: RepairState, gate: Gate, input: ViewInput): Moment | null {
  const key = targetKey({ kind: 'gate', repairId: id, gate })
  const first = [...car.entries.values()]
    .flatMap((entry) => workedSpans(entry, input))
    .filter(({ known, target }) => known !== 'day' && targetKey(target) === key)
    .reduce((least, { from }) => Math.min(least, from), Infinity)
  return Number.isFinite(first) ? first : null
}

function gateForPhotos(car: CarState, repair: RepairState, gate: Gate, input: ViewInput): GateForPhotos {
  const isOpen = isStillOpen(repair, gate)
  const context = { at: input.now, workshop: input.workshop, did: null }
  return {
    begun: begunAt(car, repair, gate, input),
    passed: passedAt(repair.gates[gate]),
    asksBefore: repair.plan.gates[gate].asks.photosBefore > 0,
    after: lastBefore(repair, gate),
    layers: unmetPhotoAsks(car, repair, gate).flatMap(({ layerId }) =>
      layerId === null ? [] : [layerId as LayerId],
    ),
    prepared: isOpen && windowHolds(repair, gate, context).length > 0,
    asLeft: isOpen && nextGate(repair) === gate && isDeclined(car, repair, gate),
  }
}

function unmetPhotoAsks(car: CarState, repair: RepairState, gate: Gate) {
  if (!isStillOpen(repair, gate)) return []
  return gateAsks(car, repair.id, gate).filter(({ met, kind }) => !met && PHOTO_ASKS.has(kind))
}

const PHOTO_ASKS: ReadonlySet<string> = new Set(['photo', 'photo before', 'layer photo'])

const isStillOpen = (repair: RepairState, gate: Gate): boolean =>
  repair.gates[gate].status === 'open' && repair.closedAsFound === null

/** The pass that evidence must lie after. */
function lastBefore(repair: RepairState, gate: Gate): GateForPhotos['after'] {
  const at = evidenceStart(repair, gate)
  const before = gatesBefore(repair.plan, gate).findLast(
    (each) => Math.floor((passedAt(repair.gates[each]) ?? 0) / 1000) * 1000 === at,
  )
  return at === 0 || before === undefined ? null : { gate: before, at }
}

function isDeclined(car: CarState, repair: RepairState, gate: Gate): boolean {
  const key = targetKey({ kind: 'gate', repairId: repair.id, gate })
  return [...car.variations.values()].some(
    ({ status, lines }) =>
      (status === 'declined' || status === 'stopped') &&
      lines.some(({ target }) => targetKey(target) === key),
  )
}
