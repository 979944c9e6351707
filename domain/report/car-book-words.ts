import { capital } from '../text/words.ts'

/*
 * What people wrote is quoted in a car's book as they wrote it: a record is not put into better words.
 */

/** On one line and without the full stop, for inside a sentence. */
export function clause(text: string): string {
  return text
    .replaceAll(/\s+/g, ' ')
    .trim()
    .replace(/[.,;:]+$/, '')
}

/** With a capital and one full stop; empty stays empty. */
export function sentence(text: string): string {
  const tidy = text.replaceAll(/\s+/g, ' ').trim()
  if (tidy === '') return ''
  const closed = /[.!?…]$/.test(tidy) ? tidy : `${clause(tidy)}.`
  return capital(closed)
}

/** 'a, b and c' of names that may hold commas themselves: then 'a; b; and c'. */
export function series(names: readonly string[]): string {
  if (names.length < 2) return names.join('')
  const [glue, and] = names.some((name) => name.includes(',')) ? ['; ', '; and '] : [', ', ' and ']
  return `${names.slice(0, -1).join(glue)}${and}${names.at(-1)}`
}
