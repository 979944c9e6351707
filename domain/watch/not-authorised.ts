import type { CarState, VariationState, VisitState } from '../car.ts'
import type { EstimateLine, WorkTarget } from '../facts/shapes.ts'
import { LEAST_SAID_HOURS } from '../text/words.ts'
import type { HoursContext } from '../value/entry-hours.ts'
import { type TargetFigures, visitFigures } from '../value/hours.ts'
import { targetKey } from '../value/target.ts'
import { datePassed, stretchesOn } from './stretches.ts'
import type { NotAuthorised, WhyNotAuthorised } from './warning.ts'

/**
 * Work of the current visit that has hours and no payer's agreement: all its hours, or those beyond what is authorised while
 * more waits for an answer. Accepting, paying by the workshop and moving the hours elsewhere end it.
 */
export function notAuthorised(
  car: CarState,
  visit: VisitState,
  context: HoursContext,
): readonly NotAuthorised[] {
  const asked = askedByTarget(car, visit)
  return [...visitFigures(car, visit.id, context)].flatMap(([key, figures]) =>
    onTarget(car, figures, asked.get(key) ?? NOTHING_ASKED, context),
  )
}

/** What was put to the payers for one gate or task; less work asks nobody to pay. */
interface Asked {
  readonly lines: (EstimateLine & { readonly accepted: unknown; readonly isEstimated: boolean })[]
  readonly variations: VariationState[]
}

const NOTHING_ASKED: Asked = { lines: [], variations: [] }

function askedByTarget(car: CarState, visit: VisitState): ReadonlyMap<string, Asked> {
  const asked = new Map<string, Asked>()
  const of = (target: WorkTarget): Asked => {
    const key = targetKey(target)
    const known = asked.get(key) ?? { lines: [], variations: [] }
    asked.set(key, known)
    return known
  }
  for (const line of visit.lines.values()) {
    const isEstimated = line.baseline.agreed > 0 || line.agreed + line.moved > 0
    of(line.target).lines.push({ ...line, isEstimated })
  }
  for (const variation of car.variations.values())
    if (variation.visitId === visit.id && variation.status !== 'less work')
      for (const { target, hours } of variation.lines) if (hours > 0) of(target).variations.push(variation)
  return asked
}

function onTarget(
  car: CarState,
  { target, standing, hours }: TargetFigures,
  asked: Asked,
  context: HoursContext,
): readonly NotAuthorised[] {
  if (standing === 'retired' || standing === 'as found') return []
  const why = whyNotAuthorised(asked)
  if (why === null) return []
  const authorised = why.is === 'not estimated' ? 0 : hours.authorised + hours.givenBack
  const beyond = hours.spent - authorised
  if (beyond < LEAST_SAID_HOURS) return []
  return [
    {
      kind: 'not authorised',
      key: `not authorised ${targetKey(target)}`,
      since: datePassed(stretchesOn(car, target, context), authorised, context) ?? '',
      hours: beyond,
      target,
      why,
    },
  ]
}

/** The newest open question counts; null where all that is estimated is agreed. */
function whyNotAuthorised({ lines, variations }: Asked): WhyNotAuthorised | null {
  const open = variations.findLast(({ status }) => OPEN[status] !== undefined)
  const is = open && OPEN[open.status]
  if (open !== undefined && is !== undefined) return { is, title: open.title, payer: open.payer }
  const estimated = lines.filter(({ isEstimated }) => isEstimated)
  const waiting = estimated.find(({ accepted }) => accepted === null)
  if (waiting !== undefined) return { is: 'estimate waits', payer: waiting.payer }
  return estimated.length === 0 && variations.length === 0 ? { is: 'not estimated' } : null
}

const OPEN: Partial<Record<VariationState['status'], 'variation waits' | 'declined' | 'stopped'>> = {
  raised: 'variation waits',
  declined: 'declined',
  stopped: 'stopped',
}
