import { z } from 'zod'

/** Visible characters (grapheme clusters): an emoji with skin tone and joiners counts as one. */
export const NAME_LIMIT = 120
const NOTE_LIMIT = 10_000

/** One line, 1 to 120 visible characters: names of cars, repairs, people, bays. */
export const nameSchema = z
  .string('Give a name.')
  .overwrite(cleanLine)
  .refine(hasVisibleText, 'Give a name.')
  .refine(
    (text) => isWithinLimit(text, NAME_LIMIT),
    `Use at most ${NAME_LIMIT} characters; put the rest into a note.`,
  )

/** Several lines, 0 to 10,000 visible characters: notes that may be left empty. */
export const optionalNoteSchema = z
  .string('Give text.')
  .overwrite(cleanText)
  .refine(
    (text) => isWithinLimit(text, NOTE_LIMIT),
    'Use at most 10,000 characters; put the rest into a second note.',
  )

/** Several lines, 1 to 10,000 visible characters: reasons and notes that must say something. */
export const noteSchema = optionalNoteSchema.refine(hasVisibleText, 'Write a few words here.')

/**
 * Text as it is stored, on one line: like {@link cleanText}, each run of spaces, tabs and line breaks one space.
 * Markup is kept as plain text; escaping is the business of whatever shows it.
 */
export function cleanLine(text: string): string {
  return cleanText(text).replace(/\s+/g, ' ')
}

/**
 * Text as it is stored: LF line ends, no control characters, no direction overrides (they can make text read
 * as something else), no lone surrogates (they have no UTF-8 and so no digest), NFC, trimmed. Idempotent.
 */
export function cleanText(text: string): string {
  return text
    .toWellFormed()
    .replace(/\r\n?|[\p{Zl}\p{Zp}]/gu, '\n')
    .replace(/(?![\n\t])\p{Cc}|[\u202A-\u202E\u2066-\u2069\uFEFF]/gu, '')
    .normalize('NFC')
    .trim()
}

/** Number of characters as a reader counts them (Unicode UAX 29 extended grapheme clusters). */
export function visibleLength(text: string): number {
  return Iterator.from(graphemes.segment(text)).reduce((count) => count + 1, 0)
}

const graphemes = new Intl.Segmenter('en', { granularity: 'grapheme' })

/** The longest emoji in use take under 20 code units; without this bound one 'character' could hold megabytes of accents. */
const MOST_UNITS_PER_CHARACTER = 32

function isWithinLimit(text: string, limit: number): boolean {
  if (text.length <= limit) return true
  return text.length <= limit * MOST_UNITS_PER_CHARACTER && visibleLength(text) <= limit
}

/** False for text of spaces and characters that Unicode shows as nothing (zero-width, fillers). */
function hasVisibleText(text: string): boolean {
  return /[^\p{Z}\p{Cc}\p{Default_Ignorable_Code_Point}]/u.test(text)
}
