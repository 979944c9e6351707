import type { CarState, RepairState } from '../car.ts'
import type { Gate } from '../gates.ts'
import type { TaskId } from '../ids.ts'
import { gateHolds, type JudgedHold, taskHolds } from '../rules/holds.ts'
import type { HoldView, NameOf } from './shared-views.ts'
import { stampName, type ViewContext } from './view-context.ts'
import type { SkillHoldView } from './view-shapes.ts'

/** Every hold on a gate, released ones too. */
export function gateHoldViews(
  car: CarState,
  repair: RepairState,
  gate: Gate,
  context: ViewContext,
): readonly HoldView[] {
  return gateHolds(car, repair.id, gate, context).map((hold) => holdView(hold, context.nameOf))
}

/** What would hold the gate if everybody had done its work: one hold for each person in the workshop without the skill. */
export function skillHoldViews(
  car: CarState,
  repair: RepairState,
  gate: Gate,
  context: ViewContext,
): readonly SkillHoldView[] {
  const { nameOf, workshop } = context
  const { skill } = repair.plan.gates[gate]
  const did = [...workshop.people.values()].filter(({ active }) => active).map(({ id }) => id)
  return gateHolds(car, repair.id, gate, { ...context, did })
    .filter(({ code }) => code === 'skill')
    .map((hold) => ({
      ...holdView(hold, nameOf),
      words: `${nameOf(hold.subject)} does not have the skill '${skill}', which ${gate} needs.`,
      asked: repair.releases.some(
        (release) =>
          release.asked &&
          release.gate === gate &&
          release.code === 'skill' &&
          release.subject === hold.subject,
      ),
    }))
}

export function taskHoldViews(car: CarState, taskId: TaskId, context: ViewContext): readonly HoldView[] {
  return taskHolds(car, taskId, context).map((hold) => holdView(hold, context.nameOf))
}

export const isStanding = (hold: HoldView): boolean => hold.released === null

/** What keeps people from working on a gate at all. */
export const keepsFromWork = (hold: HoldView): boolean => isStanding(hold) && !hold.broughtByWork

/** Nothing keeps people from it; where only a fire watch stands between it and the signature it is time that is missing. */
export function mayBeWorkedOn(holds: readonly HoldView[]): boolean {
  const standing = holds.filter(isStanding)
  if (standing.some(keepsFromWork)) return false
  return standing.length === 0 || standing.some(({ until }) => until === null)
}

function holdView(hold: JudgedHold, nameOf: NameOf): HoldView {
  const { code, subject, words, clearedBy, until, releasable, otherRepair, released } = hold
  return {
    code,
    subject,
    words,
    clearedBy,
    until,
    releasable,
    broughtByWork: isBroughtByWork(hold),
    released: released && { by: stampName(released.stamp, nameOf), reason: released.reason },
    otherRepair,
  }
}

/** Hot work may go on during its watch: only the signature waits. A manager's review is not the technician's to bring. */
function isBroughtByWork({ code, clearedBy, otherRepair }: JudgedHold): boolean {
  switch (code) {
    case 'evidence':
    case 'window':
      return clearedBy === 'the technician'
    case 'fit together':
    case 'closed in order':
      return otherRepair === null
    case 'hot-work watch':
      return true
    case 'order':
    case 'uncover first':
    case 'support':
    case "owner's decision":
    case 'declined':
    case 'parts':
    case 'curing':
    case 'conditions':
    case 'skill':
    case 'by hand':
    case 'task':
    case 'away':
      return false
  }
}
