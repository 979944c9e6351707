import { hours, plural } from '../text/words.ts'
import { entryDate, entryHours } from '../value/entry-hours.ts'
import { loggedOnWords } from '../views/work-words.ts'
import { bookChapter, bookSection, tableBlock, textBlocks } from './car-book-blocks.ts'
import type { BookChapter } from './car-book-shapes.ts'
import { type BookTelling, dateOf } from './car-book-telling.ts'

/** Who worked on what for how long, day by day; only where the hours may leave. A running clock counts up to now. */
export function hoursChapter({ car, context, choices }: BookTelling): BookChapter | null {
  if (!choices.hours) return null
  const entries = [...car.entries.values()]
    .filter(({ gone }) => gone === null)
    .map((entry) => ({ entry, date: entryDate(entry, context.workshop.zone) }))
    .toSorted((a, b) => a.date.localeCompare(b.date) || a.entry.stamp.number - b.entry.stamp.number)
  const all = entries.reduce((sum, { entry }) => sum + entryHours(entry, context), 0)
  return bookChapter('Hours worked', plural('entry', entries.length, 'entries'), [
    bookSection(
      '',
      entries.length === 0 ? [] : textBlocks([`${hours(all, 2)} of work are written down on this car.`]),
      tableBlock(
        [
          ['Day', 1.7],
          ['Person', 1.5],
          ['Work', 5],
          ['Hours', 1],
        ],
        entries.map(({ entry, date }) => [
          dateOf(date),
          context.nameOf(entry.personId),
          loggedOnWords(car, entry.on),
          hours(entryHours(entry, context), 2),
        ]),
      ),
    ),
  ])
}
