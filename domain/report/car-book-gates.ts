import type { RepairState } from '../car.ts'
import type { Fact, FactOf } from '../facts.ts'
import type { HoldScope } from '../facts/work-facts.ts'
import { type Gate, gateOrder, gatesFrom } from '../gates.ts'
import { asRead } from '../measure/judgement.ts'
import { stampOf } from '../state/fact-stamp.ts'
import { capital, joinWords } from '../text/words.ts'
import { bookSection, linesBlock, tableBlock, textBlocks } from './car-book-blocks.ts'
import { photosBlock, photosShow } from './car-book-photos.ts'
import { readingLines } from './car-book-readings.ts'
import type { BookLine, BookSection } from './car-book-shapes.ts'
import { type BookTelling, dateOf, momentOf, nameOfStamp, statedAt } from './car-book-telling.ts'
import { clause, sentence, series } from './car-book-words.ts'

/** The gates of a repair: who signed which and when, then each with what was asked, read, released and photographed. */
export function gateSections(telling: BookTelling, repair: RepairState): readonly BookSection[] {
  const order = gateOrder(repair.plan)
  const open = order.filter((gate) => repair.gates[gate].status === 'open')
  const done = tableBlock(
    [
      ['Gate', 1.3],
      ['Done', 2.1],
      ['Signed by', 1.6],
      ['Work done by', 1.8],
      ['Recorded', 2.1],
    ],
    order.flatMap((gate) => gateRow(telling, repair, gate)),
  )
  return [
    bookSection('Gates', done, textBlocks([openText(repair, open, order.length)])),
    ...order.map((gate) => gateSection(telling, repair, gate)),
  ]
}

function openText({ closedAsFound, retired }: RepairState, open: readonly Gate[], all: number): string {
  if (open.length === 0) return ''
  const which = open.length === all ? 'None of the gates' : capital(series(open))
  if (open.length === all)
    return closedAsFound === null && retired === null ? `${which} is done yet.` : `${which} was passed.`
  const verb = open.length === 1 ? 'is' : 'are'
  return closedAsFound === null && retired === null
    ? `${which} ${verb} not done yet.`
    : `${which} ${open.length === 1 ? 'was' : 'were'} not passed.`
}

function gateRow(telling: BookTelling, repair: RepairState, gate: Gate): readonly (readonly string[])[] {
  const { done } = repair.gates[gate]
  if (done === null) return []
  const { stamp } = done
  const did = done.kind === 'passed' ? joinWords(done.did.map(telling.context.nameOf)) : 'not needed'
  return [
    [
      gate,
      momentOf(telling, stamp.happened),
      nameOfStamp(telling, stamp),
      did,
      momentOf(telling, stamp.recorded),
    ],
  ]
}

function gateSection(telling: BookTelling, repair: RepairState, gate: Gate): BookSection {
  const own = telling.photos.ofGate(repair.id, gate)
  const ownNumbers = new Set(own.map(({ number }) => number))
  const elsewhere = [...telling.car.attachments.values()]
    .filter(({ id, serves }) => {
      const number = telling.photos.numberOf(id)
      const shows = serves.some(
        (each) => each.what === 'gate' && each.repairId === repair.id && each.gate === gate,
      )
      return shows && number !== null && !ownNumbers.has(number)
    })
    .map(({ id }) => id)
  const events = eventLines(telling, repair, gate)
  const isOnlyShown = events.length === 0 && own.length > 0 && repair.gates[gate].status === 'open'
  return bookSection(
    capital(gate),
    textBlocks([isOnlyShown ? 'Not passed.' : '']),
    linesBlock(events),
    linesBlock(readingLines(telling, repair, gate)),
    textBlocks([photosShow(telling.photos, elsewhere, 'this too')]),
    photosBlock(own),
  )
}

/** What happened to a gate, each as a dated line. It is taken back only where it had been done. */
function eventLines(telling: BookTelling, repair: RepairState, gate: Gate): readonly BookLine[] {
  let isDone = false
  return telling.facts.flatMap((fact) => {
    const back = takenBackText(telling, repair, gate, fact)
    const text = back === null ? eventText(telling, repair, gate, fact) : isDone ? back : ''
    if (back !== null) isDone = false
    else if (text !== '' && (fact.kind === 'gatePassed' || fact.kind === 'gateNotNeeded')) isDone = true
    if (text === '') return []
    const lead = momentOf(telling, Date.parse(fact.happened))
    return [{ lead, text: `${text} Recorded ${recordedOf(telling, fact)}.` }]
  })
}

