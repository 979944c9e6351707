import { isDeepStrictEqual } from 'node:util'
import { eq, sql } from 'drizzle-orm'
import type { CarState } from '../domain/car.ts'
import { judgedRepairs } from '../domain/estimate/judged-repair.ts'
import type { Fact, FactKind } from '../domain/facts.ts'
import type { CarId, EntryId, RepairId } from '../domain/ids.ts'
import { isFinished } from '../domain/rules/standing.ts'
import { perHandle, type Handle } from './handle.ts'
import { placeholders } from './placeholders.ts'
import { finishedRepair } from './schema.ts'

export type FinishedRow = Omit<typeof finishedRepair.$inferSelect, 'sequence'>

/** A row for each finished repair of a car, in any order. */
export function finishedRows(car: CarState): readonly FinishedRow[] {
  return judgedRepairs(car).map(({ finished, ...repair }) => ({
    ...repair,
    id: `${repair.carId} ${repair.repairId}`,
    number: finished.number,
    finishedAt: finished.at,
  }))
}

/**
 * Brings a car's rows up to date with the facts that it has just taken in; only rows that say something else are written.
 * Must run inside the transaction that adds the facts.
 */
export function deriveFinished(writer: Handle, car: CarState, facts: readonly Fact[]): void {
  const telling = facts.filter(({ kind }) => !TELL_NOTHING.has(kind))
  if (telling.length === 0) return
  const { ofCar, drop } = queries(writer)
  const stored = ofCar.all({ carId: car.id })
  if (telling.every((fact) => isOfUnfinished(fact, car, stored))) return
  const due = new Map(finishedRows(car).map((row) => [row.id, row]))
  for (const { sequence, ...row } of stored) {
    if (isDeepStrictEqual(row, due.get(row.id))) due.delete(row.id)
    else drop.run({ sequence })
  }
  addFinished(writer, [...due.values()])
}

/** Adds rows, each under a sequence that was never used. */
export function addFinished(writer: Handle, rows: readonly FinishedRow[]): void {
  const { add } = queries(writer)
  for (const row of rows) add.run({ ...row, sequence: null })
}

/** Takes out all rows of a car. */
export function dropFinished(writer: Handle, carId: CarId): void {
  queries(writer).dropCar.run({ carId })
}

/** In order of ids. */
export function readFinishedRows({ orm }: Pick<Handle, 'orm'>): readonly FinishedRow[] {
  const rows = orm.select().from(finishedRepair).orderBy(finishedRepair.id).all()
  return rows.map(({ sequence: _sequence, ...row }) => row)
}

/** Most facts are about repairs that neither are finished nor were: they change no row, and nothing is reckoned anew. */
function isOfUnfinished(
  fact: Fact,
  car: CarState,
  stored: readonly { readonly repairId: RepairId }[],
): boolean {
  const repairs = repairsOf(fact, car)
  // What was finished in an earlier visit stays so, however it stands now.
  return (
    car.visits.size === 1 &&
    repairs !== null &&
    repairs.every((id) => {
      const repair = car.repairs.get(id)
      const isOver = repair !== undefined && isFinished(repair)
      return !isOver && stored.every(({ repairId }) => repairId !== id)
    })
  )
}

/** The repairs that a fact is about alone; null where it may tell of others too. */
function repairsOf(fact: Fact, car: CarState): readonly RepairId[] | null {
  switch (fact.kind) {
    case 'clockStopped':
    case 'clockConfirmed':
    case 'timeLogged':
      return repairsOfEntry(car, fact.payload.entryId)
    case 'gatePassed':
    case 'gateNotNeeded':
    case 'outsideGraded':
    case 'layerGraded':
    case 'layersMarked':
    case 'estimateReviewed':
      return [fact.payload.repairId]
    case 'bandsStated':
      return fact.payload.repairs.map(({ repairId }) => repairId)
    default:
      return null
  }
}

function repairsOfEntry(car: CarState, entryId: EntryId): readonly RepairId[] {
  const on = car.entries.get(entryId)?.on
  return on?.kind !== 'work'
    ? []
    : on.targets.flatMap((target) => (target.kind === 'gate' ? [target.repairId] : []))
}

/** Frequent facts that change neither a repair's work nor its estimate, hours or layers. */
const TELL_NOTHING: ReadonlySet<FactKind> = new Set<FactKind>([
  'carAdded',
  'carChanged',
  'visitChanged',
  'safetySet',
  'dimensionAdded',
  'dimensionTargetSet',
  'dimensionRead',
  'noted',
  'fitGroupSet',
  'coverLinked',
  'coverUnlinked',
  'holdReleased',
  'releaseAsked',
  'holdSet',
  'holdCleared',
  'supportLifted',
  'photoAttached',
  'captionSet',
  'photoShowsSet',
  'photoMarked',
  'findingAdded',
  'conditionsRead',
  'drainsChecked',
  'weldsCounted',
  'fitUpRecorded',
  'surfacePrepared',
  'partNeeded',
  'partMoved',
  'costsSet',
  'costTakenOff',
  'costSpent',
  'reportIssued',
  'clockStarted',
  'watchCompleted',
  'bayBooked',
  'bookingChanged',
  'bookingCancelled',
  'shellMoved',
  'shellSentAway',
  'workPinned',
  'workUnpinned',
  'leftSaid',
  'decisionExpected',
  'fixturePlanned',
])

const queries = perHandle(({ orm }) => ({
  ofCar: orm
    .select()
    .from(finishedRepair)
    .where(eq(finishedRepair.carId, sql.placeholder('carId')))
    .prepare(),
  add: orm.insert(finishedRepair).values(placeholders(finishedRepair)).prepare(),
  drop: orm
    .delete(finishedRepair)
    .where(eq(finishedRepair.sequence, sql.placeholder('sequence')))
    .prepare(),
  dropCar: orm
    .delete(finishedRepair)
    .where(eq(finishedRepair.carId, sql.placeholder('carId')))
    .prepare(),
}))
