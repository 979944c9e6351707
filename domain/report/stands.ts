import type { RepairState } from '../car.ts'
import { gateOrder } from '../gates.ts'
import { isDone, isFinished, nextGate, standsOpen } from '../rules/standing.ts'
import { gateMarks } from '../views/gate-marks.ts'
import { nextGateOf } from '../views/repair-card.ts'
import { capital } from '../views/work-words.ts'
import { sectionView } from '../views/section-view.ts'
import type { ReportBlock, ReportSection } from './owner-week-shapes.ts'
import { passedInWeek } from './done.ts'
import { gateNext } from './plain-words.ts'
import { atMost, numberWord, series } from './sentences.ts'
import { type Telling, toldRepairs } from './telling.ts'
import { workedOn } from './week-hours.ts'

/** More drawings than this fill pages and tell no more. */
const MOST_DRAWINGS = 6

/** A drawing for each repair that stands open or moved on this week; the others in a line. */
export function standsSection(telling: Telling): ReportSection | null {
  const repairs = toldRepairs(telling)
  if (repairs.length === 0) return null
  const drawn = repairs.filter((repair) => isDrawn(telling, repair)).slice(0, MOST_DRAWINGS)
  const rest = repairs.filter((repair) => !drawn.includes(repair))
  return {
    heading: 'Where each repair stands',
    blocks: [
      ...drawn.map((repair) => standing(telling, repair)),
      ...restTexts(rest).map((text) => ({ kind: 'text', text }) as const),
    ],
  }
}

function isDrawn(telling: Telling, repair: RepairState): boolean {
  return standsOpen(repair) || passedInWeek(telling, repair).length > 0 || workedOn(telling).has(repair.id)
}

function standing({ car, context }: Telling, repair: RepairState): ReportBlock {
  const { holds } = nextGateOf(car, repair, context)
  return {
    kind: 'standing',
    repairId: repair.id,
    title: repair.plan.name,
    text: standingText(repair),
    section: sectionView(car, repair),
    marks: gateMarks(repair, holds, context.nameOf).map(({ gate, mark }) => ({ gate, mark })),
  }
}

/** 'Five of eight steps are done. Next: offering up the panels.' */
function standingText(repair: RepairState): string {
  if (repair.closedAsFound !== null) return 'It was closed as found.'
  if (isFinished(repair)) return 'It is finished.'
  const gates = gateOrder(repair.plan)
  const count = gates.filter((gate) => isDone(repair, gate)).length
  const next = nextGate(repair)
  return [
    count === 0
      ? 'No step of it is done yet.'
      : capital(
          `${numberWord(count)} of ${numberWord(gates.length)} steps ${count === 1 ? 'is' : 'are'} done.`,
        ),
    ...(next === null ? [] : [`Next: ${gateNext[next]}.`]),
  ].join(' ')
}

function restTexts(rest: readonly RepairState[]): readonly string[] {
  const groups: readonly [string, (repair: RepairState) => boolean][] = [
    ['Finished', (repair) => isFinished(repair) && repair.closedAsFound === null],
    ['Closed as found', (repair) => repair.closedAsFound !== null],
    ['In work', (repair) => !isFinished(repair) && isDone(repair, 'opened')],
    ['Not begun', (repair) => !isFinished(repair) && !isDone(repair, 'opened')],
  ]
  return groups.flatMap(([word, belongs]) => {
    const names = rest.filter(belongs).map(({ plan }) => plan.name)
    return names.length === 0 ? [] : [`${word}: ${listed(names)}.`]
  })
}

/** Long lists are cut: the car's own file has them all. */
function listed(names: readonly string[]): string {
  const shown = atMost(names, 12)
  return shown.length < names.length
    ? shown.join(names.some((name) => name.includes(',')) ? '; ' : ', ')
    : series(shown)
}
