import type { VisitState } from '../car.ts'
import type { Contact } from '../commands/decide.ts'
import { stampOf } from '../state/fact-stamp.ts'
import { SAFETY_WORDS } from '../views/record-words.ts'
import { capital, hours, joinWords, plural } from '../text/words.ts'
import { bookChapter, bookSection, linesBlock, textBlocks } from './car-book-blocks.ts'
import { handHoldLines } from './car-book-gates.ts'
import { photosBlock } from './car-book-photos.ts'
import type { BookChapter, BookLine, BookSection } from './car-book-shapes.ts'
import { type BookTelling, dateOf, dayOf, factsOf, momentOf, nameOfStamp } from './car-book-telling.ts'
import { clause, sentence } from './car-book-words.ts'

/** The car, its stays in the workshop and how it was made safe. */
export function carChapter(telling: BookTelling): BookChapter | null {
  const { car, photos } = telling
  const body = car.year === null ? car.body : `${car.body} of ${car.year}`
  return bookChapter('The car', `${car.name}, shell ${car.shellNumber}, ${body}`, [
    bookSection('', textBlocks([broughtInText(telling)]), photosBlock(photos.ofCar)),
    ...[...car.visits.values()].map((visit, index) => visitSection(telling, visit, index + 1)),
    bookSection('How the shell was made safe', linesBlock(safetyLines(telling))),
    bookSection('Holds on the whole car', linesBlock(handHoldLines(telling, ({ kind }) => kind === 'car'))),
    bookSection('Notes', linesBlock(noteLines(telling))),
  ])
}

function broughtInText(telling: BookTelling): string {
  const { broughtIn } = telling.car
  if (broughtIn === null) return ''
  const { from, lines, stamp } = broughtIn
  return `Brought in with its file from ${from} on ${dayOf(telling, stamp.happened)} by ${nameOfStamp(telling, stamp)}: the first ${plural('line', lines)} of its record ${lines === 1 ? 'was' : 'were'} written down there, and taken over here on that day.`
}

const CHARGED = { hour: 'by the hour', fixed: 'at a fixed price', capped: 'by the hour up to a cap' } as const

function visitSection(telling: BookTelling, visit: VisitState, number: number): BookSection {
  const { car, context, choices } = telling
  const kind = visit.kind === 'warranty' ? 'Warranty visit' : 'Visit'
  const payers = [visit.ownerId, ...(visit.insurerId === null ? [] : [visit.insurerId])]
  const texts = [
    `Opened on ${dayOf(telling, visit.opened.happened)} by ${nameOfStamp(telling, visit.opened)} for ${payers.map((id) => context.nameOf(id)).join(' and ')}. Since ${dayOf(telling, visit.statusSince)}: ${visit.status}.`,
    visit.promised === null ? '' : `Promised for ${dateOf(visit.promised)}.`,
    ...(choices.contacts ? payers.map((id) => contactWords(telling.contactOf(id))) : []),
    `Charged ${CHARGED[visit.charge.by]}${visit.charge.by === 'capped' ? ` of ${hours(visit.charge.capHours)}` : ''}.`,
    repairsWords([...car.repairs.values()].filter(({ visitId }) => visitId === visit.id).length),
  ]
  return bookSection(
    car.visits.size === 1 ? kind : `${kind} ${number}`,
    textBlocks([texts.filter((text) => text !== '').join(' ')]),
    linesBlock(visitLines(telling, visit)),
  )
}

const repairsWords = (count: number): string =>
  count === 0 ? '' : `${plural('repair', count)} ${count === 1 ? 'was' : 'were'} taken on in it.`

function contactWords(contact: Contact | null): string {
  if (contact === null) return ''
  const { name, address, phone, email } = contact
  const lines = [address, phone, email].flatMap((each) => each.split('\n')).map(clause)
  return `${[name, ...lines.filter((line) => line !== '')].join(', ')}.`
}

/** What became of a visit, and what its payers agreed to. */
function visitLines(telling: BookTelling, { id }: VisitState): readonly BookLine[] {
  const lines = telling.facts.flatMap((fact): readonly { readonly at: number; readonly text: string }[] => {
    const by = nameOfStamp(telling, fact)
    const at = Date.parse(fact.happened)
    switch (fact.kind) {
      case 'visitStatusSet':
        return fact.payload.visitId === id
          ? [{ at, text: `${capital(fact.payload.status)}, said by ${by}. ${sentence(fact.payload.reason)}` }]
          : []
      case 'visitChanged': {
        if (fact.payload.visitId !== id) return []
        const { promised } = fact.payload
        return [
          {
            at,
            text: `Agreement changed by ${by}: ${promised === null ? 'no promised date' : `promised for ${dateOf(promised)}`}.`,
          },
        ]
      }
      case 'estimateAccepted': {
        if (fact.payload.visitId !== id) return []
        const { payer, how, note, lineIds, costIds } = fact.payload
        const what = [
          ...(lineIds.length === 0 ? [] : [plural('line of work', lineIds.length, 'lines of work')]),
          ...(costIds.length === 0 ? [] : [plural('cost', costIds.length)]),
        ]
        return [
          {
            at,
            text: `The ${payer} accepted ${joinWords(what)} of the estimate by ${how}; written down by ${by}. ${sentence(note)}`,
          },
        ]
      }
      default:
        return []
    }
  })
  return lines.map(({ at, text }) => ({ lead: momentOf(telling, at), text: text.trim() }))
}

function safetyLines(telling: BookTelling): readonly BookLine[] {
  return factsOf(telling, 'safetySet').map((fact) => {
    const { item, stands, note } = fact.payload
    const stamp = stampOf(fact)
    return {
      lead: momentOf(telling, stamp.happened),
      text: `${SAFETY_WORDS[item][stands ? 'stands' : 'ended']}, stated by ${nameOfStamp(telling, stamp)}. ${sentence(note)}`.trim(),
    }
  })
}

function noteLines(telling: BookTelling): readonly BookLine[] {
  return telling.car.notes.map(({ text, stamp }) => ({
    lead: momentOf(telling, stamp.happened),
    text: `${clause(text)}. Noted by ${nameOfStamp(telling, stamp)}.`,
  }))
}