/** Null for a fact that takes this gate not back. */
function takenBackText(
  telling: BookTelling,
  { id, plan }: RepairState,
  gate: Gate,
  fact: Fact,
): string | null {
  if (fact.kind === 'gateReopened' && fact.payload.repairId === id) {
    const { gate: from, cause, reason } = fact.payload
    if (from === gate)
      return `Reopened by ${nameOfStamp(telling, fact)}, cause ‘${cause}’: ${clause(reason)}.`
    return gatesFrom(plan, from).includes(gate) ? `Taken back when ${from} was reopened.` : null
  }
  if (fact.kind !== 'shellReturned') return null
  const { tookBack, reason } = fact.payload
  const isReached = tookBack.some((each) => each.repairId === id && gatesFrom(plan, each.gate).includes(gate))
  return isReached ? `Taken back by what was done while the shell was away: ${clause(reason)}.` : null
}

const recordedOf = (telling: BookTelling, fact: Fact): string => {
  const { happened, recorded } = stampOf(fact)
  const [stated, written] = [momentOf(telling, happened), momentOf(telling, recorded)]
  const [day, time = ''] = written.split(', ')
  return day !== undefined && stated.startsWith(day) ? `at ${time}` : `on ${written}`
}

function eventText(telling: BookTelling, repair: RepairState, gate: Gate, fact: Fact): string {
  const by = nameOfStamp(telling, fact)
  switch (fact.kind) {
    case 'gatePassed':
      return fact.payload.repairId === repair.id && fact.payload.gate === gate
        ? passedText(telling, fact)
        : ''
    case 'gateNotNeeded':
      return fact.payload.repairId === repair.id && fact.payload.gate === gate
        ? `Marked not needed by ${by}: ${clause(fact.payload.reason)}.`
        : ''
    case 'holdReleased': {
      const { repairId, gate: held, code, reason, ownHold } = fact.payload
      if (repairId !== repair.id || held !== gate) return ''
      return `The hold ‘${code}’ was released by ${by}${ownHold ? ', who was held by it' : ''}: ${clause(reason)}.`
    }
    case 'releaseAsked': {
      const { repairId, gate: held, code, reason } = fact.payload
      if (repairId !== repair.id || held !== gate) return ''
      return `${capital(by)} asked for a release of the hold ‘${code}’: ${clause(reason)}.`
    }
    case 'holdSet': {
      const { scope, words, clears, expected } = fact.payload
      if (scope.kind !== 'gate' || scope.repairId !== repair.id || scope.gate !== gate) return ''
      return `Hold set by ${by}: ${clause(words)}; ${clears} clears it${expected === null ? '' : `, expected ${dateOf(expected)}`}.`
    }
    case 'holdCleared': {
      const hold = telling.car.holds.get(fact.payload.holdId)
      if (hold?.scope.kind !== 'gate' || hold.scope.repairId !== repair.id || hold.scope.gate !== gate)
        return ''
      return `Hold ‘${clause(hold.words)}’ cleared by ${by}. ${sentence(fact.payload.note)}`.trim()
    }
    case 'estimateReviewed':
      return fact.payload.repairId === repair.id && gate === 'assessed'
        ? `Estimate reviewed by ${by}. ${sentence(fact.payload.note)}`.trim()
        : ''
    default:
      return ''
  }
}

function passedText({ context }: BookTelling, { by, payload }: FactOf<'gatePassed'>): string {
  const { asked, coat, did, second, released, note } = payload
  const { nameOf } = context
  const limits = asked.conditions
  return [
    coat === null ? 'Passed.' : `Passed with ${COATS[coat]}.`,
    `Signed by ${by === null ? 'the workshop' : nameOf(by)}${second === null ? '' : `, second signature ${nameOf(second)}`}; work done by ${joinWords(did.map(nameOf))}.`,
    limits === null
      ? ''
      : `Steel had to be ${asRead(limits.minMarginC)} °C above the dew point at least${limits.maxHumidityPercent === null ? '' : `, humidity at most ${asRead(limits.maxHumidityPercent)} %`}.`,
    released.length === 0
      ? ''
      : `Passed with ${released.length === 1 ? 'a released hold' : 'released holds'}: ${joinWords(released)}.`,
    sentence(note),
  ]
    .filter((text) => text !== '')
    .join(' ')
}

const COATS = {
  protective: 'its protective coat',
  outer: 'its outer finish',
  temporary: 'a temporary coat until the final paint',
} as const

/** Holds set by hand on what `isOn` picks, each with who cleared it. */
export function handHoldLines(
  telling: BookTelling,
  isOn: (scope: HoldScope) => boolean,
): readonly BookLine[] {
  return [...telling.car.holds.values()].flatMap(({ scope, words, clears, expected, stamp, cleared }) => {
    if (!isOn(scope)) return []
    const until =
      cleared === null
        ? 'It still stands.'
        : `Cleared by ${nameOfStamp(telling, cleared)} on ${statedAt(telling, cleared)}.`
    return [
      {
        lead: momentOf(telling, stamp.happened),
        text: `Hold set by ${nameOfStamp(telling, stamp)}: ${clause(words)}; ${clears} clears it${expected === null ? '' : `, expected ${dateOf(expected)}`}. ${until}`,
      },
    ]
  })
}
