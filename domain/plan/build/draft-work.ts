import type { CarState, RepairState } from '../../car.ts'
import type { WorkTarget } from '../../facts/shapes.ts'
import { gateOrder } from '../../gates.ts'
import type { VisitId } from '../../ids.ts'
import { activeRepairs, isDone } from '../../rules/standing.ts'
import { targetKey } from '../../value/target.ts'
import { targetWords } from '../../views/work-words.ts'
import type { PlanInput } from '../plan-input.ts'
import { type HoursLeft, hoursLeft } from './hours-left.ts'

/** Open work before it is known whether it can be planned. */
export interface DraftWork {
  readonly car: CarState
  readonly visitId: VisitId
  readonly target: WorkTarget
  readonly key: string
  readonly name: string
  /** Null for a task. */
  readonly repair: RepairState | null
  readonly plan: WorkPlan
  readonly left: HoursLeft
}

export interface WorkPlan {
  readonly skill: string
  readonly people: number
  /** Null when it needs no bay of a kind. */
  readonly bayKind: string | null
  readonly hotWork: boolean
  readonly cureHours: number
}

/** Every open gate and task of the cars whose visit is in work, car by car, gates in their repair's own order. */
export function draftWork({ cars, workshop, now }: PlanInput): readonly DraftWork[] {
  const context = { at: now, workshop }
  return cars.flatMap((car) => {
    const visit = car.currentVisit === null ? undefined : car.visits.get(car.currentVisit)
    if (visit?.status !== 'in work') return []
    const drafted = (target: WorkTarget, repair: RepairState | null, plan: WorkPlan): DraftWork => ({
      car,
      visitId: visit.id,
      target,
      key: targetKey(target),
      name: targetWords(car, target),
      repair,
      plan,
      left: hoursLeft(car, target, context),
    })
    const gates = activeRepairs(car).flatMap((repair) =>
      openGates(repair).map((gate) => {
        const plan = repair.plan.gates[gate]
        const bayKind = repair.plan.on === 'part' ? null : kindOf(plan.bayKind)
        return drafted({ kind: 'gate', repairId: repair.id, gate }, repair, { ...plan, bayKind })
      }),
    )
    const tasks = [...car.tasks.values()]
      .filter((task) => task.status === 'open' && task.visitId === visit.id)
      .map(({ id, plan }) =>
        drafted({ kind: 'task', taskId: id }, null, { ...plan, bayKind: kindOf(plan.bayKind) }),
      )
    return [...gates, ...tasks]
  })
}

/** In the repair's own order; none of one that was closed as found. */
export const openGates = (repair: RepairState) =>
  repair.closedAsFound === null ? gateOrder(repair.plan).filter((gate) => !isDone(repair, gate)) : []

/** Of those the ones up to welded: after the last of them the repair stands open no more. */
export const gatesToClose = (repair: RepairState) => openGates(repair).filter((gate) => gate !== 'painted')

/** What is done at a bench, or where cars only wait, needs no bay of a kind. */
const kindOf = (bayKind: string): string | null => (WITHOUT_BAY.has(bayKind) ? null : bayKind)

const WITHOUT_BAY: ReadonlySet<string> = new Set(['bench', 'storage'])
