import type { Fact } from '../domain/facts.ts'
import type { CarId } from '../domain/ids.ts'
import { allFactsAfter, chainOf, factsAfter, headOf, lastLine } from './chains.ts'
import type { ReadDatabase } from './database.ts'
import { workshopFacts } from './state-cache.ts'

/** All facts of one car, or of the workshop itself for null, in journal order. */
export function readFacts(db: ReadDatabase, carId: CarId | null): readonly Fact[] {
  return factsAfter(db.reader, chainOf(carId), 0)
}

/** Facts of the workshop itself, as they stay in memory: without those that link the heads of the cars' chains. */
export function readWorkshopFacts(db: ReadDatabase): readonly Fact[] {
  return workshopFacts(db.reader, db.cache)
}

/** Every fact whose journal number is above `number`, of all cars and of the workshop, in journal order. */
export function factsSince(db: ReadDatabase, number: number): readonly Fact[] {
  return allFactsAfter(db.reader, number)
}

/** Hash of the last line of a car's chain, or the workshop's; what reports, bags and copies print. */
export function chainHead(db: ReadDatabase, carId: CarId | null): string {
  return headOf(db.reader, chainOf(carId)).hash
}

/** Number of the last line of the journal; 0 when it is empty. */
export function lastNumber(db: ReadDatabase): number {
  return lastLine(db.reader)?.number ?? 0
}

/** Hash of the journal's first line, which stays the same in every copy of it; null when it is empty. */
export function firstHash({ reader }: Pick<ReadDatabase, 'reader'>): string | null {
  const hash = reader.sqlite.prepare('SELECT hash FROM journal WHERE number = 1').pluck().get()
  return typeof hash === 'string' ? hash : null
}
