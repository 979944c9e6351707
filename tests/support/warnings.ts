import type { CarState } from '../../domain/car.ts'
import { lineIdSchema } from '../../domain/ids.ts'
import { carWarnings } from '../../domain/watch/car-warnings.ts'
import type { Warning } from '../../domain/watch/warning.ts'
import { buildCar, onGate, visitId, type CarBuilder } from './car-builder.ts'
import { buildWorkshop } from './workshop-builder.ts'

const workshop = buildWorkshop()
/** Wednesday of week 48. */
const at = Date.parse('2026-11-25T15:00:00Z')

export const warningsOf = (car: CarState, now = at): readonly Warning[] =>
  carWarnings(car, { at: now, workshop })
/** Those of one kind. */
export const of = <Kind extends Warning['kind']>(kind: Kind, car: CarBuilder, now = at) =>
  warningsOf(car.car(), now).filter(
    (warning): warning is Extract<Warning, { kind: Kind }> => warning.kind === kind,
  )

export const day = (date: string, hours: number) => ({ kind: 'day' as const, date, hours })
export const span = (date: string, from: string, to: string) => ({
  kind: 'span' as const,
  start: `${date}T${from}:00Z`,
  end: `${date}T${to}:00Z`,
})
export const boot = onGate('Boot floor', 'opened')
/** A car with a boot floor that has no estimate. */
export const dunmere = () => buildCar().repair('Boot floor').at('2026-11-20T08:00')
/** An accepted estimate of the boot floor's first gate. */
export const threePoints = (car: CarBuilder, shortest: number, likely: number, longest: number) => {
  const lineId = lineIdSchema.parse('line-boot')
  const agreed = (shortest + 4 * likely + longest) / 6
  const line = { lineId, target: boot, hours: { shortest, likely, longest }, agreed, payer: 'owner' as const }
  const answer = { how: 'letter' as const, note: '' }
  const visit = visitId('first')
  return car
    .add('estimateSet', { visitId: visit, lines: [line] })
    .add('estimateAccepted', { visitId: visit, payer: 'owner', lineIds: [lineId], costIds: [], ...answer })
}
