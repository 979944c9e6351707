import type { BookBlock, BookChapter, BookColumn, BookLine, BookSection } from './car-book-shapes.ts'

/*
 * Parts of a book that are there only when they say something.
 */

export const textBlocks = (texts: readonly string[]): readonly BookBlock[] =>
  texts.filter((text) => text !== '').map((text) => ({ kind: 'text', text }))

export const listBlock = (items: readonly string[]): readonly BookBlock[] =>
  items.length === 0 ? [] : [{ kind: 'list', items }]

export const linesBlock = (lines: readonly BookLine[]): readonly BookBlock[] =>
  lines.length === 0 ? [] : [{ kind: 'lines', lines }]

export function tableBlock(
  columns: readonly (readonly [head: string, share: number])[],
  rows: readonly (readonly string[])[],
): readonly BookBlock[] {
  if (rows.length === 0) return []
  return [{ kind: 'table', columns: columns.map(([head, share]): BookColumn => ({ head, share })), rows }]
}

export function bookSection(heading: string, ...blocks: readonly (readonly BookBlock[])[]): BookSection {
  return { heading, blocks: blocks.flat() }
}

/** Without its empty sections; null when nothing is left. */
export function bookChapter(
  title: string,
  subtitle: string,
  sections: readonly BookSection[],
): BookChapter | null {
  const told = sections.filter(({ blocks }) => blocks.length > 0)
  return told.length === 0 ? null : { title, subtitle, sections: told }
}
