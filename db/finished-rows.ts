import { isDeepStrictEqual } from 'node:util'
import { eq, sql } from 'drizzle-orm'
import type { CarState } from '../domain/car.ts'
import { judgedRepairs } from '../domain/estimate/judged-repair.ts'
import type { Fact, FactKind } from '../domain/facts.ts'
import type { CarId } from '../domain/ids.ts'
import { perHandle, type Handle } from './handle.ts'
import { placeholders } from './placeholders.ts'
import { finishedRepair } from './schema.ts'

export type FinishedRow = Omit<typeof finishedRepair.$inferSelect, 'sequence'>

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
  if (facts.every(({ kind }) => TELL_NOTHING.has(kind))) return
  const due = new Map(finishedRows(car).map((row) => [row.id, row]))
  const { ofCar, drop } = queries(writer)
  for (const { sequence, ...row } of ofCar.all({ carId: car.id })) {
    if (isDeepStrictEqual(row, due.get(row.id))) due.delete(row.id)
    else drop.run({ sequence })
  }
  addFinished(writer, [...due.values()])
}

export function addFinished(writer: Handle, rows: readonly FinishedRow[]): void {
  const { add } = queries(writer)
  for (const row of rows) add.run({ ...row, sequence: null })
}

export function dropFinished(writer: Handle, carId: CarId): void {
  queries(writer).dropCar.run({ carId })
}

/** In order of ids. */
export function readFinishedRows({ orm }: Pick<Handle, 'orm'>): readonly FinishedRow[] {
  const rows = orm.select().from(finishedRepair).orderBy(finishedRepair.id).all()
  return rows.map(({ sequence: _sequence, ...row }) => row)
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
  'findingAdded',
  'conditionsRead',
  'drainsChecked',
  'weldsCounted',
  'fitUpRecorded',
  'surfacePrepared',
  'partNeeded',
  'partMoved',
  'costsSet',
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
