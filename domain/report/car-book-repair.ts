import type { RepairState } from '../car.ts'
import type { Fact, FactKind } from '../facts.ts'
import { gateOrder } from '../gates.ts'
import type { RepairId } from '../ids.ts'
import { LOAD_BEARING } from '../rules/cautions.ts'
import { coveredBy, coversOf, isDone, isFinished, standsOpen } from '../rules/standing.ts'
import { stampOf } from '../state/fact-stamp.ts'
import { capital, plural } from '../text/words.ts'
import { gateMarks } from '../views/gate-marks.ts'
import { factWords } from '../views/record-words.ts'
import { nextGateOf } from '../views/repair-card.ts'
import { sectionView } from '../views/section-view.ts'
import { zoneWords } from '../views/work-words.ts'
import { bookChapter, bookSection, linesBlock, textBlocks } from './car-book-blocks.ts'
import { gateSections, handHoldLines } from './car-book-gates.ts'
import { closedAsFoundBlocks, findingBlocks, layerBlocks, layerName, outsideText } from './car-book-layers.ts'
import { namesOf } from './car-book-order.ts'
import type { BookBlock, BookChapter, BookLine } from './car-book-shapes.ts'
import { type BookTelling, dayOf, momentOf, nameOfStamp } from './car-book-telling.ts'
import { clause, sentence, series } from './car-book-words.ts'

/** One repair from its plan to its last photo, retired ones too. */
export function repairChapter(telling: BookTelling, repair: RepairState): BookChapter | null {
  return bookChapter(repair.plan.name, subtitleOf(repair), [
    bookSection('', textBlocks(openingTexts(telling, repair)), [standing(telling, repair)], cautions(repair)),
    bookSection('Layers', layerBlocks(telling, repair)),
    bookSection('Findings', findingBlocks(telling, repair)),
    bookSection('Closed as found', closedAsFoundBlocks(telling, repair)),
    bookSection('Parts', linesBlock(partLines(telling, repair))),
    ...gateSections(telling, repair),
    bookSection('Holds on the whole repair', linesBlock(holdLines(telling, repair))),
    bookSection('Changes to the repair itself', linesBlock(changeLines(telling, repair))),
  ])
}

/** 'Left middle, on the shell, load-bearing, covered' */
function subtitleOf({ plan }: RepairState): string {
  return [
    capital(zoneWords(plan.zone)),
    plan.on === 'part' ? 'on a part off the car' : 'on the shell',
    ...(plan.loadBearing ? ['load-bearing'] : []),
    plan.outer ? 'outer' : 'covered',
  ].join(', ')
}

/** Repairs of which nothing but the plan and the look from outside is known. */
export function notBegunChapter(telling: BookTelling): BookChapter | null {
  const repairs = [...telling.car.repairs.values()].filter((repair) => !isBegun(telling, repair))
  return bookChapter(
    'Repairs not begun',
    plural('repair', repairs.length),
    repairs.map((repair) =>
      bookSection(
        repair.plan.name,
        textBlocks([
          [`${subtitleOf(repair)}.`, ...openingTexts(telling, repair)]
            .filter((text) => text !== '')
            .join(' '),
          outsideText(telling, repair),
          `Layers, from the inside out: ${series(repair.plan.layers.map(layerName))}.`,
        ]),
        linesBlock(partLines(telling, repair)),
        linesBlock(holdLines(telling, repair)),
        linesBlock(changeLines(telling, repair)),
      ),
    ),
  )
}

/** Something was graded, found, signed, photographed or given up. */
export function isBegun({ car, facts, photos }: BookTelling, { id, plan, ...repair }: RepairState): boolean {
  return (
    repair.retired !== null ||
    repair.closedAsFound !== null ||
    gateOrder(plan).some((gate) => photos.ofGate(id, gate).length > 0) ||
    [...car.findings.values()].some(({ repairId }) => repairId === id) ||
    facts.some(({ kind, payload }) => BEGINS.has(kind) && 'repairId' in payload && payload.repairId === id)
  )
}

const BEGINS: ReadonlySet<FactKind> = new Set<FactKind>([
  'layerGraded',
  'gatePassed',
  'gateNotNeeded',
  'holdReleased',
  'releaseAsked',
])

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
    `Put on the list on ${dayOf(telling, added.happened)} by ${nameOfStamp(telling, added)}; paid by the ${payer}. ${standingWords(repair)}`.trim(),
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
  plan.loadBearing ? [{ kind: 'caution', text: `${LOAD_BEARING} This book does not do that.` }] : []

const holdLines = (telling: BookTelling, { id }: RepairState): readonly BookLine[] =>
  handHoldLines(telling, (scope) => scope.kind === 'repair' && scope.repairId === id)

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
    text: `${sentence(words)} Stated by ${nameOfStamp(telling, stamp)}.`,
  }
}
