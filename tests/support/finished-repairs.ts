import type { FinishedRepair } from '../../domain/estimate/finished-repair.ts'
import type { RepairHours } from '../../domain/estimate/repair-hours.ts'
import type { Grade } from '../../domain/facts/shapes.ts'
import { GATES } from '../../domain/gates.ts'
import { carIdSchema, repairIdSchema, typeIdSchema, visitIdSchema } from '../../domain/ids.ts'

export const typeId = (name: string) => typeIdSchema.parse(`type-${name}`)

export interface FinishedOver {
  readonly type?: string
  readonly layer?: string
  /** Two hours a gate are estimated; this many are spent. */
  readonly perGate?: number
}

/** So many finished repairs of a type, each on a car of its own: seen from outside, found inside, sixteen hours estimated. */
export function finishedLike(
  count: number,
  outside: Grade | null,
  inside: Grade,
  { type = 'hanger', layer = 'inner panel', perGate = 2 }: FinishedOver = {},
): readonly FinishedRepair[] {
  return Array.from({ length: count }, (_, index) => {
    const id = `${type}-${outside ?? 'unseen'}-${inside}-${index}`
    const gates = Object.fromEntries(
      GATES.map((gate) => [gate, { before: 2, assessed: 2, actual: perGate, rework: 0 }]),
    ) as unknown as RepairHours
    return {
      repairId: repairIdSchema.parse(`repair-${id}`),
      carId: carIdSchema.parse(`car-${id}`),
      visitId: visitIdSchema.parse(`visit-${id}`),
      typeId: typeId(type),
      estimator: null,
      finished: { number: index + 1, at: index },
      before: 16,
      assessed: 16,
      actual: 8 * perGate,
      gates,
      taken: false,
      outside,
      hidden: [{ name: layer, grade: inside }],
      worstHidden: inside,
    }
  })
}
