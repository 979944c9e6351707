import type { RepairState } from '../car.ts'
import { gateOrder } from '../gates.ts'
import { isDone, isFinished, nextGate, standsOpen } from '../rules/standing.ts'
import { gateMarks } from '../views/gate-marks.ts'
import { nextGateOf } from '../views/repair-card.ts'
import { sectionView } from '../views/section-view.ts'
import type { ReportBlock, ReportSection } from './owner-week-shapes.ts'
import { passedInWeek } from './done.ts'
import { textBlocks } from './report-blocks.ts'
import { atMost } from './sentences.ts'
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
    heading: telling.say.stands.heading,
    blocks: [...drawn.map((repair) => standing(telling, repair)), ...textBlocks(restTexts(telling, rest))],
  }
}

function isDrawn(telling: Telling, repair: RepairState): boolean {
  return standsOpen(repair) || passedInWeek(telling, repair).length > 0 || workedOn(telling).has(repair.id)
}

function standing(telling: Telling, repair: RepairState): ReportBlock {
  const { car, context } = telling
  const { holds } = nextGateOf(car, repair, context)
  return {
    kind: 'standing',
    repairId: repair.id,
    title: repair.plan.name,
    text: standingText(telling, repair),
    section: sectionView(car, repair),
    marks: gateMarks(repair, holds, context.nameOf).map(({ gate, mark }) => ({ gate, mark })),
  }
}

/** 'Five of eight steps are done. Next: offering up the panels.' */
function standingText({ say: { stands } }: Telling, repair: RepairState): string {
  if (repair.closedAsFound !== null) return stands.closedAsFound
  if (isFinished(repair)) return stands.isFinished
  const gates = gateOrder(repair.plan)
  const count = gates.filter((gate) => isDone(repair, gate)).length
  const next = nextGate(repair)
  return [stands.steps(count, gates.length), ...(next === null ? [] : [stands.next(next)])].join(' ')
}

type GroupName = keyof Telling['say']['stands']['groups']

function restTexts({ say }: Telling, rest: readonly RepairState[]): readonly string[] {
  const groups: readonly [GroupName, (repair: RepairState) => boolean][] = [
    ['finished', (repair) => isFinished(repair) && repair.closedAsFound === null],
    ['closed as found', (repair) => repair.closedAsFound !== null],
    ['in work', (repair) => !isFinished(repair) && isDone(repair, 'opened')],
    ['not begun', (repair) => !isFinished(repair) && !isDone(repair, 'opened')],
  ]
  return groups.flatMap(([group, belongs]) => {
    const names = rest.filter(belongs).map(({ plan }) => plan.name)
    return names.length === 0 ? [] : [`${say.stands.groups[group]}: ${listed(say, names)}.`]
  })
}

/** Long lists are cut: the car's own file has them all. */
function listed({ figures }: Telling['say'], names: readonly string[]): string {
  const shown = atMost(names, 12, figures.andMore)
  return shown.length < names.length
    ? shown.join(names.some((name) => name.includes(',')) ? '; ' : ', ')
    : figures.list(shown)
}
