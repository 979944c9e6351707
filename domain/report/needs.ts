import type { CarState, VariationState } from '../car.ts'
import type { WorkTarget } from '../facts/shapes.ts'
import type { VariationId } from '../ids.ts'
import { capital } from '../text/words.ts'
import { visitFigures } from '../value/hours.ts'
import { targetKey } from '../value/target.ts'
import type { PhotoPlate, ReportBlock, ReportSection } from './owner-week-shapes.ts'
import { clause, sentence } from './sentences.ts'
import { dayOf, type Telling } from './telling.ts'
import { isOver } from '../visit-over.ts'

/** What the owner must decide: extra work that waits, and estimates not accepted. */
export function needsSection(
  telling: Telling,
  plates: ReadonlyMap<VariationId, readonly PhotoPlate[]>,
): ReportSection | null {
  const questions = openQuestions(telling).map((variation): ReportBlock =>
    question(telling, variation, plates.get(variation.id) ?? []),
  )
  const estimate = estimateQuestion(telling)
  const blocks = [...questions, ...(estimate === null ? [] : [estimate])]
  return blocks.length === 0 ? null : { heading: telling.say.needs.heading, blocks }
}

/** Variations of the visit that wait for the owner. */
export function openQuestions({ car, visit }: Telling): readonly VariationState[] {
  if (isOver(visit)) return []
  return [...car.variations.values()].filter(
    ({ visitId, status, payer }) => visitId === visit.id && status === 'raised' && payer === 'owner',
  )
}

/** How many answers the owner is asked for. */
export const questionCount = (telling: Telling): number =>
  openQuestions(telling).length + (estimateQuestion(telling) === null ? 0 : 1)

export function hoursOf({ lines }: VariationState): number {
  return lines.reduce((sum, line) => sum + line.hours, 0)
}

function question(telling: Telling, variation: VariationState, plates: readonly PhotoPlate[]): ReportBlock {
  const { needs, figures } = telling.say
  const more = hoursOf(variation)
  return {
    kind: 'question',
    variationId: variation.id,
    title: capital(clause(variation.title)),
    texts: [
      `${sentence(variation.why)} ${needs.asked(dayOf(telling, variation.raised.happened))}`,
      needs.takes(more, targetNames(telling.car, variation.lines), doubtOf(variation)),
      clause(variation.ifNot) === '' ? '' : needs.ifNot(variation.ifNot),
      more < 0 ? needs.doYouAgree : needs.mayWe,
    ].filter((text) => text !== ''),
    hours: figures.moreOrLess(more),
    plates,
  }
}

/** How few and how many hours it may become, of work that is more; null when nothing is in doubt. */
function doubtOf({ asked }: VariationState): { readonly low: number; readonly high: number } | null {
  const low = asked.reduce((sum, line) => sum + line.low, 0)
  const high = asked.reduce((sum, line) => sum + line.high, 0)
  return low === high || low < 0 ? null : { low, high }
}

function targetNames(car: CarState, lines: readonly { readonly target: WorkTarget }[]): readonly string[] {
  const names = new Set(
    lines.map(({ target }) =>
      target.kind === 'gate'
        ? car.repairs.get(target.repairId)?.plan.name
        : car.tasks.get(target.taskId)?.plan.name,
    ),
  )
  return [...names].filter((name) => name !== undefined)
}

/** Lines on work that fell away wait for nothing any more. */
function estimateQuestion({ car, visit, say, context }: Telling): ReportBlock | null {
  const figures = visitFigures(car, visit.id, context)
  const lines = [...visit.lines.values()].filter(
    ({ accepted, payer, agreed, moved, target }) =>
      accepted === null &&
      payer === 'owner' &&
      agreed + moved > 0 &&
      figures.get(targetKey(target))?.standing === 'open',
  )
  if (lines.length === 0 || isOver(visit)) return null
  const names = targetNames(car, lines)
  const total = say.figures.hours(lines.reduce((sum, line) => sum + line.agreed + line.moved, 0))
  return {
    kind: 'question',
    variationId: null,
    title: say.needs.estimate,
    texts: [say.needs.estimateWaits(total, names), say.needs.whichMayWe],
    hours: total,
    plates: [],
  }
}
