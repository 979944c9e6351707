import type { RepairState } from '../car.ts'
import type { Fact } from '../facts.ts'
import { gateOrder } from '../gates.ts'
import type { RepairId } from '../ids.ts'
import { coveredBy, coversOf, isDone, isFinished, standsOpen } from '../rules/standing.ts'
import { gateMarks } from '../views/gate-marks.ts'
import { factWords } from '../views/record-words.ts'
import { nextGateOf } from '../views/repair-card.ts'
import { sectionView } from '../views/section-view.ts'
import { zoneWords, capital } from '../views/work-words.ts'
import { bookChapter, bookSection, linesBlock, textBlocks } from './car-book-blocks.ts'
import { gateSections, repairHoldLines } from './car-book-gates.ts'
import { closedAsFoundBlocks, findingBlocks, layerBlocks } from './car-book-layers.ts'
import { namesOf } from './car-book-order.ts'
import type { BookBlock, BookChapter, BookLine } from './car-book-shapes.ts'
import { type BookTelling, dayOf, momentOf, nameOfStamp, stampOf } from './car-book-telling.ts'
import { clause, sentence, series } from './sentences.ts'

/** One repair from its plan to its last photo, retired ones too. */
export function repairChapter(telling: BookTelling, repair: RepairState): BookChapter | null {
  const { plan } = repair
  const where = plan.on === 'part' ? 'on a part off the car' : 'on the shell'
  const subtitle = [
    capital(zoneWords(plan.zone)),
    where,
    ...(plan.loadBearing ? ['load-bearing'] : []),
    plan.outer ? 'outer' : 'covered',
  ].join(', ')
  return bookChapter(plan.name, subtitle, [
    bookSection('', textBlocks(openingTexts(telling, repair)), [standing(telling, repair)], cautions(repair)),
    bookSection('Layers', layerBlocks(telling, repair)),
    bookSection('Findings', findingBlocks(telling, repair)),
    bookSection('Closed as found', closedAsFoundBlocks(telling, repair)),
    bookSection('Parts', linesBlock(partLines(telling, repair))),
    ...gateSections(telling, repair),
    bookSection('Holds on the whole repair', linesBlock(repairHoldLines(telling, repair))),
    bookSection('Changes to the repair itself', linesBlock(changeLines(telling, repair))),
  ])
}

function openingTexts(telling: BookTelling, repair: RepairState): readonly string[] {
  const { car } = telling
  const { id, added, payer, retired } = repair
  const over = namesOf(car, coversOf(car, id))
  const under = namesOf(car, coveredBy(car, id))
  const groups = [...car.fitGroups.values()].filter(({ plan }) => plan.members.includes(id))
  const links = [
    over.length === 0 ? '' : `It lies behind ${series(over)}.`,
    under.length === 0 ? '' : `It covers ${series(under)}.`,
    groups.length === 0 ? '' : `It is fitted together with ${series(groups.map(({ plan }) => plan.name))}.`,
  ]
  return [
    `Taken on ${dayOf(telling, added.happened)} by ${nameOfStamp(telling, added)}; paid by the ${payer}. ${standingWords(repair)}`,
    links.filter((text) => text !== '').join(' '),
    retired === null
      ? ''
      : `${retired.into === null ? 'Retired' : `Merged into ${series(namesOf(car, [retired.into]))}`} on ${dayOf(telling, retired.stamp.happened)} by ${nameOfStamp(telling, retired.stamp)}: ${clause(retired.reason)}.`,
  ]
}

function standingWords(repair: RepairState): string {
  if (repair.retired !== null) return ''
  if (repair.closedAsFound !== null) return 'It was closed as found.'
  if (isFinished(repair)) return 'It is finished: all its gates are done.'
  const order = gateOrder(repair.plan)
  const count = order.filter((gate) => isDone(repair, gate)).length
  if (count === 0) return 'It is not begun.'
  const done = `${count} of ${order.length} gates ${count === 1 ? 'is' : 'are'} done`
  return standsOpen(repair) ? `It stands open: ${done}.` : `${capital(done)}.`
}

function standing({ car, context }: BookTelling, repair: RepairState): BookBlock {
  const { holds } = nextGateOf(car, repair, context)
  return {
    kind: 'standing',
    section: sectionView(car, repair),
    marks: gateMarks(repair, holds, context.nameOf).map(({ gate, mark }) => ({ gate, mark })),
  }
}

const cautions = ({ plan }: RepairState): readonly BookBlock[] =>
  plan.loadBearing
    ? [
        {
          kind: 'caution',
          text: 'Load-bearing metal: repairs near seat-belt, steering, brake and suspension mountings are inspected by law in many countries. Follow the local code and have them signed off by a licensed inspector. This book does not do that.',
        },
      ]
    : []

function partLines(telling: BookTelling, { id, plan }: RepairState): readonly BookLine[] {
  const own = new Set(
    [...telling.car.parts.values()].filter(({ repairId }) => repairId === id).map((part) => part.id),
  )
  for (const { partId } of plan.parts) own.add(partId)
  return telling.facts.flatMap((fact) => {
    if ((fact.kind !== 'partNeeded' && fact.kind !== 'partMoved') || !own.has(fact.payload.partId)) return []
    return [factLine(telling, fact, clause(factWords(fact, telling.names)))]
  })
}

/** What was changed of the repair: its plan, what it was split into, what no longer covers it. */
function changeLines(telling: BookTelling, { id }: RepairState): readonly BookLine[] {
  return telling.facts.flatMap((fact) =>
    changes(fact, id) ? [factLine(telling, fact, factWords(fact, telling.names))] : [],
  )
}

function changes({ kind, payload }: Fact, id: RepairId): boolean {
  switch (kind) {
    case 'repairChanged':
      return payload.repairId === id
    case 'repairSplit':
      return payload.repairId === id || payload.newRepairId === id
    case 'repairsMerged':
      return payload.repairId === id || payload.into === id
    case 'coverUnlinked':
      return payload.over === id || payload.under === id
    default:
      return false
  }
}

function factLine(telling: BookTelling, fact: Fact, words: string): BookLine {
  const stamp = stampOf(fact)
  return {
    lead: momentOf(telling, stamp.happened),
    text: `${sentence(words)} ${capital(nameOfStamp(telling, stamp))}.`,
  }
}
