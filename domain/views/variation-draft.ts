import type { CarState, RepairState } from '../car.ts'
import type { GradeMultiples } from '../estimate/grade-multiples.ts'
import { repairToEstimate } from '../estimate/repair-to-estimate.ts'
import { isPricedAgain } from '../estimate/work-point.ts'
import type { Payer } from '../facts/shapes.ts'
import { eachGate, gateOrder, GATES, type Gate } from '../gates.ts'
import type { AttachmentId, FindingId, RepairId } from '../ids.ts'
import { rateOn } from '../money/rates.ts'
import { isActive, isDone, isFinished } from '../rules/standing.ts'
import { hours } from '../text/words.ts'
import { expectedHours } from '../value/estimated-hours.ts'
import { targetHours } from '../value/hours.ts'
import { draftIfNot, draftTitle, draftWhy } from './draft-words.ts'
import type { BeyondAgreed, HoursBand } from './variation-shapes.ts'
import type { ViewContext } from './view-context.ts'
import { isOver } from '../visit-over.ts'

/** What may be put to the payer of a repair, for the manager to look through, change and raise. Nothing of it is recorded. */
export interface VariationDraft {
  readonly beyond: BeyondAgreed | null
  readonly payer: Payer
  readonly title: string
  readonly why: string
  readonly ifNot: string
  readonly findings: readonly FindingId[]
  readonly attachments: readonly AttachmentId[]
  readonly lines: readonly (HoursBand & { readonly gate: Gate })[]
  /** Parts that are needed and that no cost names yet. */
  readonly parts: readonly string[]
  /** What an hour of each gate costs today, in minor units, null where no rate is set; null where money is not shown. */
  readonly perHour: Readonly<Record<Gate, number | null>> | null
}

export interface DraftContext extends ViewContext {
  /** What hidden grades make of hours, learned from finished repairs. */
  readonly multiples: GradeMultiples
}

/** Null when the car has no such repair. */
export function variationDraft(
  car: CarState,
  repairId: RepairId,
  context: DraftContext,
): VariationDraft | null {
  const repair = car.repairs.get(repairId)
  if (repair === undefined) return null
  const findings = newFindings(car, repair)
  const why = draftWhy(repair, findings)
  return {
    beyond: beyondAgreed(car, repair, context),
    payer: repair.payer,
    // Where nothing was found there is nothing to tell.
    title: why === '' ? '' : draftTitle(repair, findings),
    why,
    ifNot: why === '' ? '' : draftIfNot(car, repair, findings),
    findings: findings.map(({ id }) => id),
    attachments: draftPhotos(car, repair, findings),
    lines: excessLines(car, repair, context),
    parts: partsWithoutCost(car, repairId),
    perHour: pricesOf(repair, context),
  }
}

/**
 * Whether an assessed repair asks for more than its payers have agreed to or are asked for. Null while a question about it
 * is open, so that nothing is put to a payer twice.
 */
function beyondAgreed(car: CarState, repair: RepairState, context: DraftContext): BeyondAgreed | null {
  if (!isBeingWorkedOn(car, repair) || hasOpenQuestion(car, repair.id)) return null
  const more = excessLines(car, repair, context).reduce((sum, { likely }) => sum + likely, 0)
  const findings = newFindings(car, repair).length
  const hoursMore = more < LEAST_IN_ALL ? 0 : more
  if (hoursMore === 0 && findings === 0) return null
  const { id: repairId, plan } = repair
  return { repairId, name: plan.name, hours: hoursMore, words: beyondWords(hoursMore, findings) }
}

/** The repairs of a car whose work goes beyond what is agreed. */
export const allBeyondAgreed = (car: CarState, context: DraftContext): readonly BeyondAgreed[] =>
  [...car.repairs.values()].flatMap((repair) => beyondAgreed(car, repair, context) ?? [])

const beyondWords = (more: number, findings: number): string =>
  more > 0
    ? `The work goes beyond what is agreed, most likely by ${hours(more)}.`
    : findings === 1
      ? 'A finding has not been put to its payer.'
      : `${findings} findings have not been put to their payer.`

function isBeingWorkedOn(car: CarState, repair: RepairState): boolean {
  const visit = car.currentVisit === null ? undefined : car.visits.get(car.currentVisit)
  const isAtRest = visit === undefined || visit.status === 'finished' || isOver(visit)
  return !isAtRest && isActive(repair) && !isFinished(repair) && isDone(repair, 'assessed')
}

