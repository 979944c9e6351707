import type { CarState, TaskState } from '../car.ts'
import { targetHours } from '../value/hours.ts'
import { isStanding, taskHoldViews } from './hold-view.ts'
import { leftView } from './left-view.ts'
import { stampName, type ViewContext } from './view-context.ts'
import type { TaskView } from './view-shapes.ts'
import { targetWords } from './work-words.ts'

export function taskView(car: CarState, task: TaskState, context: ViewContext): TaskView {
  const { id, plan, status, done, visitId } = task
  const target = { kind: 'task' as const, taskId: id }
  const isOpen = status === 'open' && visitId === car.currentVisit
  return {
    id,
    name: plan.name,
    plan,
    status,
    skill: plan.skill,
    hours: targetHours(car, visitId, target, context),
    left: leftView(car, target, context),
    holds: isOpen ? taskHoldViews(car, id, context).filter(isStanding) : [],
    done: done?.stamp.happened ?? null,
    by: done === null ? null : stampName(done.stamp, context.nameOf),
    waitsFor: plan.waitsFor.map((target) => targetWords(car, target)),
  }
}
