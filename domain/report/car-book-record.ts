import type { Fact } from '../facts.ts'
import { stampOf } from '../state/fact-stamp.ts'
import { capital, joinWords, plural } from '../text/words.ts'
import { factWords } from '../views/record-words.ts'
import { bookChapter, bookSection, linesBlock, tableBlock, textBlocks } from './car-book-blocks.ts'
import type { BookChapter, BookLine } from './car-book-shapes.ts'
import { type BookTelling, momentOf, nameOfStamp, statedAt } from './car-book-telling.ts'
import { withheldPart } from './car-file-withheld.ts'
import { clause, sentence } from './car-book-words.ts'

/** Every line of the chain in its order, with those that are withheld named by their numbers. */
export function recordChapter(telling: BookTelling): BookChapter | null {
  const { allFacts, car } = telling
  const words = `All ${plural('line', allFacts.length)} of the record of ${car.name} in the order in which they were written down. Numbers that are not here belong to other cars or to the workshop. When a line was written down is said where that was at another minute than the one that its person stated.`
  return bookChapter('The whole record', '', [
    bookSection(
      '',
      textBlocks([words]),
      tableBlock(
        [
          ['Line', 0.9],
          ['Stated', 2.4],
          ['By', 1.3],
          ['What', 6.4],
        ],
        recordRows(telling),
      ),
    ),
  ])
}

/** What was taken back because it never happened: named with what it said and why. */
export function voidedChapter(telling: BookTelling): BookChapter | null {
  const byNumber = new Map(telling.allFacts.map((fact) => [fact.number, fact]))
  const lines = telling.allFacts.flatMap((fact): readonly BookLine[] => {
    if (fact.kind !== 'factVoided') return []
    const { number, reason } = fact.payload
    const gone = byNumber.get(number)
    if (gone === undefined) return []
    const stamp = stampOf(fact)
    const words = bookWords(gone, telling)
    const said = words === null ? 'What it said is withheld' : `It said: ${clause(words)}`
    return [
      {
        lead: `Line ${number}`,
        text: `${said}. Stated by ${nameOfStamp(telling, stampOf(gone))} on ${momentOf(telling, Date.parse(gone.happened))}. Voided by ${nameOfStamp(telling, stamp)} on ${statedAt(telling, stamp)}: ${clause(reason)}.`,
      },
    ]
  })
  const words =
    'These lines were written down but never happened as they say. They stay in the record and count nowhere.'
  return lines.length === 0
    ? null
    : bookChapter('What was voided', '', [bookSection('', textBlocks([words]), linesBlock(lines))])
}

/** Lines that are withheld one after the other are told as one. */
function recordRows(telling: BookTelling): readonly (readonly string[])[] {
  const rows: (readonly string[])[] = []
  const run: Fact[] = []
  const endRun = (): void => {
    if (run.length > 0) rows.push(withheldRow(telling, run.splice(0)))
  }
  for (const fact of telling.allFacts) {
    const words = bookWords(fact, telling)
    if (words === null) run.push(fact)
    else {
      endRun()
      rows.push(recordRow(telling, fact, words))
    }
  }
  endRun()
  return rows
}

function recordRow(telling: BookTelling, fact: Fact, words: string): readonly string[] {
  const { happened, recorded } = stampOf(fact)
  const [stated, written] = [momentOf(telling, happened), momentOf(telling, recorded)]
  const when = stated === written ? stated : `${stated}; recorded ${written}`
  return [
    String(fact.number),
    when,
    capital(nameOfStamp(telling, fact)),
    numbered(telling, fact, sentence(words)),
  ]
}

/** A photo's line names its number, so that it can be found in the book. */
function numbered({ photos }: BookTelling, fact: Fact, words: string): string {
  const number = fact.kind === 'photoAttached' ? photos.numberOf(fact.payload.attachmentId) : null
  return number === null ? words : words.replace(/^Photo of /, `Photo ${number} of `)
}

function withheldRow({ choices }: BookTelling, run: readonly Fact[]): readonly string[] {
  const [first, last] = [run[0]?.number ?? 0, run.at(-1)?.number ?? 0]
  const why = joinWords([...new Set(run.flatMap((fact) => withheldPart(fact, choices)?.withheld ?? []))])
  const numbers =
    run.length === 1 ? '' : run.length === 2 ? `, ${first} and ${last}` : `, the last is ${last}`
  return [String(first), '–', '–', `${plural('line', run.length)} withheld (${why})${numbers}.`]
}

/** What the record says, as far as it may leave; null for a line that is withheld. */
function bookWords(fact: Fact, { names, choices }: BookTelling): string | null {
  const part = withheldPart(fact, choices)
  if (part === null) return factWords(fact, names)
  if (part.redacted === null) return null
  // What is left of the payload still has its kind's shape, and amounts are put into no words.
  return factWords({ ...fact, payload: part.redacted } as unknown as Fact, names)
}
