import type { CarState, RepairState, TaskState } from '../car.ts'
import type { ThreePoint, WorkTarget } from '../facts/shapes.ts'
import { type Gate, gateOrder } from '../gates.ts'
import { activeRepairs } from '../rules/standing.ts'
import { targetKey } from '../value/target.ts'
import { openEntries } from './clock-views.ts'
import { isStanding, mayBeWorkedOn, taskHoldViews } from './hold-view.ts'
import { nextGateOf } from './repair-card.ts'
import type { HoldView } from './shared-views.ts'
import type { ViewContext } from './view-context.ts'

/** What may come next on a car: the next gate of a repair, or an open task of its visit. */
export interface WorkItem {
  readonly key: string
  readonly target: WorkTarget
  readonly work: Work
  readonly name: string
  /** 'fabricated' for a gate, 'done' for a task: 'boot floor may be fabricated'. */
  readonly done: string
  readonly plan: { readonly skill: string; readonly hotWork: boolean; readonly hours: ThreePoint }
  readonly holds: readonly HoldView[]
  readonly mayBeWorkedOn: boolean
  /** Names of the people whose clock runs on it. */
  readonly onIt: readonly string[]
  /** Journal number of the last step forward; 0 when nothing was done yet. */
  readonly lastStep: number
}

export type Work =
  | { readonly kind: 'gate'; readonly repair: RepairState; readonly gate: Gate }
  | { readonly kind: 'task'; readonly task: TaskState }

/** In the order in which repairs and tasks were added. Holds that are released are left out. */
export function workItems(car: CarState, context: ViewContext): readonly WorkItem[] {
  const people = peopleOnTargets(car, context)
  const repairs = activeRepairs(car).flatMap((repair) => repairItem(car, repair, context))
  const tasks = [...car.tasks.values()]
    .filter((task) => task.status === 'open' && task.visitId === car.currentVisit)
    .map((task) => taskItem(car, task, context))
  return [...repairs, ...tasks].map((item) => ({ ...item, onIt: people.get(item.key) ?? [] }))
}

type Unmanned = Omit<WorkItem, 'onIt'>

function repairItem(car: CarState, repair: RepairState, context: ViewContext): readonly Unmanned[] {
  const { gate, holds } = nextGateOf(car, repair, context)
  if (gate === null) return []
  const target = { kind: 'gate' as const, repairId: repair.id, gate }
  const steps = gateOrder(repair.plan).map((each) => repair.gates[each].done?.stamp.number ?? 0)
  return [
    {
      key: targetKey(target),
      target,
      work: { kind: 'gate', repair, gate },
      name: repair.plan.name,
      done: gate,
      plan: repair.plan.gates[gate],
      holds: holds.filter(isStanding),
      mayBeWorkedOn: mayBeWorkedOn(holds),
      lastStep: Math.max(0, ...steps),
    },
  ]
}

function taskItem(car: CarState, task: TaskState, context: ViewContext): Unmanned {
  const target = { kind: 'task' as const, taskId: task.id }
  const holds = taskHoldViews(car, task.id, context)
  return {
    key: targetKey(target),
    target,
    work: { kind: 'task', task },
    name: task.plan.name,
    done: 'done',
    plan: task.plan,
    holds: holds.filter(isStanding),
    mayBeWorkedOn: mayBeWorkedOn(holds),
    lastStep: 0,
  }
}

function peopleOnTargets(car: CarState, { nameOf }: ViewContext): ReadonlyMap<string, readonly string[]> {
  const people = new Map<string, string[]>()
  for (const { personId, on } of openEntries(car).running) {
    if (on.kind === 'workshop') continue
    for (const key of new Set(on.targets.map((target) => targetKey(target)))) {
      const known = people.get(key)
      if (known === undefined) people.set(key, [nameOf(personId)])
      else known.push(nameOf(personId))
    }
  }
  return people
}
