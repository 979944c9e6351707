import type { CarState } from '../../car.ts'
import { loadBearingOpen } from '../../rules/standing.ts'
import { addWorkingHours } from '../../time/calendar.ts'
import { MS_PER_HOUR } from '../../time/zone.ts'
import type { PlanInput } from '../plan-input.ts'
import { gatesToClose } from './draft-work.ts'
import { hoursLeft } from './hours-left.ts'
import type { TickScale } from './tick-scale.ts'

/**
 * The first tick at which the sides of a shell that stand open could be closed, if nothing but their own gates and curing
 * took time in the workshop's hours; 0 when none is open.
 */
export function openUntil(car: CarState, { workshop, now }: PlanInput, scale: TickScale): number {
  const closings = loadBearingOpen(car).map((repair) =>
    gatesToClose(repair).reduce((moment, gate) => {
      const { people, cureHours } = repair.plan.gates[gate]
      const { hours } = hoursLeft(car, { kind: 'gate', repairId: repair.id, gate }, { at: now, workshop })
      const done = addWorkingHours(scale.calendar, moment, hours / people)
      const cure = gate === 'welded' ? 0 : cureHours * MS_PER_HOUR
      return (done.ok ? done.value : moment) + cure
    }, now),
  )
  return Math.max(0, ...closings.map((moment) => scale.from(moment)))
}
