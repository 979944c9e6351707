import { eq, sql } from 'drizzle-orm'
import type { CarState } from '../domain/car.ts'
import type { Fact } from '../domain/facts.ts'
import type { CarId } from '../domain/ids.ts'
import { foldWords } from '../domain/text/fold-words.ts'
import { changedTexts, searchedTexts, type SearchedText } from '../domain/views/searched-texts.ts'
import { perHandle, type Handle } from './handle.ts'
import { placeholders } from './placeholders.ts'
import { searched } from './schema.ts'

export type SearchedRow = typeof searched.$inferSelect

/** What a car is known by in a search. */
type CarNames = Pick<CarState, 'name' | 'shellNumber'>

/** Brings a car's texts up to date with the facts that it has just taken in, within the transaction that adds them. */
export function deriveSearched(writer: Handle, car: CarState, facts: readonly Fact[]): void {
  for (const fact of facts) {
    const changed = changedTexts(car, fact)
    if (changed === 'all') {
      dropSearched(writer, car.id)
      addSearched(writer, car, searchedTexts(car))
      return
    }
    if ('gone' in changed) queries(writer).drop.run({ number: changed.gone })
    else {
      for (const { number } of changed) queries(writer).drop.run({ number })
      addSearched(writer, car, changed)
    }
  }
}

/** Adds texts with their words. @throws SqliteError for a text that is there already */
export function addSearched(writer: Handle, car: CarNames, texts: readonly SearchedText[]): void {
  for (const text of texts) {
    queries(writer).add.run({ ...text })
    addWords(writer, text, car)
  }
}

/** Takes out all texts of a car; their words go with them by a trigger. */
export function dropSearched(writer: Handle, carId: CarId): void {
  queries(writer).dropCar.run({ carId })
}

/** Their words go by a trigger, as many as there are; those that a damaged table no longer names go here. */
export function dropAllSearched({ orm, sqlite }: Handle): void {
  orm.delete(searched).run()
  sqlite.exec(`INSERT INTO searched_words (searched_words) VALUES ('delete-all')`)
}

/** Makes the words anew of texts that came from another database. */
export function indexSearched(writer: Handle): void {
  const rows = writer.sqlite
    .prepare(
      `SELECT number, kind, text, beside, name, shell_number AS shellNumber FROM searched JOIN car ON id = car_id`,
    )
    .all() as readonly (Worded & CarNames)[]
  for (const row of rows) addWords(writer, row, row)
}

type Worded = Pick<SearchedRow, 'number' | 'kind' | 'text' | 'beside'>

/** In order of numbers. */
export function readSearchedRows({ orm }: Pick<Handle, 'orm'>): readonly SearchedText[] {
  return orm.select().from(searched).orderBy(searched.number).all()
}

function addWords(
  writer: Handle,
  { number, kind, text, beside }: Worded,
  { name, shellNumber }: CarNames,
): void {
  const own = foldWords(text).join(' ')
  const context = foldWords(`${beside} ${name} ${shellNumber}`).join(' ')
  queries(writer).addWords[kind].run(number, own, context)
}

const queries = perHandle(({ orm, sqlite }) => {
  const wordsOf = (column: SearchedRow['kind']) =>
    sqlite.prepare(`INSERT INTO searched_words (rowid, ${column}, context) VALUES (?, ?, ?)`)
  return {
    add: orm.insert(searched).values(placeholders(searched)).prepare(),
    drop: orm
      .delete(searched)
      .where(eq(searched.number, sql.placeholder('number')))
      .prepare(),
    dropCar: orm
      .delete(searched)
      .where(eq(searched.carId, sql.placeholder('carId')))
      .prepare(),
    addWords: { repair: wordsOf('repair'), photo: wordsOf('photo'), note: wordsOf('note') },
  }
})
