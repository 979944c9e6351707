import type { Moment } from '../car.ts'
import type { WorkTarget } from '../facts/shapes.ts'
import { dayWords, timeOfDay } from '../text/words.ts'
import { localDateOf, localYearOf } from '../time/zone.ts'
import { BEFORE_PASSING_MS, BESIDE_CLOCK_MS } from './photo-candidates.ts'
import type { CarForPhotos, FittingWork, GateForPhotos, Shows } from './photo-match-shapes.ts'

/**
 * What a photo most likely shows of its gate, by when it was taken and by what the gate still asks for. Own rule, no
 * source: 'before' until 10 minutes after work on the gate began, 'after' from 30 minutes before it was passed.
 */
export function photoShows(
  car: CarForPhotos,
  target: WorkTarget,
  at: Moment,
  zone: string,
): Pick<FittingWork, 'shows' | 'layerId' | 'doesNotCount'> {
  if (target.kind === 'task') return { shows: 'work', layerId: null, doesNotCount: null }
  const gate = car.gate(target.repairId, target.gate)
  const isLate = gate.after !== null && at < gate.after.at
  const doesNotCount =
    isLate && gate.after !== null
      ? `It will not count for ${target.gate}: ${gate.after.gate} was passed later, ${whenWords(gate.after.at, at, zone)}.`
      : null
  const [layerId = null, ...others] = gate.layers
  if (layerId !== null && others.length === 0) return { shows: 'layer', layerId, doesNotCount }
  return { shows: showsOf(gate, at), layerId: null, doesNotCount }
}

/** 'at 09:40' on the day of the photo, 'on Thu 26 Nov at 09:40' on another. */
function whenWords(moment: Moment, photo: Moment, zone: string): string {
  const date = localDateOf(moment, zone)
  const day = date === localDateOf(photo, zone) ? '' : `on ${dayWords(date, localYearOf(photo, zone))} `
  return `${day}at ${timeOfDay(moment, zone)}`
}

function showsOf(gate: GateForPhotos, at: Moment): Shows {
  if (gate.asLeft) return 'as left'
  if (gate.prepared) return 'prepared'
  if (gate.asksBefore) return gate.begun !== null && at <= gate.begun + BESIDE_CLOCK_MS ? 'before' : 'after'
  return gate.passed !== null && at >= gate.passed - BEFORE_PASSING_MS ? 'after' : 'work'
}
