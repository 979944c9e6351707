import { and, asc, desc, eq, getTableColumns, gt, sql } from 'drizzle-orm'
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

export function chainOf(carId: CarId | null): Chain {
  return carId ?? WORKSHOP_CHAIN
}

/** Facts of a chain whose journal number is above `number`. */
export function factsAfter(handle: Handle, chain: Chain, number: number): readonly Fact[] {
  return queries(handle).factsAfter.all({ chain, number }).map(rowToFact)
}

/** The same of all chains. */
export function allFactsAfter(handle: Handle, number: number): readonly Fact[] {
  return queries(handle).allFactsAfter.all({ number }).map(rowToFact)
}

export function headOf(handle: Handle, chain: Chain): ChainHead {
  return queries(handle).head.get({ chain }) ?? { chainNumber: 0, hash: CHAIN_START }
}

/** Every chain's head, by car id; the workshop's own is not among them. */
export function carHeads(handle: Handle): Readonly<Record<string, string>> {
  const heads = queries(handle).heads.all() as readonly { readonly chain: string; readonly hash: string }[]
  return Object.fromEntries(heads.map(({ chain, hash }) => [chain, hash]))
}

export function lastLine(handle: Handle): Pick<JournalRow, 'number' | 'recorded' | 'hash'> | undefined {
  return queries(handle).last.get()
}

type FactRow = Omit<JournalRow, 'chainNumber' | 'digest' | 'prev' | 'hash'> & { readonly json: string }

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

const queries = perHandle(({ orm, sqlite }) => ({
  factsAfter: orm
    .select({ ...factColumns, json: payload.json })
    .from(journal)
    .innerJoin(payload, eq(payload.number, journal.number))
    .where(and(eq(journal.chain, sql.placeholder('chain')), gt(journal.number, sql.placeholder('number'))))
    .orderBy(asc(journal.number))
    .prepare(),
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
    `SELECT chain, hash FROM car JOIN journal ON journal.number = car.revision ORDER BY chain`,
  ),
}))
