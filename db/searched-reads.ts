import type { SearchedKind } from '../domain/views/searched-texts.ts'
import type { ReadDatabase } from './database.ts'
import { perHandle } from './handle.ts'
import type { SearchedRow } from './searched-rows.ts'

export interface SearchedFound {
  /** At most {@link MOST_COUNTED}. */
  readonly total: number
  /** Those that have every word whole first, the newest first among either. */
  readonly rows: readonly FoundRow[]
}

/** With the digest of the photo's original; null for what is no photo. */
export type FoundRow = SearchedRow & { readonly sha256: string | null }

/** More than that nobody goes through; counting on would take milliseconds for a word that every photo has. */
export const MOST_COUNTED = 1_000

/** One letter begins too many words to be of use, and would take ten times as long. */
const LEAST_BEGINNING = 2

/**
 * Texts of one kind in which every word, or one that begins with it, is their own or of what they belong to, and one at least
 * their own.
 *
 * @param words folded, at least one
 */
export function readSearched(
  { reader }: Pick<ReadDatabase, 'reader'>,
  kind: SearchedKind,
  words: readonly string[],
  most: number,
): SearchedFound {
  const { list, count } = queries(reader)
  const whole = list.all(matching(kind, words.map(entire)), most) as readonly FoundRow[]
  const begun = matching(kind, words.map(beginning))
  if (whole.length === most) return { rows: whole, total: count.get(begun, MOST_COUNTED) as number }
  const numbers = new Set(whole.map(({ number }) => number))
  const others = (list.all(begun, most + whole.length) as readonly FoundRow[]).filter(
    ({ number }) => !numbers.has(number),
  )
  const rows = [...whole, ...others].slice(0, most)
  return { rows, total: rows.length < most ? rows.length : (count.get(begun, MOST_COUNTED) as number) }
}

/** In FTS5's own language; folded words hold nothing that it would take for more than a word. */
function matching(kind: SearchedKind, terms: readonly string[]): string {
  const own = `{${kind}} : (${terms.join(' OR ')})`
  return terms.length === 1 ? own : `${own} AND {${kind} context} : (${terms.join(' AND ')})`
}

const entire = (word: string): string => `"${word}"`
const beginning = (word: string): string => (word.length < LEAST_BEGINNING ? entire(word) : `"${word}"*`)

const queries = perHandle(({ sqlite }) => ({
  list: sqlite.prepare(
    `SELECT number, kind, searched.car_id AS carId, repair_id AS repairId, attachment_id AS attachmentId, at, text, beside, sha256
     FROM searched_words CROSS JOIN searched ON searched.number = searched_words.rowid
     LEFT JOIN attachment ON attachment.id = attachment_id
     WHERE searched_words MATCH ? ORDER BY searched_words.rowid DESC LIMIT ?`,
  ),
  count: sqlite
    .prepare(`SELECT count(*) FROM (SELECT 1 FROM searched_words WHERE searched_words MATCH ? LIMIT ?)`)
    .pluck(),
}))
