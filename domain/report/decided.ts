import type { VariationState } from '../car.ts'
import type { FactOf } from '../facts.ts'
import { hoursOf } from './needs.ts'
import type { ReportSection } from './owner-week-shapes.ts'
import { dayOf, isInVisitWeek, type Telling, weekFacts } from './telling.ts'

/** Answers that came this week, and what was chosen for declined work. */
export function decidedSection(telling: Telling): ReportSection | null {
  const items = [...estimateAnswers(telling), ...variationAnswers(telling)]
  return items.length === 0
    ? null
    : { heading: telling.say.decided.heading, blocks: [{ kind: 'list', items }] }
}

/** What one payer accepted on one day is one answer. What the workshop pays for itself is no answer of anybody. */
function estimateAnswers(telling: Telling): readonly string[] {
  const { decided, figures } = telling.say
  const accepted = weekFacts(telling, 'estimateAccepted').filter(
    ({ payload }) => payload.visitId === telling.visit.id && payload.payer !== 'workshop',
  )
  const answers = Map.groupBy(
    accepted,
    ({ payload, happened }) => `${payload.payer} ${dayOf(telling, Date.parse(happened))}`,
  )
  return [...answers.values()].flatMap((facts) => {
    const [first] = facts
    const total = facts.reduce((sum, fact) => sum + acceptedHours(telling, fact), 0)
    if (first === undefined || total === 0) return []
    const day = dayOf(telling, Date.parse(first.happened))
    return [decided.accepted(first.payload.payer, figures.hours(total), day)]
  })
}

const acceptedHours = ({ visit }: Telling, { payload }: FactOf<'estimateAccepted'>): number =>
  payload.lineIds.reduce((sum, id) => sum + (visit.lines.get(id)?.agreed ?? 0), 0)

function variationAnswers(telling: Telling): readonly string[] {
  const { car, visit } = telling
  return [...car.variations.values()].flatMap((variation) => {
    if (variation.visitId !== visit.id) return []
    const { decided, settled } = variation
    return [
      ...(decided && isInVisitWeek(telling, decided.happened)
        ? [answerText(telling, variation, decided)]
        : []),
      ...(settled && isInVisitWeek(telling, settled.happened)
        ? settledTexts(telling, variation, settled.reason)
        : []),
    ]
  })
}

function answerText(
  telling: Telling,
  variation: VariationState,
  { happened, changed }: NonNullable<VariationState['decided']>,
): string {
  const { payer, title, status } = variation
  return telling.say.decided.answered({
    payer,
    isAccepted: status === 'accepted',
    isChanged: changed,
    title,
    day: dayOf(telling, happened),
    hours: telling.say.figures.moreOrLess(hoursOf(variation)),
  })
}

/** Work that is stopped is told among what the owner should know, in this week and in later ones. */
function settledTexts(
  { say }: Telling,
  { title, status }: VariationState,
  reason: string,
): readonly string[] {
  if (status === 'workshop pays') return [say.decided.atOurCost(title, reason)]
  return status === 'less work' ? [say.decided.leftOut(title, reason)] : []
}
