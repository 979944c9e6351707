import type { JudgedRepair } from '../../domain/estimate/judged-repair.ts'
import type { StatedBand } from '../../domain/facts/agreement-facts.ts'
import { GATES } from '../../domain/gates.ts'
import {
  carIdSchema,
  personIdSchema,
  repairIdSchema,
  typeIdSchema,
  visitIdSchema,
  type PersonId,
} from '../../domain/ids.ts'

export interface JudgedOver {
  /** Null for a repair without a type. */
  readonly type?: string | null
  readonly estimator?: PersonId | null
  /** Of what was said; 10 h unless given. */
  readonly estimated?: number
  /** False for one of which nothing was said. */
  readonly isStated?: boolean
  readonly assessed?: { readonly p50: number; readonly p80: number }
}

/**
 * A finished repair estimated at 10 h, of which 11 h with 50 % and 14 h with 80 % were said before it was opened, and what
 * it took.
 *
 * @param number its place in the order of finishing
 */
export function judged(number: number, actual: number, over: JudgedOver = {}): JudgedRepair {
  const { type = 'sill', estimator = personIdSchema.parse('person-mara'), estimated = 10 } = over
  const repairId = repairIdSchema.parse(`repair-${number}`)
  const band = (p50: number, p80: number): StatedBand => ({
    repairId,
    estimated,
    p50,
    p80,
    p90: 2 * p80,
    method: 'prior',
    rests: { own: 0, others: 0 },
  })
  const share = { before: estimated / 8, assessed: estimated / 8, actual: actual / 8, rework: 0 }
  return {
    repairId,
    carId: carIdSchema.parse('car-old'),
    visitId: visitIdSchema.parse('visit-old'),
    typeId: type === null ? null : typeIdSchema.parse(`type-${type}`),
    estimator,
    finished: { number, at: number * 3_600_000 },
    before: estimated,
    assessed: estimated,
    actual,
    gates: Object.fromEntries(GATES.map((gate) => [gate, share])) as JudgedRepair['gates'],
    taken: false,
    outside: 'surface',
    hidden: [{ name: 'inner panel', grade: 'pitted' }],
    worstHidden: 'pitted',
    stated: {
      accepted: over.isStated === false ? null : band(1.1 * estimated, 1.4 * estimated),
      assessed: over.assessed === undefined ? null : band(over.assessed.p50, over.assessed.p80),
    },
  }
}
