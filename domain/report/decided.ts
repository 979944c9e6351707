import type { VariationState } from '../car.ts'
import type { FactOf } from '../facts.ts'
import { hours } from '../text/words.ts'
import { hoursOf } from './needs.ts'
import type { ReportSection } from './owner-week-shapes.ts'
import { moreOrLess } from './plain-words.ts'
import { clause, ended } from './sentences.ts'
import { dayOf, isInVisitWeek, type Telling, weekFacts } from './telling.ts'

/** Answers that came this week, and what was chosen for declined work. */
export function decidedSection(telling: Telling): ReportSection | null {
  const items = [...estimateAnswers(telling), ...variationAnswers(telling)]
  return items.length === 0 ? null : { heading: 'What was decided', blocks: [{ kind: 'list', items }] }
}

/** What one payer accepted on one day is one answer. What the workshop pays for itself is no answer of anybody. */
function estimateAnswers(telling: Telling): readonly string[] {
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
    return [
      `${who(first.payload.payer)} accepted ${hours(total)} of the estimate on ${dayOf(telling, Date.parse(first.happened))}.`,
    ]
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
        ? settledTexts(variation, clause(settled.reason, 'small'))
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
  const did = status === 'accepted' ? 'accepted' : 'declined'
  const when = `on ${dayOf(telling, happened)} (${moreOrLess(hoursOf(variation), hours)})`
  return payer === 'workshop'
    ? `We decided ${status === 'accepted' ? 'to do' : 'against'} ‘${clause(title)}’ at our own cost ${when}.`
    : `${who(payer)} ${did} ‘${clause(title)}’${changed ? ' with changes' : ''} ${when}.`
}

/** Work that is stopped is told among what the owner should know, in this week and in later ones. */
function settledTexts({ title, status }: VariationState, reason: string): readonly string[] {
  const name = `‘${clause(title)}’`
  if (status === 'workshop pays') return [ended(`We do ${name} at our own cost: ${reason}`)]
  return status === 'less work' ? [ended(`${name} is left out, and less is done instead: ${reason}`)] : []
}

const who = (payer: 'owner' | 'insurer' | 'workshop'): string => (payer === 'owner' ? 'You' : 'The insurer')
