import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { contactBook } from '../../../db/contacts.ts'
import { chainHead, readFacts } from '../../../db/journal.ts'
import { readWorkshop } from '../../../db/reads.ts'
import { bookPhotos, type CarBook } from '../../../domain/report/car-book-shapes.ts'
import type { FileChoices } from '../../../domain/report/file-choices.ts'
import { bookOn, wordsOfBook } from '../../support/car-book.ts'
import { carWithEveryKind, type FiledCar } from '../../support/car-file.ts'

let filed: FiledCar

beforeAll(async () => {
  filed = await carWithEveryKind()
})
afterAll(() => filed.workshop.close())

const bookWith = (choices: FileChoices): CarBook => {
  const { workshop, carId } = filed
  const { nameOf, contactOf } = contactBook(workshop.db)
  return bookOn(readFacts(workshop.db, carId), {
    head: chainHead(workshop.db, carId),
    workshop: readWorkshop(workshop.db),
    nameOf,
    contactOf,
    choices,
  })
}

const CHOICES = [false, true].flatMap((contacts) =>
  [false, true].flatMap((prices) => [false, true].map((hours) => ({ contacts, prices, hours }))),
)

describe('the book of a car whose record holds every kind of fact', () => {
  it.each(CHOICES)('has nothing empty, undefined or half said with %o', (choices) => {
    const book = bookWith(choices)
    for (const { title, sections } of book.chapters) {
      expect(title).not.toBe('')
      expect(sections.length).toBeGreaterThan(0)
      for (const { blocks } of sections) expect(blocks.length).toBeGreaterThan(0)
      for (const block of sections.flatMap(({ blocks }) => blocks)) {
        if (block.kind === 'table') {
          expect(block.rows.length).toBeGreaterThan(0)
          for (const row of block.rows) expect(row).toHaveLength(block.columns.length)
        }
        if (block.kind === 'lines') expect(block.lines.length).toBeGreaterThan(0)
      }
    }
    const bad = wordsOfBook(book).filter((words) =>
      /undefined|NaN|null|\[object|somebody|\b1 (lines|repairs|photos|entries|costs)\b| {2}|\.\.|^ | $/.test(
        words,
      ),
    )
    expect(bad).toEqual([])
  })

  it('tells every line of the record, one by one or as withheld', () => {
    const record = bookWith({ contacts: false, prices: false, hours: false }).chapters.at(-1)
    const table = record?.sections[0]?.blocks.find((block) => block.kind === 'table')
    if (table?.kind !== 'table') throw new Error('the record has no table')
    const told = table.rows.reduce(
      (sum, row) => sum + Number(/^(\d+) lines? withheld/.exec(row[3] ?? '')?.[1] ?? 1),
      0,
    )
    expect(told).toBe(readFacts(filed.workshop.db, filed.carId).length)
  })

  it('shows every photo that stands once', () => {
    const shown = bookPhotos(bookWith({ contacts: false, prices: false, hours: false }))
    const standing = filed.workshop.car(filed.carId).attachments
    expect(shown.map(({ attachmentId }) => attachmentId).toSorted()).toEqual([...standing.keys()].toSorted())
    expect(shown.map(({ number }) => number)).toEqual(shown.map((_, index) => index + 1))
  })
})
