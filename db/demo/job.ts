import type { WorkTarget } from '../../domain/facts/shapes.ts'
import type { Gate } from '../../domain/gates.ts'
import type { PersonId, RepairId, TaskId } from '../../domain/ids.ts'
import type { DemoCar } from './demo-car.ts'

export type JobWork =
  | { readonly kind: 'gate'; readonly gate: Gate; readonly repairIds: readonly [RepairId, ...RepairId[]] }
  | { readonly kind: 'task'; readonly taskId: TaskId; readonly key: string }

/** A gate on one or several repairs, or a task, from when it is begun until it is signed. */
export interface Job {
  readonly demo: DemoCar
  readonly work: JobWork
  readonly hot: boolean
  readonly skill: string
  readonly people: number
  readonly did: PersonId[]
  /** For hands that have nothing more pressing. */
  readonly isSpare: boolean
  /** A task that is only begun within the demo is never signed. */
  readonly isLeftBegun: boolean
  /** Person-hours that it takes in all, and of those aimed at on the car how many it stands for. */
  readonly takes: number
  readonly worth: number
  /** Person-hours that it still takes. */
  left: number
  /** Clocks that run on it. */
  busy: number
  /** Fire watches that go on. */
  watches: number
}

/** When somebody looks for work. */
export interface When {
  readonly day: number
  /** How much of the working day is over, 0 to 1. */
  readonly share: number
  readonly mayWorkHot: boolean
}

export const jobTargets = ({ work }: Pick<Job, 'work'>): readonly WorkTarget[] =>
  work.kind === 'task'
    ? [{ kind: 'task', taskId: work.taskId }]
    : work.repairIds.map((repairId) => ({ kind: 'gate', repairId, gate: work.gate }))
