import { capital } from '../text/words.ts'

/** What people typed, as one sentence: tidied, capital first, one full stop. Empty stays empty. */
export function sentence(text: string): string {
  const closed = ended(clause(text, ''))
  return capital(closed)
}

/**
 * The same inside a sentence: without its full stop, and with the small letter that a word in the middle of one has. Names
 * that begin with a capital and small letters are not told from words.
 *
 * @param small '' leaves the first letter as it was typed
 */
export function clause(text: string, small: '' | 'small' = ''): string {
  const tidy = tidied(text)
    .replace(/[.,;:\s]+$/, '')
    .trim()
  return small === 'small' && /^\p{Lu}(\p{Ll}| )/u.test(tidy) && !/^I\b/.test(tidy)
    ? tidy.charAt(0).toLowerCase() + tidy.slice(1)
    : tidy
}

/** With a full stop, where it does not end by itself: 'now!' stays, and so does '(see above.)'. */
export function ended(text: string): string {
  return text === '' || /[.!?…]["'’”“)]*$/.test(text) ? text : `${text}.`
}

/**
 * Typed text on one line: a list becomes its items, blanks before marks and marks after marks go, three dots are one sign,
 * and what is shouted is said.
 */
function tidied(text: string): string {
  const line = oneLine(text)
    .replaceAll('...', '…')
    .replaceAll(/\s+/g, ' ')
    .replaceAll(/ ([.,;:!?…])/g, '$1')
    .replaceAll(/([.,;:])[.,;:]+/g, (marks) => (marks.includes('.') ? '.' : marks.charAt(0)))
    .trim()
  return isShouted(line) ? line.charAt(0) + line.slice(1).toLowerCase() : line
}

/** Lines that no mark ends, or that are items of a list, are parted by semicolons. */
function oneLine(text: string): string {
  const lines = text
    .split(/\n+/)
    .map((each) => each.trim())
    .filter((each) => each !== '')
  const isList = lines.length > 1 && lines.every((each) => LIST_MARK.test(each))
  const parts = isList ? lines.map((each) => each.replace(LIST_MARK, '').replace(/[.,;:\s]+$/, '')) : lines
  return parts
    .map((part, index) =>
      index < parts.length - 1 && (isList || !/[.,;:!?…]$/.test(part)) ? `${part};` : part,
    )
    .join(' ')
}

const LIST_MARK = /^([-–—*•]|\d{1,2}[.)])\s+/

/** Three words and more without a small letter; fewer may be abbreviations. */
const isShouted = (text: string): boolean =>
  !/\p{Ll}/u.test(text) && text.split(' ').filter((word) => /\p{Lu}{2}/u.test(word)).length > 2

/** At most `most` items, then the words for those left out; a single one more stands itself. */
export function atMost(
  items: readonly string[],
  most: number,
  andMore: (count: number) => string,
): readonly string[] {
  const more = items.length - most
  return more > 1 ? [...items.slice(0, most), andMore(more)] : items
}

/** Paragraphs of free text: split at empty lines or line ends, tidied. */
export function paragraphs(text: string): readonly string[] {
  return text
    .split(/\n+/)
    .map((line) => line.replaceAll(/\s+/g, ' ').trim())
    .filter((line) => line !== '')
}
