/** What people typed, as one sentence: white space closed up, capital first, one full stop. Empty stays empty. */
export function sentence(text: string): string {
  const tidy = text.replaceAll(/\s+/g, ' ').trim()
  if (tidy === '') return ''
  const closed = /[.!?…]$/.test(tidy) ? tidy : `${tidy.replace(/[,;:]$/, '')}.`
  return closed.charAt(0).toUpperCase() + closed.slice(1)
}

/** The same inside a sentence: without its full stop. */
export function clause(text: string): string {
  return text
    .replaceAll(/\s+/g, ' ')
    .trim()
    .replace(/[.,;:]+$/, '')
}

/** 'a, b and c' of parts that may hold commas themselves: then 'a; b; and c'. */
export function series(parts: readonly string[]): string {
  if (parts.length < 2) return parts.join('')
  const last = parts.at(-1) ?? ''
  const before = parts.slice(0, -1)
  return parts.some((part) => part.includes(','))
    ? `${before.join('; ')}; and ${last}`
    : `${before.join(', ')} and ${last}`
}

/** At most `most` items, then 'and 3 more'. */
export function atMost(items: readonly string[], most: number): readonly string[] {
  const more = items.length - most
  return more > 0 ? [...items.slice(0, most), `and ${more} more`] : items
}

/** Paragraphs of free text: split at empty lines or line ends, tidied. */
export function paragraphs(text: string): readonly string[] {
  return text
    .split(/\n+/)
    .map((line) => line.replaceAll(/\s+/g, ' ').trim())
    .filter((line) => line !== '')
}
