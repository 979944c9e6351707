import type { CarState, Moment, RepairState, VariationState } from '../../car.ts'
import type { WorkTarget } from '../../facts/shapes.ts'
import type { HoldScope } from '../../facts/work-facts.ts'
import { gateOrder, gatesBefore } from '../../gates.ts'
import { coveredBy, isActive, openAway, passedAt } from '../../rules/standing.ts'
import { momentWords } from '../../rules/time-holds.ts'
import { addDays } from '../../time/local-date.ts'
import { localDateOf, MS_PER_HOUR } from '../../time/zone.ts'
import { isSameTarget } from '../../value/target.ts'
import { targetWords } from '../../views/work-words.ts'
import type { WorkshopState } from '../../workshop.ts'
import type { StartReason } from '../plan.ts'
import type { DraftWork } from './draft-work.ts'
import { cureHoursOf, isReleasedTarget, onGate } from './links.ts'
import { stillExpected, type TickScale } from './tick-scale.ts'

export interface EarliestStart {
  readonly tick: number
  readonly reason: StartReason
  /** A whole sentence: 'Outer skin: ordered, expected Thu 26 Nov.' */
  readonly words: string
}

/** What the earliest starts are reckoned from. */
export interface EarliestContext {
  readonly workshop: WorkshopState
  readonly scale: TickScale
}

/** What keeps work from starting, apart from other work, people and bays; what is over already is left out. */
export function earliestStarts(work: DraftWork, context: EarliestContext): readonly EarliestStart[] {
  return [
    ...partStarts(work, context),
    ...decisionStarts(work, context),
    ...handHoldStarts(work, context),
    ...curingStarts(work, context),
    ...watchStarts(work, context),
    ...arrivalStarts(work, context),
    ...pinnedStarts(work, context),
  ].filter(({ tick }) => tick > 0)
}

/** A part without a date is taken to take as long as a decision. */
function partStarts({ car, target }: DraftWork, context: EarliestContext): readonly EarliestStart[] {
  if (target.kind !== 'gate') return []
  return [...car.parts.values()]
    .filter((part) => part.repairId === target.repairId && part.gate === target.gate)
    .filter(({ state }) => state === 'needed' || state === 'ordered' || state === 'rejected')
    .filter((part) => !isReleasedTarget(car, target, 'parts', part.id))
    .map(({ name, state, expected }) =>
      state === 'ordered' && expected !== null
        ? onDate(expected, 'parts', `${name}: ordered`, context)
        : onDate(
            afterDays(context),
            'parts',
            `${name}: ${state === 'needed' ? 'not ordered yet' : state}`,
            context,
          ),
    )
}

/** Work that nobody has agreed to yet is planned as if the answer came; the rules hold it until it does. */
function decisionStarts({ car, target }: DraftWork, context: EarliestContext): readonly EarliestStart[] {
  const { scale, workshop } = context
  const visit = car.currentVisit === null ? undefined : car.visits.get(car.currentVisit)
  const isOnTarget = (line: { readonly target: WorkTarget }): boolean => isSameTarget(line.target, target)
  const variations = [...car.variations.values()].filter(
    (each) => each.visitId === visit?.id && each.lines.some(isOnTarget),
  )
  const waiting = variations.filter(
    (each) =>
      (each.status === 'raised' && !isReleasedTarget(car, target, "owner's decision", each.id)) ||
      (each.status === 'declined' && !isReleasedTarget(car, target, 'declined', each.id)),
  )
  const lines = [...(visit?.lines.values() ?? [])].filter(isOnTarget)
  const isAuthorised =
    lines.some(({ accepted }) => accepted !== null) ||
    variations.some(({ status }) => status !== 'less work') ||
    isReleasedTarget(car, target, "owner's decision", 'estimate')
  return [
    ...waiting.map((variation) => {
      const date = variation.expected ?? daysAfter(askedAt(variation), workshop)
      return onDate(date, 'decision', decisionWords(variation), { scale })
    }),
    ...(isAuthorised
      ? []
      : [
          onDate(
            afterDays(context),
            'decision',
            `The ${lines[0]?.payer ?? 'payer'} has not agreed to it yet`,
            context,
          ),
        ]),
  ]
}

const askedAt = ({ status, raised, decided }: VariationState): number =>
  (status === 'declined' ? decided?.happened : raised.happened) ?? raised.happened

const decisionWords = ({ title, payer, status }: VariationState): string =>
  status === 'declined'
    ? `The ${payer} declined '${title}'; what happens now is to be chosen`
    : `'${title}' waits for the ${payer}'s answer`

function handHoldStarts({ car, target }: DraftWork, context: EarliestContext): readonly EarliestStart[] {
  return [...car.holds.values()]
    .filter(({ cleared, scope }) => cleared === null && isOn(scope, target))
    .filter(({ id }) => !isReleasedTarget(car, target, 'by hand', id))
    .map(({ words, expected }) => onDate(expected ?? afterDays(context), 'hold', withoutStop(words), context))
}

function isOn(scope: HoldScope, target: WorkTarget): boolean {
  switch (scope.kind) {
    case 'car':
      return true
    case 'repair':
      return target.kind === 'gate' && scope.repairId === target.repairId
    case 'gate':
      return target.kind === 'gate' && scope.repairId === target.repairId && scope.gate === target.gate
    case 'task':
      return target.kind === 'task' && scope.taskId === target.taskId
  }
}

