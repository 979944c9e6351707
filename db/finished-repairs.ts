import { learnHistory, type EstimateHistory } from '../domain/estimate/estimate-history.ts'
import type { JudgedRepair } from '../domain/estimate/judged-repair.ts'
import type { ReadDatabase } from './database.ts'
import type { FinishedRow } from './finished-rows.ts'
import { perHandle, type Handle } from './handle.ts'
import type { StateCache } from './state-cache.ts'

/** The finished repairs of all cars, in the order of finishing. The same array as long as nothing has changed. */
export function readFinishedRepairs({ reader, cache }: ReadDatabase): readonly JudgedRepair[] {
  return currentFinished(reader, cache)
}

/** What they tell of later ones. The same object as long as nothing has changed. */
export function readEstimateHistory({ reader, cache }: ReadDatabase): EstimateHistory {
  return currentHistory(reader, cache)
}

/** The same as the connection sees it: inside a transaction the writer also sees what that has added so far. */
export function currentHistory(handle: Handle, cache: StateCache): EstimateHistory {
  const repairs = currentFinished(handle, cache)
  const last = cache.learned
  if (last?.table.repairs === repairs) return last
  const history = learnHistory(repairs, last)
  cache.learned = history
  return history
}

/** Rows are only written and taken out, never changed, and no sequence is used twice: only new ones are read. */
export function currentFinished(handle: Handle, cache: StateCache): readonly JudgedRepair[] {
  const { count, last } = queries(handle).extent.get() as { readonly count: number; readonly last: number }
  const known = cache.finished
  if (known !== null && known.last === last && known.rows.size === count) return known.repairs
  const added = readAfter(handle, known?.last ?? 0)
  const rows = new Map(known?.rows)
  for (const [sequence, repair] of added) rows.set(sequence, repair)
  const gone = rows.size > count ? dropGone(handle, rows) : new Set<JudgedRepair>()
  const repairs = inFinishOrder(
    (known?.repairs ?? []).filter((repair) => !gone.has(repair)),
    added.map(([, repair]) => repair),
  )
  cache.finished = { last, rows, repairs }
  return repairs
}

function dropGone(handle: Handle, rows: Map<number, JudgedRepair>): ReadonlySet<JudgedRepair> {
  const kept = new Set(queries(handle).sequences.all())
  const gone = [...rows].filter(([sequence]) => !kept.has(sequence))
  for (const [sequence] of gone) rows.delete(sequence)
  return new Set(gone.map(([, repair]) => repair))
}

/** @param known in finish order; the few that are added to them mostly end behind the last */
function inFinishOrder(
  known: readonly JudgedRepair[],
  added: readonly JudgedRepair[],
): readonly JudgedRepair[] {
  if (known.length === 0) return added.toSorted(byFinish)
  const repairs = [...known]
  for (const repair of added)
    repairs.splice(repairs.findLastIndex((each) => byFinish(each, repair) < 0) + 1, 0, repair)
  return repairs
}

/** One act may finish several repairs, and repairs of two cars may have the same id. */
const byFinish = (a: JudgedRepair, b: JudgedRepair): number =>
  a.finished.number - b.finished.number || compare(a.carId, b.carId) || compare(a.repairId, b.repairId)

const compare = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0)

/** In any order. Read by hand: a mapping of ten thousand rows takes longer than reading them. */
function readAfter(handle: Handle, sequence: number): readonly (readonly [number, JudgedRepair])[] {
  return queries(handle)
    .after.all(sequence)
    .map((row) => {
      const { sequence: own, number, finishedAt, gates, taken, hidden, stated, ...plain } = row as StoredRow
      return [
        own,
        {
          ...plain,
          finished: { number, at: finishedAt },
          gates: JSON.parse(gates) as JudgedRepair['gates'],
          taken: taken === 1,
          hidden: JSON.parse(hidden) as JudgedRepair['hidden'],
          stated: JSON.parse(stated) as JudgedRepair['stated'],
        },
      ]
    })
}

/** As SQLite gives it, without what only the table needs. */
type StoredRow = Omit<FinishedRow, 'id' | 'gates' | 'taken' | 'hidden' | 'stated'> & {
  readonly [Json in 'gates' | 'hidden' | 'stated']: string
} & { readonly sequence: number; readonly taken: 0 | 1 }

const queries = perHandle(({ sqlite }) => ({
  extent: sqlite.prepare('SELECT count(*) AS count, coalesce(max(sequence), 0) AS last FROM finished_repair'),
  sequences: sqlite.prepare('SELECT sequence FROM finished_repair').pluck(),
  after: sqlite.prepare(
    `SELECT sequence, car_id AS carId, repair_id AS repairId, visit_id AS visitId, type_id AS typeId, estimator, number,
       finished_at AS finishedAt, before, assessed, actual, gates, taken, outside, hidden, worst_hidden AS worstHidden, stated
     FROM finished_repair WHERE sequence > ?`,
  ),
}))
