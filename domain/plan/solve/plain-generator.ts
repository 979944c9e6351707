import { createChoices } from './choices.ts'
import type { Compiled } from './compile.ts'
import type { Generator } from './generate.ts'
import { createResourceProfile } from './resource-profile.ts'
import { NOT_PLACED } from './score.ts'
import { NEVER } from './working-time.ts'

/**
 * Serial schedule generation (Kelley 1963) for a problem without people, cars and calendars: each activity of the list in
 * turn starts as early as its links and what is left of the resources let it. Places and scores as the workshop's
 * generation does, many times as fast.
 */
export function createPlainGenerator(compiled: Compiled): Generator {
  const { problem, size, horizon, work, earliest, tail, lags } = compiled
  const { offsets, items } = compiled.predecessors
  const profile = createResourceProfile(
    problem.resources.map((each) => each.capacity),
    problem.activities.map((each) => each.uses),
  )
  const canFit = Uint8Array.from({ length: size }, (_, row) => (profile.canFit(row) ? 1 : 0))
  const starts = new Int32Array(size)
  const finishes = new Int32Array(size)
  const score = new Float64Array(4)

  const linkedFrom = (activity: number): number => {
    const last = offsets[activity + 1] as number
    let from = earliest[activity] as number
    for (let at = offsets[activity] as number; at < last; at += 1) {
      const tick = (finishes[items[at] as number] as number) + (lags[at] as number)
      if (tick > from) from = tick
    }
    return from
  }

  const decode = (list: Int32Array): void => {
    profile.clear()
    let end = 0
    let unplaced = 0
    for (let at = 0; at < size; at += 1) {
      const activity = list[at] as number
      const ticks = work[activity] as number
      const from = linkedFrom(activity)
      const start =
        canFit[activity] === 1 && from <= horizon ? profile.earliest(activity, from, ticks) : NEVER
      const isPlaced = start + ticks <= horizon
      if (isPlaced) profile.reserve(activity, start, start + ticks)
      else unplaced += 1
      starts[activity] = isPlaced ? start : NEVER
      finishes[activity] = isPlaced ? start + ticks : NEVER
      const over = isPlaced ? start + ticks + (tail[activity] as number) : 2 * horizon
      if (over > end) end = over
    }
    score[0] = unplaced * NOT_PLACED
    score[2] = end
  }

  return {
    size,
    decode,
    starts,
    finishes,
    score,
    choices: createChoices(compiled),
    schedule: () => ({
      placed: Array.from(starts, (start, activity) =>
        start === NEVER ? null : { start, finish: finishes[activity] as number, crew: [], bay: null },
      ),
      stays: [],
      moves: [],
    }),
  }
}
