import type { CarState } from '../../car.ts'
import { coversOf, isActive, isClosed } from '../../rules/standing.ts'
import { hours } from '../../text/words.ts'
import { isSameTarget } from '../../value/target.ts'
import type { PlanFloor } from './floor-bays.ts'
import type { DraftWork } from './draft-work.ts'
import { openGates } from './draft-work.ts'
import { type NamedFault, namedFault } from './faults.ts'
import { isReleasedTarget } from './links.ts'
import type { TickScale } from './tick-scale.ts'

/** More on one gate or task is not believable, as no line of an estimate may have more. */
export const MOST_HOURS = 10_000

/** What keeps one piece of work from being planned at all, whoever does it; the rest is planned. */
export function impossibleFaults(work: DraftWork, floor: PlanFloor): readonly NamedFault[] {
  return [...hoursFaults(work), ...bayFaults(work, floor), ...coverFaults(work), ...stoppedFaults(work)]
}

/** What is planned otherwise than it is stated. */
export function otherwiseFaults(work: DraftWork, scale: TickScale): readonly NamedFault[] {
  return [...zeroFaults(work), ...pastPinFaults(work, scale)]
}

function hoursFaults(work: DraftWork): readonly NamedFault[] {
  const { hours: left } = work.left
  if (left >= 0 && left <= MOST_HOURS) return []
  const words = Number.isFinite(left)
    ? `${hours(left, 0)} of work cannot be planned`
    : 'its hours are no number and cannot be planned'
  return [namedFault(work, 'bad hours', `${left}`, words, 'Correct the hours of its estimate.')]
}

function zeroFaults(work: DraftWork): readonly NamedFault[] {
  if (work.left.hours !== 0 || work.left.begun || work.car.left.has(work.key)) return []
  const next = 'Give it hours in the estimate, or mark it as not needed.'
  return [
    namedFault(work, 'bad hours', 'zero', 'estimated at no hours, so planned as a signature only', next),
  ]
}

function bayFaults(work: DraftWork, { kindOf }: PlanFloor): readonly NamedFault[] {
  const { bayKind } = work.plan
  if (bayKind === null || kindOf(bayKind) !== null) return []
  const words = `a bay of the kind '${bayKind}' is needed, and there is none`
  const next = `Give a bay the kind '${bayKind}' under Workshop, Bays, or change what the work asks for.`
  return [namedFault(work, 'no bay', bayKind, words, next)]
}

/** What lies under closed metal can be reached by nobody. */
function coverFaults(work: DraftWork): readonly NamedFault[] {
  const { repair, car, target } = work
  if (repair === null || target.kind !== 'gate' || openGates(repair)[0] !== target.gate) return []
  return coversOf(car, repair.id).flatMap((id) => {
    const over = closedRepair(car, id)
    if (over === null || isReleasedTarget(car, target, 'uncover first', id)) return []
    const words = `under ${over.plan.name}, which is closed`
    return [namedFault(work, 'closed over', id, words, `Reopen ${over.plan.name}, or take out the link.`)]
  })
}

function closedRepair(car: CarState, id: DraftWork['car']['covers'][number]['over']) {
  const over = car.repairs.get(id)
  return over !== undefined && isActive(over) && isClosed(over) ? over : null
}

/** The workshop has refused to close load-bearing metal as found, and no decision is awaited. */
function stoppedFaults(work: DraftWork): readonly NamedFault[] {
  const { car, target } = work
  return [...car.variations.values()]
    .filter((each) => each.status === 'stopped' && each.visitId === car.currentVisit)
    .filter((each) => each.lines.some((line) => isSameTarget(line.target, target)))
    .filter((each) => !isReleasedTarget(car, target, 'declined', each.id))
    .map((each) =>
      namedFault(
        work,
        'not authorised',
        each.id,
        `stopped by the workshop: ${each.settled?.reason ?? each.title}`.replace(/\.\s*$/, ''),
        'Agree with the payer on the work, then raise it anew.',
      ),
    )
}

function pastPinFaults(work: DraftWork, scale: TickScale): readonly NamedFault[] {
  const day = work.car.pins.get(work.key)?.day ?? null
  if (day === null || day >= scale.today) return []
  const words = `pinned to ${scale.words(day)}, which has gone by`
  return [namedFault(work, 'pin in the past', day, words, 'Pin it to another day, or take the pin away.')]
}
