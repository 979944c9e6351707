import type { CarState, RepairState } from '../car.ts'
import { gatesBefore, gateOrder, type Gate } from '../gates.ts'
import { dayWords } from '../text/words.ts'
import { instantToLocal, localYearOf, MS_PER_HOUR } from '../time/zone.ts'
import { hold, type Hold, type HoldContext } from './hold.ts'
import { coveredBy, passedAt } from './standing.ts'

/** After a gate that cures the next waits, in its own repair and in the one that covers it; nights and weekends count. */
export const curingHolds = (
  car: CarState,
  repair: RepairState,
  gate: Gate,
  context: HoldContext,
): readonly Hold[] => {
  const own = curing(repair, gatesBefore(repair.plan, gate), context)
  const behind =
    gate === 'welded'
      ? coveredBy(car, repair.id).flatMap((id) => {
          const under = car.repairs.get(id)
          return under ? curing(under, gateOrder(under.plan), context) : []
        })
      : []
  return [...own, ...behind]
}

const curing = (
  repair: RepairState,
  gates: readonly Gate[],
  { at, workshop }: HoldContext,
): readonly Hold[] =>
  gates.flatMap((gate) => {
    const { cureHours } = repair.plan.gates[gate]
    const done = passedAt(repair.gates[gate])
    if (done === null || cureHours === 0) return []
    const until = done + cureHours * MS_PER_HOUR
    if (at >= until) return []
    const words = `${repair.plan.name}: ${gate} cures until ${momentWords(until, workshop.zone, at)}.`
    return [hold('curing', `${repair.id.slice(0, 40)}/${gate}`, words, 'time', { until })]
  })

/** The latest time for a gate: past it the surface is cleaned or abraded again, with a photo, and the window starts anew. */
export const windowHolds = (
  repair: RepairState,
  gate: Gate,
  { at, workshop }: HoldContext,
): readonly Hold[] => {
  const { window } = repair.plan.gates[gate]
  if (!window) return []
  const done = repair.gates[window.after].done
  if (done?.kind !== 'passed') return []
  const prepared = repair.prepared.filter(
    (each) => each.gate === gate && each.stamp.number > done.stamp.number,
  )
  const start = Math.max(done.stamp.happened, ...prepared.map((each) => each.stamp.happened))
  const end = start + window.hours * MS_PER_HOUR
  if (at <= end) return []
  const words = `It had to be ${gate} by ${momentWords(end, workshop.zone, at)}; clean or abrade the surface again and photograph it.`
  return [hold('window', window.after, words, 'the technician')]
}

/** 'Thu 26 Nov 14:30', with the year when it is not the year of `at`. */
export function momentWords(moment: number, zone: string, at: number): string {
  const { date, time } = instantToLocal(moment, zone)
  return `${dayWords(date, localYearOf(at, zone))} ${time}`
}
