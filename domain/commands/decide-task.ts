import type { CarState } from '../car.ts'
import { fact } from '../facts.ts'
import type { TaskPlan, WorkTarget } from '../facts/shapes.ts'
import { gateOrder } from '../gates.ts'
import { lineIdSchema, type TaskId } from '../ids.ts'
import { refuse, type Result } from '../refusal.ts'
import { standing, taskHolds } from '../rules/holds.ts'
import type { TaskState } from '../car.ts'
import { expectedHours } from '../value/estimated-hours.ts'
import { heldRefusal } from './decide-pass-gate.ts'
import { estimateFacts, roundHours } from './decide-repair.ts'
import {
  currentVisit,
  firstRefusal,
  onCar,
  record,
  refuseIf,
  unknownPeople,
  type Decider,
  type Refused,
} from './deciders.ts'

type TaskKind = 'addTask' | 'changeTask' | 'signTask' | 'markTaskNotNeeded' | 'reopenTask'

export const taskDeciders: { readonly [K in TaskKind]: Decider<K> } = {
  addTask: onCar((payload, { car }) => {
    const visit = currentVisit(car)
    if (!visit.ok) return visit
    const { taskId, plan } = payload
    const line = {
      lineId: lineIdSchema.parse(`${taskId.slice(0, 50)}-task`),
      target: { kind: 'task' as const, taskId },
      hours: plan.hours,
      agreed: roundHours(expectedHours(plan.hours)),
      payer: plan.payer,
    }
    return (
      firstRefusal(
        refuseIf(car.tasks.has(taskId), 'already', 'This task is known already.', 'Reload the car.'),
        taskRefusal(car, taskId, plan),
      ) ?? record(fact('taskAdded', payload), ...estimateFacts(visit.value.id, [line]))
    )
  }),

  changeTask: onCar((payload, { car }) => {
    const task = findTask(car, payload.taskId)
    if (!task.ok) return task
    return (
      firstRefusal(
        refuseIf(
          task.value.status !== 'open',
          'not-now',
          `'${task.value.plan.name}' is done.`,
          'Reopen it first.',
        ),
        taskRefusal(car, payload.taskId, payload.plan),
      ) ?? record(fact('taskChanged', payload))
    )
  }),

  signTask: onCar((payload, context) => {
    const { car, workshop, happened } = context
    const task = findTask(car, payload.taskId)
    if (!task.ok) return task
    const holds = standing(taskHolds(car, payload.taskId, { at: happened, workshop, did: payload.did }))
    return (
      firstRefusal(
        refuseIf(
          task.value.status !== 'open',
          'already',
          `'${task.value.plan.name}' is done already.`,
          'Reload the car.',
        ),
        unknownPeople(context, payload.did),
        heldRefusal(`'${task.value.plan.name}'`, holds),
      ) ?? record(fact('taskSigned', payload))
    )
  }),

  markTaskNotNeeded: onCar((payload, { car }) => {
    const task = findTask(car, payload.taskId)
    if (!task.ok) return task
    return (
      refuseIf(
        task.value.status !== 'open',
        'already',
        `'${task.value.plan.name}' is done already.`,
        'Reload the car.',
      ) ?? record(fact('taskNotNeeded', payload))
    )
  }),

  reopenTask: onCar((payload, { car }) => {
    const task = findTask(car, payload.taskId)
    if (!task.ok) return task
    return (
      refuseIf(
        task.value.status === 'open',
        'not-now',
        `'${task.value.plan.name}' is open.`,
        'Nothing to do.',
      ) ?? record(fact('taskReopened', payload))
    )
  }),
}

const findTask = (car: CarState, id: TaskId): Result<TaskState> => {
  const task = car.tasks.get(id)
  return task ? { ok: true, value: task } : refuse('unknown', 'This task is not known.', 'Reload the car.')
}

/** A task that waits for what waits for it could never start. */
const taskRefusal = (car: CarState, taskId: TaskId, plan: TaskPlan): Refused | null => {
  const unknown = [...plan.waitsFor, ...plan.holds].find((target) => !isKnown(car, target))
  const ownGates = plan.waitsFor.some((wait) => plan.holds.some((held) => isBeforeOrSame(car, held, wait)))
  return firstRefusal(
    refuseIf(
      unknown !== undefined,
      'unknown',
      'The task waits for something that is not known.',
      'Choose from the lists.',
    ),
    refuseIf(
      ownGates,
      'circle',
      'The task waits for a gate that waits for the task.',
      'Take one of the two out.',
    ),
    refuseIf(
      waitsForItself(car, taskId, plan),
      'circle',
      'These tasks wait for each other in a circle.',
      'Take one of the waits out.',
    ),
  )
}

const isKnown = (car: CarState, target: WorkTarget): boolean =>
  target.kind === 'gate' ? car.repairs.has(target.repairId) : car.tasks.has(target.taskId)

const isBeforeOrSame = (car: CarState, a: WorkTarget, b: WorkTarget): boolean => {
  if (a.kind !== 'gate' || b.kind !== 'gate' || a.repairId !== b.repairId) return false
  const repair = car.repairs.get(a.repairId)
  if (!repair) return false
  const order = gateOrder(repair.plan)
  return order.indexOf(a.gate) <= order.indexOf(b.gate)
}

const waitsForItself = (car: CarState, taskId: TaskId, plan: TaskPlan): boolean => {
  const seen = new Set<TaskId>()
  const waiting = tasksOf(plan.waitsFor)
  for (let id = waiting.pop(); id !== undefined; id = waiting.pop()) {
    if (id === taskId) return true
    if (seen.has(id)) continue
    seen.add(id)
    waiting.push(...tasksOf(car.tasks.get(id)?.plan.waitsFor ?? []))
  }
  return false
}

const tasksOf = (targets: readonly WorkTarget[]): TaskId[] =>
  targets.flatMap((target) => (target.kind === 'task' ? [target.taskId] : []))
