import type { VariationState } from '../car.ts'
import type { VariationId } from '../ids.ts'
import { hours } from '../text/words.ts'
import { capital } from '../views/work-words.ts'
import type { PhotoPlate, ReportBlock, ReportSection } from './owner-week-shapes.ts'
import { moreOrLess } from './plain-words.ts'
import { clause, counted, ended, sentence, series } from './sentences.ts'
import { dayOf, type Telling } from './telling.ts'

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
  return blocks.length === 0 ? null : { heading: 'What we need from you', blocks }
}

/** Variations of the visit that wait for the owner. */
export function openQuestions({ car, visit }: Telling): readonly VariationState[] {
  if (visit.status === 'delivered') return []
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
  const ifNot = clause(variation.ifNot, 'small')
  return {
    kind: 'question',
    variationId: variation.id,
    title: capital(clause(variation.title)),
    texts: [
      `${sentence(variation.why)} We asked you on ${dayOf(telling, variation.raised.happened)}.`,
      `It takes ${moreOrLess(hoursOf(variation), hours)} than agreed${whereWords(telling, variation)}.${doubtWords(variation)}`,
      ifNot === '' ? '' : ended(`If you decide against it: ${ifNot}`),
      hoursOf(variation) < 0 ? 'Please tell us whether you agree.' : 'Please tell us whether we may do it.',
    ].filter((text) => text !== ''),
    hours: moreOrLess(hoursOf(variation), hours),
    plates,
  }
}

/** How few and how many hours it may become, of work that is more; empty when nothing is in doubt. */
function doubtWords({ asked }: VariationState): string {
  const low = asked.reduce((sum, line) => sum + line.low, 0)
  const high = asked.reduce((sum, line) => sum + line.high, 0)
  return low === high || low < 0
    ? ''
    : ` It may become ${hours(low)} at the least and ${hours(high)} at the most.`
}

function whereWords({ car }: Telling, { lines }: VariationState): string {
  const names = new Set(
    lines.map(({ target }) =>
      target.kind === 'gate'
        ? car.repairs.get(target.repairId)?.plan.name
        : car.tasks.get(target.taskId)?.plan.name,
    ),
  )
  const known = [...names].filter((name) => name !== undefined)
  return known.length === 0 ? '' : ` (${series(known)})`
}

function estimateQuestion({ car, visit }: Telling): ReportBlock | null {
  const lines = [...visit.lines.values()].filter(
    (line) => line.accepted === null && line.payer === 'owner' && line.agreed + line.moved > 0,
  )
  if (lines.length === 0 || visit.status === 'delivered') return null
  const names = new Set(
    lines.flatMap(({ target }) => {
      const repair = target.kind === 'gate' ? car.repairs.get(target.repairId) : undefined
      if (repair?.retired) return []
      return target.kind === 'gate'
        ? (repair?.plan.name ?? [])
        : (car.tasks.get(target.taskId)?.plan.name ?? [])
    }),
  )
  if (names.size === 0) return null
  const total = hours(lines.reduce((sum, line) => sum + line.agreed + line.moved, 0))
  return {
    kind: 'question',
    variationId: null,
    title: 'The estimate',
    texts: [
      `${total} of our estimate wait for your answer${namesWords([...names])}.`,
      'Please tell us which of it we may do. We do not begin it before.',
    ],
    hours: total,
    plates: [],
  }
}

const namesWords = (names: readonly string[]): string =>
  names.length > 6
    ? `, on ${counted('repair or task', names.length, 'repairs and tasks')}`
    : `: ${series(names)}`
