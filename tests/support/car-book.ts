import { carBook } from '../../domain/report/car-book.ts'
import type { BookBlock, CarBook } from '../../domain/report/car-book-shapes.ts'
import type { CarBookInput } from '../../domain/report/car-book-telling.ts'
import { NOTHING_MORE } from '../../domain/report/file-choices.ts'
import { buildWorkshop, nameOf } from './workshop-builder.ts'

/** The book of these facts, made in the winter of 2026 with nothing ticked unless said otherwise. */
export function bookOn(facts: CarBookInput['facts'], more: Partial<CarBookInput> = {}): CarBook {
  const book = carBook({
    facts,
    head: '0123456789abcdef'.repeat(4),
    workshop: buildWorkshop(),
    nameOf,
    contactOf: () => null,
    choices: NOTHING_MORE,
    now: Date.parse('2026-12-28T09:00:00Z'),
    ...more,
  })
  if (book === null) throw new Error('there is no car in these facts')
  return book
}

/** What a chapter says, line by line; a section's heading stands before its lines. Empty when it is not there. */
export function chapterLines(book: CarBook, title: string, heading?: string): readonly string[] {
  const chapter = book.chapters.find((each) => each.title === title)
  if (chapter === undefined) return []
  if (heading === undefined)
    return [
      chapter.subtitle,
      ...chapter.sections.flatMap((section) => [section.heading, ...section.blocks.flatMap(bookBlockLines)]),
    ]
  return chapter.sections
    .filter((section) => section.heading === heading)
    .flatMap(({ blocks }) => blocks.flatMap(bookBlockLines))
}

function bookBlockLines(block: BookBlock): readonly string[] {
  switch (block.kind) {
    case 'text':
    case 'caution':
      return [block.text]
    case 'list':
      return block.items
    case 'lines':
      return block.lines.map(({ lead, text }) => `${lead} | ${text}`)
    case 'table':
      return block.rows.map((row) => row.join(' | '))
    case 'photos':
      return block.photos.map(({ number, taken, caption }) => `Photo ${number}, ${taken}: ${caption}`)
    case 'map':
      return block.repairs.map(({ name, state }) => `${name}, ${state}`)
    case 'standing':
      return []
  }
}

/** Every word that is printed. */
export function wordsOfBook(book: CarBook): readonly string[] {
  const { workshop, car, shell, body, written, head, about, withheld, verify, cautions, chapters } = book
  return [
    workshop,
    car,
    shell,
    body,
    written,
    head,
    ...about,
    ...withheld,
    ...verify,
    ...cautions,
    ...chapters.flatMap((chapter) => [chapter.title, ...chapterLines(book, chapter.title)]),
  ]
}
