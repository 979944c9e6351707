import { asc, desc, eq, getTableColumns, gt, sql } from 'drizzle-orm'
import type { Fact } from '../domain/facts.ts'
import type { CarId } from '../domain/ids.ts'
import { perHandle, type Handle } from './handle.ts'
import { readPayload } from './journal-converters.ts'
import { CHAIN_START, type JournalRow } from './journal-hash.ts'
import { journal, payload, WORKSHOP_CHAIN, type Chain } from './schema.ts'

/** The end of a chain: how many lines it has and the hash of the last. */
export interface ChainHead {
  readonly chainNumber: number
  readonly hash: string
}

/** The chain of a car; the workshop's own for null. */
export function chainOf(carId: CarId | null): Chain {
  return carId ?? WORKSHOP_CHAIN
}

/**
 * Facts of a chain whose journal number is above `number`, and none above `last`. Read by hand: a car is folded from a
 * thousand of them.
 */
export function factsAfter(
  handle: Handle,
  chain: Chain,
  number: number,
  last: number = Number.MAX_SAFE_INTEGER,
): readonly Fact[] {
  return (queries(handle).factsAfter.all({ chain, number, last }) as readonly FactRow[]).map(rowToFact)
}

/**
 * Facts of the workshop's own chain after a place in it, and the place that its last line has. Those that link the heads of
 * the cars' chains are left out: ten years have thousands, and they say nothing of the workshop.
 */
export function workshopFactsAfter(
  handle: Handle,
  place: number,
): { readonly facts: readonly Fact[]; readonly place: number } {
  const last = headOf(handle, WORKSHOP_CHAIN).chainNumber
  if (last === place) return { facts: [], place }
  const rows = queries(handle).workshopAfter.all({ chain: WORKSHOP_CHAIN, place }) as readonly FactRow[]
  return { facts: rows.map(rowToFact), place: last }
}

/** The same of all chains. */
export function allFactsAfter(handle: Handle, number: number): readonly Fact[] {
  return queries(handle).allFactsAfter.all({ number }).map(rowToFact)
}

/** Where a chain has come to; before its first line to place 0 and CHAIN_START. */
export function headOf(handle: Handle, chain: Chain): ChainHead {
  return queries(handle).head.get({ chain }) ?? { chainNumber: 0, hash: CHAIN_START }
}

/** Heads of the cars' chains that have grown after a journal number, by car id. */
export function carHeadsAfter(handle: Handle, number: number): Readonly<Record<string, string>> {
  const heads = queries(handle).heads.all({ number }) as readonly {
    readonly chain: string
    readonly hash: string
  }[]
  return Object.fromEntries(heads.map(({ chain, hash }) => [chain, hash]))
}

/** The journal's last line; undefined while it is empty. */
export function lastLine(handle: Handle): Pick<JournalRow, 'number' | 'recorded' | 'hash'> | undefined {
  return queries(handle).last.get()
}

type FactRow = Omit<JournalRow, 'chainNumber' | 'digest' | 'prev' | 'hash'> & { readonly json: string }

/** A line with its payload as a fact of the newest version. @throws for a kind or version that this program does not know */
export function rowToFact(row: FactRow): Fact {
  const { number, version, visitId, by, device, commandId, happened, made, recorded } = row
  const carId = row.chain === WORKSHOP_CHAIN ? null : row.chain
  const envelope = { number, version, carId, visitId, by, device, commandId, happened, made, recorded }
  return { ...envelope, ...readPayload(row) }
}

const {
  chainNumber: _place,
  digest: _digest,
  prev: _prev,
  hash: _hash,
  ...factColumns
} = getTableColumns(journal)

const FACT_COLUMNS = `${Object.entries(factColumns)
  .map(([name, column]) => `journal.${column.name} AS ${name}`)
  .join(', ')}, payload.json`

const queries = perHandle(({ orm, sqlite }) => ({
  factsAfter: sqlite.prepare(
    `SELECT ${FACT_COLUMNS} FROM journal JOIN payload ON payload.number = journal.number
     WHERE chain = @chain AND journal.number > @number AND journal.number <= @last ORDER BY chain_number`,
  ),
  workshopAfter: sqlite.prepare(
    `SELECT ${FACT_COLUMNS} FROM journal JOIN payload ON payload.number = journal.number
     WHERE chain = @chain AND chain_number > @place AND kind <> 'headsLinked' ORDER BY chain_number`,
  ),
  allFactsAfter: orm
    .select({ ...factColumns, json: payload.json })
    .from(journal)
    .innerJoin(payload, eq(payload.number, journal.number))
    .where(gt(journal.number, sql.placeholder('number')))
    .orderBy(asc(journal.number))
    .prepare(),
  head: orm
    .select({ chainNumber: journal.chainNumber, hash: journal.hash })
    .from(journal)
    .where(eq(journal.chain, sql.placeholder('chain')))
    .orderBy(desc(journal.chainNumber))
    .limit(1)
    .prepare(),
  last: orm
    .select({ number: journal.number, recorded: journal.recorded, hash: journal.hash })
    .from(journal)
    .where(eq(journal.number, sql`(SELECT max(number) FROM journal)`))
    .prepare(),
  heads: sqlite.prepare(
    `SELECT chain, hash FROM car CROSS JOIN journal ON journal.number = car.revision
     WHERE revision > @number ORDER BY chain`,
  ),
}))
