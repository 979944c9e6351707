import type { CarState, Part, RepairState, TaskState } from '../car.ts'
import type { WorkTarget } from '../facts/shapes.ts'
import type { HoldScope } from '../facts/work-facts.ts'
import type { Gate } from '../gates.ts'
import { dayWords } from '../text/words.ts'
import { localYearOf, MS_PER_HOUR } from '../time/zone.ts'
import { isSameTarget } from '../value/target.ts'
import type { Person } from '../workshop.ts'
import { targetAgreementHolds } from './agreement-holds.ts'
import { hold, type Hold, type HoldContext } from './hold.ts'
import { isDone } from './standing.ts'
import { momentWords } from './time-holds.ts'

/** A skill that everybody has: the gate or task asks for none. */
export const NO_SKILL = 'any'

/** False for somebody who is not known, where a skill is asked for. */
export const hasSkill = (person: Pick<Person, 'skills'> | undefined, skill: string): boolean =>
  skill === NO_SKILL || (person?.skills.includes(skill) ?? false)

/** A gate that needs a part waits until the part is checked. */
export const partHolds = (
  car: CarState,
  repair: RepairState,
  gate: Gate,
  context: HoldContext,
): readonly Hold[] =>
  [...car.parts.values()]
    .filter((part) => part.repairId === repair.id && part.gate === gate)
    .filter((part) => part.state !== 'checked' && part.state !== 'fitted')
    .map((part) =>
      hold(
        'parts',
        part.id,
        `${part.name}: ${partWords(part, localYearOf(context.at, context.workshop.zone))}.`,
        'the manager',
      ),
    )

const partWords = (part: Part, year: number): string => {
  if (part.state === 'rejected') return `rejected (${part.reason})`
  if (part.state === 'received') return 'received, not checked yet'
  if (part.state !== 'ordered') return 'not ordered yet'
  return part.expected ? `ordered, expected ${dayWords(part.expected, year)}` : 'ordered'
}

/** Hot work is not signed for until its clock is stopped and its fire watch is completed. */
export const watchHolds = (
  car: CarState,
  target: WorkTarget,
  { at, workshop }: HoldContext,
): readonly Hold[] =>
  [...car.entries.values()]
    .filter(
      (entry) =>
        entry.hotWork &&
        entry.gone === null &&
        entry.on.kind === 'work' &&
        entry.on.targets.some((each) => isSameTarget(each, target)),
    )
    .flatMap((entry) => {
      if (entry.time.kind === 'running')
        return [
          hold(
            'hot-work watch',
            entry.id,
            'A clock on this hot work is still running; stop it first.',
            'the technician',
          ),
        ]
      if (!entry.watch || entry.watch.completed) return []
      const until = entry.watch.from + (entry.watch.minutes * MS_PER_HOUR) / 60
      const words =
        at < until
          ? `Fire watch after hot work until ${momentWords(until, workshop.zone, at)}.`
          : 'The fire watch is over and nobody has said that nothing smoulders.'
      return [hold('hot-work watch', entry.id, words, 'the technician', at < until ? { until } : {})]
    })

/** Everyone named as having done the work has the skill; without names the hold is not judged. */
export const skillHolds = (skill: string, { did, workshop }: HoldContext): readonly Hold[] =>
  (did ?? [])
    .filter((id) => !hasSkill(workshop.people.get(id), skill))
    .map((id) =>
      hold('skill', id, `This needs the skill '${skill}', which not everyone named has.`, 'the manager'),
    )

/** The manager's own holds on the car, the repair or the gate. */
export const handHolds = (
  car: CarState,
  repair: RepairState,
  gate: Gate,
  context: HoldContext,
): readonly Hold[] =>
  standingHandHolds(
    car,
    context,
    (scope) =>
      scope.kind === 'car' ||
      (scope.kind === 'repair' && scope.repairId === repair.id) ||
      (scope.kind === 'gate' && scope.repairId === repair.id && scope.gate === gate),
  )

const standingHandHolds = (
  car: CarState,
  context: HoldContext,
  applies: (scope: HoldScope) => boolean,
): readonly Hold[] =>
  [...car.holds.values()]
    .filter((each) => each.cleared === null && applies(each.scope))
    .map((each) => {
      const expected = each.expected
        ? `; expected ${dayWords(each.expected, localYearOf(context.at, context.workshop.zone))}`
        : ''
      return hold('by hand', each.id, `${each.words}${expected}`, each.clears)
    })

/** Tasks that must be done before this gate. */
export const taskOrderHolds = (car: CarState, target: WorkTarget): readonly Hold[] =>
  [...car.tasks.values()]
    .filter((task) => task.status === 'open' && task.plan.holds.some((each) => isSameTarget(each, target)))
    .map((task) => hold('task', task.id, `The task '${task.plan.name}' comes first.`, 'the technician'))

export const taskWaits = (car: CarState, task: TaskState, context: HoldContext): readonly Hold[] => {
  const target: WorkTarget = { kind: 'task', taskId: task.id }
  return [
    ...task.plan.waitsFor.flatMap((each) => waitHold(car, each)),
    ...targetAgreementHolds(car, target, task.plan.name),
    ...watchHolds(car, target, context),
    ...photoHolds(car, task),
    ...skillHolds(task.plan.skill, context),
    ...standingHandHolds(
      car,
      context,
      (scope) => scope.kind === 'car' || (scope.kind === 'task' && scope.taskId === task.id),
    ),
  ]
}

const waitHold = (car: CarState, target: WorkTarget): readonly Hold[] => {
  if (target.kind === 'task') {
    const other = car.tasks.get(target.taskId)
    return !other || other.status !== 'open'
      ? []
      : [hold('order', other.id, `The task '${other.plan.name}' comes first.`, 'the technician')]
  }
  const repair = car.repairs.get(target.repairId)
  if (!repair || repair.retired || repair.closedAsFound || isDone(repair, target.gate)) return []
  const words = `${repair.plan.name} must be ${target.gate} first.`
  return [
    hold('order', `${repair.id.slice(0, 40)}/${target.gate}`, words, 'the technician', {
      otherRepair: repair.id,
    }),
  ]
}

const photoHolds = (car: CarState, task: TaskState): readonly Hold[] => {
  const floor = task.reopened?.stamp.number ?? 0
  const count = [...car.attachments.values()].filter(
    (each) =>
      each.stamp.number > floor &&
      each.serves.some((serves) => serves.what === 'task' && serves.taskId === task.id),
  ).length
  return count >= task.plan.photos
    ? []
    : [hold('evidence', 'photo', `Photos: ${count} of ${task.plan.photos}`, 'the technician')]
}
