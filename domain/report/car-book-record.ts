import type { Fact } from '../facts.ts'
import { plural } from '../text/words.ts'
import { factWords } from '../views/record-words.ts'
import { bookChapter, bookSection, linesBlock, textBlocks } from './car-book-blocks.ts'
import type { BookChapter, BookLine } from './car-book-shapes.ts'
import { type BookTelling, momentOf, nameOfStamp, stampOf, statedAt } from './car-book-telling.ts'
import { withheldPart } from './car-file-withheld.ts'
import { clause } from './sentences.ts'

/** Every line of the chain in its order, with those that are withheld named by their numbers. */
export function recordChapter(telling: BookTelling): BookChapter | null {
  const { allFacts, car } = telling
  const words = `All ${plural('line', allFacts.length)} of the record of ${car.name} in the order in which they were written down. Numbers that are not here belong to other cars or to the workshop.`
  return bookChapter('The whole record', '', [
    bookSection('', textBlocks([words]), linesBlock(recordLines(telling))),
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
function recordLines(telling: BookTelling): readonly BookLine[] {
  const lines: BookLine[] = []
  const run: Fact[] = []
  const endRun = (): void => {
    if (run.length > 0) lines.push(withheldLine(run.splice(0)))
  }
  for (const fact of telling.allFacts) {
    const words = bookWords(fact, telling)
    if (words === null) run.push(fact)
    else {
      endRun()
      lines.push(recordLine(telling, fact, words))
    }
  }
  endRun()
  return lines
}

function recordLine(telling: BookTelling, fact: Fact, words: string): BookLine {
  const stamp = stampOf(fact)
  return {
    lead: String(fact.number),
    text: `${clause(words)}. ${nameOfStamp(telling, stamp)}, ${statedAt(telling, stamp)}.`,
  }
}

function withheldLine(run: readonly Fact[]): BookLine {
  const [first, last] = [run[0]?.number ?? 0, run.at(-1)?.number ?? 0]
  return {
    lead: first === last ? String(first) : `${first} to ${last}`,
    text: run.length === 1 ? 'Withheld.' : `${plural('line', run.length)} withheld.`,
  }
}

/** What the record says, as far as it may leave; null for a line that is withheld. */
export function bookWords(fact: Fact, { names, choices }: BookTelling): string | null {
  const part = withheldPart(fact, choices)
  if (part === null) return factWords(fact, names)
  if (part.redacted === null) return null
  // What is left of the payload still has its kind's shape, and amounts are put into no words.
  return factWords({ ...fact, payload: part.redacted } as unknown as Fact, names)
}
