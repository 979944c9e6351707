import type { BayId } from '../../ids.ts'
import { isStorage } from '../../workshop.ts'
import type { PlanInput } from '../plan-input.ts'
import type { PlanBay } from '../problem.ts'

/** The active bays, and the kinds of work that they are for, by number. */
export interface PlanFloor {
  readonly bayIds: readonly BayId[]
  readonly bays: readonly PlanBay[]
  readonly bayOf: (id: BayId) => number | null
  /** Null when no bay is of this kind. */
  readonly kindOf: (name: string) => number | null
}

export function planFloor({ workshop, cars }: PlanInput): PlanFloor {
  const active = [...workshop.bays.values()].filter((bay) => bay.active)
  const names = [...new Set(active.filter((bay) => !isStorage(bay)).flatMap(({ kinds }) => kinds))]
  const numbers = new Map(active.map(({ id }, index) => [id, index]))
  const kindNumbers = new Map(names.map((name, index) => [name, index]))
  return {
    bayIds: active.map(({ id }) => id),
    bays: active.map((bay) =>
      isStorage(bay)
        ? { kinds: [], places: Math.max(1, cars.length), storage: true }
        : { kinds: bay.kinds.flatMap((name) => kindNumbers.get(name) ?? []), places: 1, storage: false },
    ),
    bayOf: (id) => numbers.get(id) ?? null,
    kindOf: (name) => kindNumbers.get(name) ?? null,
  }
}
