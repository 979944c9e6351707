import { createType } from '../../domain/catalogue/type-plan.ts'
import type { RepairPlan } from '../../domain/facts/shapes.ts'
import type { TypeId } from '../../domain/ids.ts'
import { newId } from '../parts/form/new-id.ts'
import { planCopy } from '../parts/car/plan-copy.ts'

export interface TypeStart {
  readonly typeId: TypeId
  readonly plan: RepairPlan
  readonly isNew: boolean
}

/** One closing panel over one inner sheet, with the usual practice at every gate: a place to start from. */
export function blankType(): TypeStart {
  const { typeId, plan } = createType(newId<string>(), '', {
    zone: { side: 'right', place: 'rear' },
    hours: [1, 0.75, 3, 0.5, 0.5, 0.75, 1.5, 0.5],
    layers: [
      ['inner panel', 1],
      ['closing panel', 0.9],
    ],
    welds: [],
  })
  return { typeId, plan, isNew: true }
}

/** A type of its own that begins as another one is now. */
export function copyOfType(plan: RepairPlan): TypeStart {
  return {
    typeId: newId<TypeId>(),
    isNew: true,
    plan: planCopy(plan, `${plan.name}, copy`),
  }
}