/** A variation on the repair that waits for its payer, or that was declined and waits for the manager. */
function hasOpenQuestion(car: CarState, repairId: RepairId): boolean {
  return [...car.variations.values()].some(
    ({ status, visitId, lines }) =>
      visitId === car.currentVisit &&
      (status === 'raised' || status === 'declined' || status === 'stopped') &&
      lines.some(({ target }) => target.kind === 'gate' && target.repairId === repairId),
  )
}

/**
 * Findings of the current visit that no variation names: one that was declined stays the payer's decision. What was found
 * before new metal was let in has been put right with it.
 */
function newFindings(car: CarState, { id, gates }: RepairState) {
  const put = new Set([...car.variations.values()].flatMap(({ findings }) => findings))
  const putRight = gates.fabricated.done?.stamp.number ?? 0
  return [...car.findings.values()].filter(
    ({ repairId, visitId, id: findingId, stamp }) =>
      repairId === id && visitId === car.currentVisit && !put.has(findingId) && stamp.number > putRight,
  )
}

/** Person-hours on one gate, and on all of a repair, that are worth a question. */
const LEAST = 0.25
const LEAST_IN_ALL = 1

/**
 * Gates still to be done whose estimate lies above what is authorised or waits for an answer, in quarters of an hour. Likely
 * is (a + 4m + b) / 6, as agreed figures are; nobody is asked for less than nothing more.
 */
function excessLines(car: CarState, repair: RepairState, context: DraftContext): VariationDraft['lines'] {
  if (!isDone(repair, 'assessed')) return []
  const multiple = hiddenMultiple(car, repair, context)
  return gateOrder(repair.plan).flatMap((gate) => {
    if (isDone(repair, gate)) return []
    const points = repair.plan.gates[gate].hours
    const target = { kind: 'gate' as const, repairId: repair.id, gate }
    const { authorised, waiting } = targetHours(car, car.currentVisit, target, context)
    const above = (figure: number) =>
      Math.max(0, Math.round((figure * multiple - authorised - waiting) * 4) / 4)
    const likely = above(expectedHours(points))
    return likely < LEAST ? [] : [{ gate, low: above(points.shortest), likely, high: above(points.longest) }]
  })
}

/**
 * What the gates after assessed take for what was priced from outside, by the worst grade that was hidden; 1 where the
 * figures have been set again since, as what was found is in them then, where nothing was hidden, and once new metal is let
 * in: most of it is told by then.
 */
function hiddenMultiple(car: CarState, repair: RepairState, context: DraftContext): number {
  if (isDone(repair, 'fabricated')) return 1
  const { worstHidden, gates } = repairToEstimate(car, repair, '', context)
  const isPlannedAgain = GATES.some(
    (gate) => expectedHours(repair.plan.gates[gate].hours) !== expectedHours(gates[gate].points),
  )
  if (worstHidden === null || isPlannedAgain || isPricedAgain(gates)) return 1
  return context.multiples[worstHidden].multiple
}

const MOST_PHOTOS = 6

/** Those of the findings, else those that the layers were graded by. */
function draftPhotos(
  car: CarState,
  { id }: RepairState,
  findings: readonly { readonly attachments: readonly AttachmentId[] }[],
): readonly AttachmentId[] {
  const own = [...new Set(findings.flatMap(({ attachments }) => attachments))]
  const graded = [...car.attachments.values()].flatMap(({ id: attachmentId, serves }) =>
    serves.some((each) => each.what === 'gate' && each.repairId === id && each.gate === 'assessed')
      ? [attachmentId]
      : [],
  )
  return (own.length > 0 ? own : graded).slice(0, MOST_PHOTOS)
}

function partsWithoutCost(car: CarState, repairId: RepairId): readonly string[] {
  const visit = car.currentVisit === null ? undefined : car.visits.get(car.currentVisit)
  const costs = [
    ...(visit?.costs.values() ?? []),
    ...[...car.variations.values()].flatMap(({ askedCosts }) => askedCosts),
  ]
  const named = new Set(
    costs.filter((cost) => cost.repairId === repairId).map(({ name }) => name.toLowerCase()),
  )
  return [...car.parts.values()]
    .filter((part) => part.repairId === repairId && part.state !== 'fitted' && part.state !== 'rejected')
    .map(({ name }) => name)
    .filter((name) => !named.has(name.toLowerCase()))
}

function pricesOf(
  { plan }: RepairState,
  { workshop, today }: ViewContext,
): NonNullable<VariationDraft['perHour']> {
  return eachGate((gate) => rateOn(workshop.rates, today, plan.gates[gate].skill))
}
