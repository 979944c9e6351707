import type { Problem } from '../problem.ts'
import type { Schedule } from '../schedule.ts'
import { chains, type Use } from './chains.ts'
import { eachBefore, type Pair } from './pair.ts'

/** One side of a shell after the other, and moves of a shell that is not braced while no side is open. */
export function standPairs(
  { stands, apart, cars, activities }: Problem,
  schedule: Schedule,
): readonly Pair[] {
  const { placed, moves } = schedule
  const closed = (stand: number): number => placed[stands[stand]?.until ?? -1]?.finish ?? Infinity
  const opened = (stand: number): number => placed[stands[stand]?.from ?? -1]?.start ?? -Infinity
  const isBefore = (one: number, other: number): boolean => closed(one) <= opened(other)
  const closing = (stand: number): readonly number[] => [stands[stand]?.until ?? -1]
  const opening = (stand: number): readonly number[] => [stands[stand]?.from ?? -1]
  const sides = apart.flatMap(([a, b]) => [
    ...(isBefore(a, b) ? eachBefore(closing(a), opening(b)) : []),
    ...(isBefore(b, a) ? eachBefore(closing(b), opening(a)) : []),
  ])
  const ways = moves.flatMap((move, index) => {
    if (cars[move.car]?.braced !== false) return []
    const own = [...stands.keys()].filter((stand) => stands[stand]?.car === move.car)
    return own.flatMap((stand) => [
      ...(closed(stand) <= move.start ? eachBefore(closing(stand), [activities.length + index]) : []),
      ...(opened(stand) >= move.finish ? eachBefore([activities.length + index], opening(stand)) : []),
    ])
  })
  return [...sides, ...ways]
}

/** A use with the activities that begin and end it. */
interface HeldUse extends Use {
  readonly activities: readonly number[]
}

/** Who hands what is held over to whom; a jig is held by all activities of its span together. */
export function resourcePairs(problem: Problem, schedule: Schedule): readonly Pair[] {
  return problem.resources.flatMap(({ capacity }, resource) => {
    const uses = [...usesOf(problem, schedule, resource), ...spansOf(problem, schedule, resource)]
    return chains(uses, capacity).flatMap(([one, other]) =>
      eachBefore((uses[one] as HeldUse).activities, (uses[other] as HeldUse).activities),
    )
  })
}

const usesOf = ({ activities }: Problem, { placed }: Schedule, resource: number): readonly HeldUse[] =>
  activities.flatMap(({ uses }, index) => {
    const placement = placed[index] ?? null
    if (placement === null) return []
    return uses
      .filter((use) => use.resource === resource && use.amount > 0)
      .map(({ amount }) => ({ from: placement.start, to: placement.finish, amount, activities: [index] }))
  })

const spansOf = ({ spans }: Problem, { placed }: Schedule, resource: number): readonly HeldUse[] =>
  spans
    .filter((span) => span.resource === resource)
    .flatMap(({ activities, amount, held }) => {
      const done = activities.flatMap((index) => placed[index] ?? [])
      if (done.length === 0) return []
      const from = held ? 0 : Math.min(...done.map(({ start }) => start))
      return [{ from, to: Math.max(...done.map(({ finish }) => finish)), amount, activities }]
    })