/** Work done that cures still. */
function curingStarts(
  { car, target, repair }: DraftWork,
  { scale }: EarliestContext,
): readonly EarliestStart[] {
  return [...gatesToCure(car, target, repair), ...tasksToCure(car, target)].flatMap((before) => {
    const done = doneAt(car, before)
    const until = (done ?? 0) + cureHoursOf(car, before) * MS_PER_HOUR
    if (done === null || until <= scale.now || isCureReleased(car, target, before)) return []
    const words = `${targetWords(car, before)} cures until ${momentWords(until, scale.zone, scale.now)}.`
    return [{ tick: scale.from(until), reason: 'curing' as const, words }]
  })
}

/** Those before it in the repair itself and, before it is closed, all of what it covers. */
function gatesToCure(car: CarState, target: WorkTarget, repair: RepairState | null): readonly WorkTarget[] {
  if (target.kind !== 'gate' || repair === null) return []
  const own = gatesBefore(repair.plan, target.gate).map((gate) => onGate(repair, gate))
  if (target.gate !== 'welded') return own
  const covered = coveredBy(car, repair.id).flatMap((id) => car.repairs.get(id) ?? [])
  return [...own, ...covered.flatMap((under) => gateOrder(under.plan).map((gate) => onGate(under, gate)))]
}

/** What a task waits for, and tasks that a gate waits for: as {@link workLinks} has them while they are not done. */
function tasksToCure(car: CarState, target: WorkTarget): readonly WorkTarget[] {
  if (target.kind === 'task') return car.tasks.get(target.taskId)?.plan.waitsFor ?? []
  return [...car.tasks.values()]
    .filter(
      ({ id, plan }) =>
        plan.holds.some((held) => isSameTarget(held, target)) && !isReleasedTarget(car, target, 'task', id),
    )
    .map(({ id }) => ({ kind: 'task', taskId: id }))
}

/** When it was passed; null for what is not done, not needed, or of a repair that is retired. */
function doneAt(car: CarState, target: WorkTarget): Moment | null {
  if (target.kind === 'gate') {
    const repair = car.repairs.get(target.repairId)
    return repair !== undefined && isActive(repair) ? passedAt(repair.gates[target.gate]) : null
  }
  const task = car.tasks.get(target.taskId)
  return task?.status === 'passed' ? (task.done?.stamp.happened ?? null) : null
}

/** Only curing of gates can be released. */
const isCureReleased = (car: CarState, target: WorkTarget, before: WorkTarget): boolean =>
  before.kind === 'gate' &&
  isReleasedTarget(car, target, 'curing', `${before.repairId.slice(0, 40)}/${before.gate}`)

/** Where only the signature is left, a fire watch that is still kept holds it back. */
function watchStarts({ car, target, left }: DraftWork, { scale }: EarliestContext): readonly EarliestStart[] {
  if (left.hours > 0) return []
  return [...car.entries.values()].flatMap(({ on, gone, watch, id }) => {
    const isIts = on.kind === 'work' && on.targets.some((each) => isSameTarget(each, target))
    if (!isIts || gone !== null || watch === null || watch.completed !== null) return []
    if (isReleasedTarget(car, target, 'hot-work watch', id)) return []
    const until = watch.from + (watch.minutes * MS_PER_HOUR) / 60
    const words = `Fire watch after hot work until ${momentWords(until, scale.zone, scale.now)}.`
    return [{ tick: scale.from(until), reason: 'fire watch' as const, words }]
  })
}

/** Work on the shell waits until the car is here. */
function arrivalStarts({ car, repair }: DraftWork, { scale }: EarliestContext): readonly EarliestStart[] {
  const arrival = arrivalOf(car, scale)
  if (arrival === null || repair?.plan.on === 'part') return []
  return [{ tick: arrival.tick, reason: 'away', words: arrival.words }]
}

/**
 * When a car that stands nowhere comes: back from a firm, or else with its first booking; null when it is here or nothing
 * keeps it from coming now.
 */
export function arrivalOf(
  car: CarState,
  scale: TickScale,
): { readonly tick: number; readonly words: string } | null {
  if (car.standing !== null) return null
  const away = openAway(car)
  if (away !== null) return arrival(stillExpected(away.expected, scale), scale)
  const first = [...car.bookings.values()]
    .filter(({ cancelled, to }) => cancelled === null && to >= scale.today)
    .map(({ from }) => from)
    .toSorted()[0]
  return first === undefined || first <= scale.today ? null : arrival(first, scale)
}

const arrival = (date: string, scale: TickScale) => ({
  tick: scale.workStart(date),
  words: `The car is expected on ${scale.words(date)}.`,
})

function pinnedStarts({ car, key }: DraftWork, { scale }: EarliestContext): readonly EarliestStart[] {
  const day = car.pins.get(key)?.day ?? null
  if (day === null || day < scale.today) return []
  return [{ tick: scale.dayStart(day), reason: 'pinned', words: `Pinned to ${scale.words(day)}.` }]
}

const onDate = (
  date: string,
  reason: EarliestStart['reason'],
  what: string,
  { scale }: Pick<EarliestContext, 'scale'>,
): EarliestStart => {
  const expected = stillExpected(date, scale)
  return { tick: scale.workStart(expected), reason, words: `${what}; expected ${scale.words(expected)}.` }
}

const afterDays = ({ workshop, scale }: EarliestContext): string =>
  addDays(scale.today, Math.max(1, workshop.planning.decisionDays))

const daysAfter = (moment: number, { zone, planning }: WorkshopState): string =>
  addDays(localDateOf(moment, zone), planning.decisionDays)

const withoutStop = (words: string): string => words.replace(/\.\s*$/, '')
