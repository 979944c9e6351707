import { english } from '../language/english.ts'
import { activeRepairs, isFinished } from '../rules/standing.ts'
import { capital, plural } from '../text/words.ts'
import { carChapter } from './car-book-car.ts'
import { decisionsChapter, reportsChapter } from './car-book-decisions.ts'
import { glossaryChapter } from './car-book-glossary.ts'
import { hoursChapter } from './car-book-hours.ts'
import { orderChapter } from './car-book-order.ts'
import { agreedChapter } from './car-book-agreed.ts'
import { recordChapter, voidedChapter } from './car-book-record.ts'
import { isBegun, notBegunChapter, repairChapter } from './car-book-repair.ts'
import type { BookPhoto, CarBook } from './car-book-shapes.ts'
import { shellChapter } from './car-book-shell.ts'
import { tasksChapter } from './car-book-tasks.ts'
import { bookTelling, type BookTelling, type CarBookInput, dayOf, momentOf } from './car-book-telling.ts'
import type { FileChoices } from './file-choices.ts'

/**
 * The car's file as a book: everything that the record knows of the shell, in words, tables, drawings and photos. Pure
 * content; electron/print/write-book.ts prints it. Null without a car.
 */
export function carBook(input: CarBookInput): CarBook | null {
  const telling = bookTelling(input)
  if (telling === null) return null
  const { car, context, choices } = telling
  const chapters = [
    carChapter(telling),
    orderChapter(telling),
    ...[...car.repairs.values()]
      .filter((repair) => isBegun(telling, repair))
      .map((repair) => repairChapter(telling, repair)),
    notBegunChapter(telling),
    tasksChapter(telling),
    shellChapter(telling),
    agreedChapter(telling),
    decisionsChapter(telling),
    hoursChapter(telling),
    reportsChapter(telling),
    voidedChapter(telling),
    glossaryChapter(),
    recordChapter(telling),
  ]
  return {
    workshop: context.workshop.name,
    car: car.name,
    shell: `Shell ${car.shellNumber}`,
    body: capital(car.year === null ? car.body : `${car.body} of ${car.year}`),
    written: dayOf(telling, input.now),
    head: input.head,
    picture: newestOfCar(telling),
    about: aboutTexts(telling),
    withheld: withheldItems(choices),
    verify: verifyTexts(telling),
    cautions: cautionsOf(telling),
    chapters: chapters.filter((chapter) => chapter !== null),
  }
}

const newestOfCar = ({ photos }: BookTelling): BookPhoto | null => photos.ofCar.at(-1) ?? null

function aboutTexts(telling: BookTelling): readonly string[] {
  const { car, allFacts, photos, context } = telling
  const repairs = activeRepairs(car)
  const finished = repairs.filter(isFinished).length
  const [first, last] = [allFacts[0], allFacts.at(-1)]
  const from = first === undefined ? '' : momentOf(telling, Date.parse(first.recorded))
  const to = last === undefined ? '' : momentOf(telling, Date.parse(last.recorded))
  const counts = `${plural('repair', repairs.length)}, ${finished === repairs.length && finished > 0 ? (finished === 1 ? 'finished' : 'all finished') : `${finished} finished`}, and ${plural('photo', photos.count)}`
  return [
    `This book tells what ${context.workshop.name} found, decided and did on the shell of this car: ${counts}.`,
    `It was made from ${plural('line', allFacts.length)} of the workshop's record, written down from ${from} to ${to}. A line is never changed: what was wrong is voided or done again, and both stay in the record.`,
    'Each photo has a number, by which the words name it. A time is the one that the person stated; when it was written down stands beside it.',
  ]
}

/** What stays in the workshop; the same choices decide what the record's lines say. */
function withheldItems({ contacts, prices, hours }: FileChoices): readonly string[] {
  return [
    ...(contacts ? [] : ['Names and addresses of the owner and of other payers']),
    ...(prices ? [] : ['Prices and rates']),
    ...(hours ? [] : ['The hours that people worked']),
  ]
}

function verifyTexts({ choices }: BookTelling): readonly string[] {
  const left = withheldItems(choices).length
  return [
    'The record is a chain: every line holds the SHA-256 digest of the line before it. The digest of the last line stands on the title page. Whoever has the record can reckon the chain again and compare: one changed letter gives another digest.',
    ...(left === 0
      ? []
      : ['What is withheld stays in the chain as digests, so that it can be checked without what it says.']),
    'Where this book came in a folder with the photos and the record, the file manifest-sha256.txt in it lists the digest of every file; the command ‘sha256sum -c manifest-sha256.txt’ compares them all.',
  ]
}

function cautionsOf({ car }: BookTelling): readonly string[] {
  const informs = 'This book informs: it says what was found and done. It certifies nothing.'
  const closed = activeRepairs(car).filter(({ closedAsFound }) => closedAsFound !== null)
  return [
    informs,
    ...(activeRepairs(car).some(({ plan }) => plan.loadBearing) ? [english.letter.loadBearing] : []),
    ...(closed.length === 0
      ? []
      : [
          `${closed.length === 1 ? 'One repair was' : `${closed.length} repairs were`} closed as found, with the damage still there: ${closed.map(({ plan }) => plan.name).join('; ')}.`,
        ]),
  ]
}
