import type { CarState, RepairState } from '../car.ts'
import { gateOrder } from '../gates.ts'
import type { RepairId } from '../ids.ts'
import {
  activeRepairs,
  coveredBy,
  coversOf,
  depthOf,
  isDone,
  isFinished,
  standingFaults,
} from '../rules/standing.ts'
import { bookChapter, bookSection, linesBlock, listBlock, textBlocks } from './car-book-blocks.ts'
import type { BookBlock, BookChapter, BookLine, BookMap } from './car-book-shapes.ts'
import { type BookTelling, momentOf, nameOfStamp } from './car-book-telling.ts'
import { clause, sentence, series } from './car-book-words.ts'

/** Which metal lies over which, and in which order it can go back. */
export function orderChapter(telling: BookTelling): BookChapter | null {
  const { car } = telling
  const repairs = activeRepairs(car)
  const linked = repairs.filter(({ id }) => coversOf(car, id).length + coveredBy(car, id).length > 0)
  return bookChapter('How it closes', 'Which metal covers which', [
    bookSection(
      '',
      linked.length === 0 ? [] : orderBlocks(car, linked),
      aloneBlocks(repairs, linked),
      linked.length === 0 ? [] : [mapOf(car, repairs)],
    ),
    bookSection('What lies behind what', listBlock(coverItems(car, linked))),
    bookSection('Fitted together', listBlock(groupItems(car))),
    bookSection('Sides that stood open together', linesBlock(liftLines(telling))),
    bookSection('Standing faults', faultBlocks(car)),
  ])
}

/** Levels from the inside out: nothing of a level goes on before what it covers is finished. */
function orderBlocks(car: CarState, linked: readonly RepairState[]): readonly BookBlock[] {
  const depths = Map.groupBy(linked, ({ id }) => depthOf(car, id))
  const levels = [...depths].toSorted(([a], [b]) => b - a).map(([, repairs]) => repairs)
  const items = levels.map((repairs, index) => {
    const names = series(repairs.map(({ plan }) => plan.name))
    return index === 0 ? `First, innermost: ${names}` : `Then: ${names}`
  })
  return [
    ...textBlocks([
      'A repair is closed only when everything that it covers is finished. From the inside out the metal goes back in this order:',
    ]),
    ...listBlock(items),
  ]
}

function aloneBlocks(repairs: readonly RepairState[], linked: readonly RepairState[]): readonly BookBlock[] {
  const alone = repairs.filter((repair) => !linked.includes(repair)).map(({ plan }) => plan.name)
  if (alone.length === 0) return []
  if (linked.length === 0)
    return textBlocks([
      alone.length === 1
        ? `${alone[0]} is the only repair: nothing covers it and it covers nothing.`
        : 'No repair of this car covers another.',
    ])
  if (alone.length === 1) return textBlocks([`Nothing covers ${alone[0]}, and it covers nothing.`])
  return textBlocks([`In any order, as nothing covers them and they cover nothing: ${series(alone)}.`])
}

function mapOf(car: CarState, repairs: readonly RepairState[]): BookMap {
  return {
    kind: 'map',
    repairs: repairs.map((repair) => ({
      id: repair.id,
      name: repair.plan.name,
      state: stateWords(repair),
      zone: repair.plan.zone,
      depth: depthOf(car, repair.id),
    })),
    covers: car.covers.map(({ over, under }) => ({ over, under, barred: false })),
    fits: [...car.fitGroups.values()].map(({ id, plan: { name, members } }) => ({ id, name, members })),
  }
}

function stateWords(repair: RepairState): string {
  if (repair.closedAsFound !== null) return 'closed as found'
  if (isFinished(repair)) return 'finished'
  const order = gateOrder(repair.plan)
  const count = order.filter((gate) => isDone(repair, gate)).length
  return count === 0 ? 'not begun' : `${count} of ${order.length} gates`
}

function coverItems(car: CarState, linked: readonly RepairState[]): readonly string[] {
  return linked.flatMap(({ id, plan }) => {
    const over = namesOf(car, coversOf(car, id))
    return over.length === 0 ? [] : [`${plan.name}: behind ${series(over)}`]
  })
}

export const namesOf = (car: CarState, ids: readonly RepairId[]): readonly string[] =>
  ids.flatMap((id) => car.repairs.get(id)?.plan.name ?? [])

function groupItems(car: CarState): readonly string[] {
  return [...car.fitGroups.values()].map(({ plan }) => {
    const members = [...namesOf(car, plan.members), ...plan.hungParts]
    return `${plan.name}: ${series(members)}`
  })
}

function liftLines(telling: BookTelling): readonly BookLine[] {
  return [...telling.car.lifts.values()].map(({ repairIds, how, stamp, ended }) => ({
    lead: momentOf(telling, stamp.happened),
    text: [
      `${series(namesOf(telling.car, repairIds))} might stand open together, said by ${nameOfStamp(telling, stamp)}: ${clause(how)}.`,
      ended === null ? '' : `This ended on ${momentOf(telling, ended.happened)}, when the shell was moved.`,
    ]
      .join(' ')
      .trim(),
  }))
}

const faultBlocks = (car: CarState): readonly BookBlock[] =>
  standingFaults(car).map(({ words }) => ({ kind: 'caution', text: sentence(words) }))
