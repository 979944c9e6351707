import type { Activity, Crew, Problem } from '../problem.ts'
import type { Placement, Schedule } from '../schedule.ts'
import { isWithin, type JointTime, ticksWithin } from './working-time.ts'

/** Each activity for itself: its bounds, its crew, and working time from its start to its finish. */
export function checkWork(problem: Problem, { placed }: Schedule, joint: JointTime): readonly string[] {
  return problem.activities.flatMap((activity, index) => {
    const placement = placed[index] ?? null
    if (placement === null) return []
    return [
      ...boundFaults(activity, placement, problem.horizon),
      ...crewFaults(activity.crew, placement.crew),
      ...durationFaults(activity, placement, joint),
    ].map((fault) => `Activity ${index} ${fault}.`)
  })
}

const boundFaults = ({ earliest }: Activity, { start, finish }: Placement, horizon: number): string[] => [
  ...(Number.isInteger(start) && start >= 0 ? [] : [`starts at ${start}, which is no tick from 0 on`]),
  ...(start >= earliest ? [] : [`starts at ${start}, before ${earliest}`]),
  ...(finish <= horizon ? [] : [`finishes at ${finish}, after the horizon ${horizon}`]),
]

/** As the rest of a sentence that begins with who asks for the crew. */
export function crewFaults(asked: Crew | null, crew: readonly number[]): string[] {
  if (asked === null) return crew.length === 0 ? [] : ['needs nobody but has a crew']
  const strangers = crew.filter((person) => !asked.able.includes(person))
  const missing = asked.named.filter((person) => !crew.includes(person))
  return [
    ...(new Set(crew).size === crew.length ? [] : ['has a person twice in its crew']),
    ...(crew.length === asked.people ? [] : [`has a crew of ${crew.length} but needs ${asked.people}`]),
    ...strangers.map((person) => `is given to person ${person}, who cannot do it`),
    ...missing.map((person) => `is named for person ${person}, who is not in its crew`),
  ]
}

interface Demand {
  readonly work: number
  readonly watch: number
}

/** Work with people counts their joint working time; work of no length is done at any tick. */
export function durationFaults(
  { work, watch }: Demand,
  { start, finish, crew }: Pick<Placement, 'start' | 'finish' | 'crew'>,
  joint: JointTime,
): string[] {
  if (work === 0 || crew.length === 0)
    return finish === start + work ? [] : [`takes ${finish - start} ticks but needs ${work}`]
  const time = joint(crew, watch)
  const done = ticksWithin(time, start, finish)
  return [
    ...(isWithin(time, start) ? [] : [`starts at ${start}, outside its crew's working time`]),
    ...(done === work ? [] : [`gets ${done} ticks of working time but needs ${work}`]),
    ...(isWithin(time, finish - 1) ? [] : [`finishes at ${finish}, outside its crew's working time`]),
  ]
}

/** Order and lags. Work that is not placed has only followers that are not placed either. */
export function checkLinks(problem: Problem, { placed }: Schedule): readonly string[] {
  return problem.links.flatMap(({ before, after, lag }) => {
    const first = placed[before] ?? null
    const second = placed[after] ?? null
    if (second === null) return []
    if (first === null) return [`Activity ${after} is placed, but activity ${before} before it is not.`]
    const ready = first.finish + lag
    return second.start >= ready
      ? []
      : [`Activity ${after} starts at ${second.start}, but activity ${before} allows it from ${ready} on.`]
  })
}

/** Nobody does two things at a time; pauses belong to the work they interrupt. */
export function checkPeople(problem: Problem, { placed, moves }: Schedule): readonly string[] {
  const tasks = [
    ...placed.flatMap((each, index) => (each === null ? [] : [{ ...each, name: `activity ${index}` }])),
    ...moves.map((each) => ({ ...each, name: `the move of car ${each.car}` })),
  ].filter(({ start, finish }) => start < finish)
  return problem.people.flatMap((_, person) => {
    const own = tasks.filter(({ crew }) => crew.includes(person)).toSorted((a, b) => a.start - b.start)
    let last = own[0]
    return own.slice(1).flatMap((task) => {
      const before = last as typeof task
      if (task.finish > before.finish) last = task
      return task.start < before.finish
        ? [`Person ${person} is still at ${before.name} when ${task.name} starts at ${task.start}.`]
        : []
    })
  })
}
