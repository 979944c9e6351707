import type { CarState, EntryState, Moment, RepairState } from '../car.ts'
import type { WorkTarget } from '../facts/shapes.ts'
import { localDateOf, MS_PER_HOUR } from '../time/zone.ts'
import { entryHours, type HoursContext } from './entry-hours.ts'

/**
 * The part of an entry, 0 to 1, that lies on a gate between the release of a hold on it and its passing. Hours that have a
 * day but no times count whole when the day is neither before that of the release nor after that of the passing. 0 for
 * tasks: their holds are not released.
 */
export function shareOnReleased(
  car: CarState,
  entry: EntryState,
  target: WorkTarget,
  context: HoursContext,
): number {
  if (target.kind === 'task') return 0
  const repair = car.repairs.get(target.repairId)
  const spells = repair === undefined ? [] : releasedSpells(repair, target.gate)
  if (spells.length === 0) return 0
  const { time } = entry
  if (time.kind === 'day') {
    const dateOf = (moment: Moment) => localDateOf(moment, context.workshop.zone)
    return spells.some(
      ({ from, to }) => dateOf(from) <= time.date && (to === null || time.date <= dateOf(to)),
    )
      ? 1
      : 0
  }
  const hours = entryHours(entry, context)
  if (hours <= 0) return 0
  const start = Date.parse(time.start)
  const end = start + hours * MS_PER_HOUR
  const within = spells.reduce(
    (sum, { from, to }) => sum + Math.max(0, Math.min(end, to ?? end) - Math.max(start, from)),
    0,
  )
  return Math.min(1, within / (end - start))
}

interface Spell {
  readonly from: Moment
  readonly to: Moment | null
}

/** Spells that are over and the one that goes on; they do not overlap, as a gate's next one starts after it was reopened. */
function releasedSpells(
  repair: RepairState,
  gate: RepairState['releases'][number]['gate'],
): readonly Spell[] {
  const over = repair.releasedSpells.filter((spell) => spell.gate === gate)
  if (repair.gates[gate].status !== 'open') return over
  const standing = repair.releases.filter((release) => release.gate === gate && !release.asked)
  if (standing.length === 0) return over
  return [...over, { from: Math.min(...standing.map(({ stamp }) => stamp.happened)), to: null }]
}
