import { joinWords } from '../text/words.ts'
import type { BuiltProblem } from './build-problem.ts'
import { type Bound, lastBound } from './explain/bound.ts'
import { createFloorBounds } from './explain/floor-bounds.ts'
import { createFixtureBounds, createSupportBounds } from './explain/held-bounds.ts'
import { tellSchedule, type ToldSchedule } from './explain/told-schedule.ts'
import type { PlannedWork, StartReason } from './plan.ts'
import type { Activity, Link } from './problem.ts'
import type { Schedule } from './schedule.ts'

/**
 * Why each activity starts when it does and not before: of all that it waits for, what allowed it last. Read from the
 * schedule alone, whoever made it. By activity; the words go on after the work's name. Work that is not placed is said
 * nothing of.
 */
export function explainStarts(built: BuiltProblem, schedule: Schedule): readonly PlannedWork['why'][] {
  const told = tellSchedule(built, schedule)
  const incoming = Map.groupBy(built.problem.links, ({ after }) => after)
  const floorBounds = createFloorBounds(told)
  const supportBounds = createSupportBounds(told)
  const fixtureBounds = createFixtureBounds(told)
  return schedule.placed.map((placement, activity) => {
    if (placement === null) return { reason: 'now', words: '' }
    const { work, car, watch } = built.problem.activities[activity] as Activity
    const { start } = placement
    const crew = work === 0 ? [] : placement.crew
    const bounds = [
      ...datedBounds(told, activity),
      ...linkBounds(told, car, incoming.get(activity) ?? []),
      ...floorBounds(activity),
      ...supportBounds(activity),
      ...fixtureBounds(activity),
      ...told.peopleBefore(crew, start, car),
    ]
    const last = lastBound(bounds.filter(({ tick }) => tick > 0 && tick <= start))
    return tellStart(told, { start, crew, watch, last: last ?? freeBound(built, activity) })
  })
}

/** Nothing stands in its way. */
const freeBound = ({ work }: BuiltProblem, activity: number): Bound =>
  work[activity]?.begun === true
    ? { tick: 0, reason: 'begun', words: () => 'is begun already' }
    : { tick: 0, reason: 'now', words: () => 'can start now' }

interface Start {
  readonly start: number
  readonly crew: readonly number[]
  readonly watch: number
  readonly last: Bound
}

/** From the last bound to the start: at once, after a night, when the crew is next at work, or not before it is planned. */
function tellStart(told: ToldSchedule, { start, crew, watch, last }: Start): PlannedWork['why'] {
  const { at, atWork } = told
  const why = (reason: StartReason, words: string): PlannedWork['why'] => ({ reason, words })
  if (last.tick === start) return why(last.reason, last.words())
  if (crew.length === 0 || atWork(crew, watch, last.tick) !== start) {
    const reason = last.reason === 'now' && crew.length > 0 ? 'people' : last.reason
    return why(reason, `${last.words()}, and is put off until ${at(start)}`)
  }
  if (watch > 0 && atWork(crew, 0, last.tick) < start)
    return why('fire watch', `is hot work, whose watch would outlast the day; starts ${at(start)}`)
  const isNight = !told.doesAnybodyWork(last.tick, start)
  if (last.reason === 'begun' || (isNight && last.reason !== 'now'))
    return why(last.reason, `${last.words()}; work goes on ${at(start)}`)
  if (isNight) return why('hours', `starts when the day begins, ${at(start)}`)
  return why('hours', `waits until ${namesOf(told, crew)} at work, ${at(start)}`)
}

function namesOf({ built }: ToldSchedule, crew: readonly number[]): string {
  const names = crew.map((person) => built.personNames[person] ?? 'somebody')
  return names.length === 1 ? `${names[0]} is` : `${joinWords(names)} are together`
}

/** Parts, decisions, holds, the car's arrival and pinned days. */
const datedBounds = ({ built }: ToldSchedule, activity: number): readonly Bound[] =>
  (built.work[activity]?.earliest ?? []).map(({ tick, reason, words }) => ({
    tick,
    reason,
    words: () => (reason === 'pinned' ? 'is ' : 'waits: ') + asClause(words),
  }))

/** Without its stop; 'Pinned to ...' and 'The car ...' go on in small letters, names keep theirs. */
const asClause = (words: string): string =>
  words.replace(/\.$/, '').replace(/^(Pinned|The|Fire) /, (first) => first.toLowerCase())

const linkBounds = (
  { schedule, at, work }: ToldSchedule,
  car: number | null,
  links: readonly Link[],
): readonly Bound[] =>
  links.flatMap(({ before, lag }): Bound[] => {
    const placement = schedule.placed[before]
    if (!placement) return []
    const tick = placement.finish + lag
    const name = (): string => work(before, car)
    return lag > 0
      ? [{ tick, reason: 'curing', words: () => `waits for ${name()} to cure until ${at(tick)}` }]
      : [{ tick, reason: 'order', words: () => `waits for ${name()} until ${at(tick)}` }]
  })
