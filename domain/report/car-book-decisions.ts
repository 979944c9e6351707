import type { VariationState } from '../car.ts'
import { hours, plural } from '../text/words.ts'
import { isAgreed } from '../value/varied-hours.ts'
import { variationView } from '../views/variation-view.ts'
import { bookChapter, bookSection, linesBlock, tableBlock, textBlocks } from './car-book-blocks.ts'
import { photosShow } from './car-book-photos.ts'
import type { BookBlock, BookChapter, BookSection } from './car-book-shapes.ts'
import { amountWords, type BookTelling, dayOf, momentOf, nameOfStamp } from './car-book-telling.ts'
import { clause, sentence, series } from './car-book-words.ts'

/** Extra or less work that was put to its payers, and what they decided. */
export function decisionsChapter(telling: BookTelling): BookChapter | null {
  return bookChapter(
    'Changes to the agreement',
    'What was asked and what was decided',
    [...telling.car.variations.values()].map((variation) => variationSection(telling, variation)),
  )
}

function variationSection(telling: BookTelling, variation: VariationState): BookSection {
  const { title, payer, why, ifNot, raised, attachments } = variation
  return bookSection(
    title,
    textBlocks([
      `Put to the ${payer} on ${momentOf(telling, raised.happened)} by ${nameOfStamp(telling, raised)}. ${sentence(why)}`,
      ifNot === '' ? '' : `Without it: ${clause(ifNot)}.`,
      photosShow(telling.photos, attachments, 'what it is about'),
      answerText(telling, variation),
      settledText(telling, variation),
      closedText(telling, variation),
    ]),
    figuresBlock(telling, variation),
  )
}

function answerText(telling: BookTelling, { decided, payer, status }: VariationState): string {
  if (decided === null) return `The ${payer} has not answered yet.`
  const answer = status === 'accepted' ? 'accepted it' : 'declined it'
  const changed = decided.changed ? ' with changes' : ''
  return `The ${payer} ${answer}${changed} by ${decided.how} on ${momentOf(telling, decided.happened)}, written down by ${nameOfStamp(telling, decided)}. ${sentence(decided.note)}`.trim()
}

function settledText(telling: BookTelling, { settled, status }: VariationState): string {
  if (settled === null) return ''
  const words = {
    'workshop pays': 'The workshop paid for it',
    'less work': 'Less work was done instead',
    stopped: 'The work was stopped',
  }
  const what = status in words ? words[status as keyof typeof words] : 'It was settled'
  return `${what}, decided by ${nameOfStamp(telling, settled)} on ${dayOf(telling, settled.happened)}: ${clause(settled.reason)}.`
}

function closedText({ car }: BookTelling, { id }: VariationState): string {
  const names = [...car.repairs.values()].flatMap(({ plan, closedAsFound }) =>
    closedAsFound?.variationId === id ? [plan.name] : [],
  )
  return names.length === 0 ? '' : `${series(names)} ${names.length === 1 ? 'was' : 'were'} closed as found.`
}

/** What was asked for and what counts of it. */
function figuresBlock(telling: BookTelling, variation: VariationState): readonly BookBlock[] {
  const { car, context } = telling
  const { lines, costs, status } = variationView(car, variation, context)
  const counts = isAgreed(status)
  return tableBlock(
    [
      ['Work or cost', 4],
      ['Asked', 1.2],
      ['Counts', 1.2],
    ],
    [
      ...lines.map((line) => [line.what, hours(line.asked.likely), counts ? hours(line.hours) : 'none']),
      ...(costs ?? []).map(({ name, kind, asked, amount }) => [
        `${name} (${kind})`,
        amountWords(telling, asked),
        counts ? amountWords(telling, amount) : 'none',
      ]),
    ],
  )
}

/** Reports that were issued to the owner, as a list. */
export function reportsChapter(telling: BookTelling): BookChapter | null {
  const reports = [...telling.car.reports.values()]
  return bookChapter('Reports to the owner', plural('report', reports.length), [
    bookSection(
      '',
      linesBlock(
        reports.map(({ title, week, stamp, sha256 }) => ({
          lead: momentOf(telling, stamp.happened),
          text: `${clause(title)} (${week}), issued by ${nameOfStamp(telling, stamp)}. SHA-256 of its file: ${sha256}`,
        })),
      ),
    ),
  ])
}
