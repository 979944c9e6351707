import type { Bound } from './bound.ts'
import type { ToldSchedule } from './told-schedule.ts'

/** One side of a shell stands open at a time: an opening waits for the closing of the others. */
export function createSupportBounds({
  problem: { stands, apart, activities },
  schedule,
  at,
  work,
}: ToldSchedule): (activity: number) => readonly Bound[] {
  const sides = [...apart, ...apart.map(([a, b]) => [b, a] as const)]
  const othersOf = Map.groupBy(sides, ([opened]) => stands[opened]?.from ?? -1)
  return (activity) =>
    (othersOf.get(activity) ?? []).flatMap(([, other]): Bound[] => {
      const until = stands[other]?.until ?? -1
      const closed = schedule.placed[until]
      if (!closed) return []
      const words = (): string =>
        `waits for ${work(until, activities[activity]?.car ?? null)} until ${at(closed.finish)}, because one side stands open at a time`
      return [{ tick: closed.finish, reason: 'support', words }]
    })
}

/** Jigs, dollies and other means that are all taken until somebody lets one go. */
export function createFixtureBounds(told: ToldSchedule): (activity: number) => readonly Bound[] {
  const { problem } = told
  const uses = problem.resources.map((_, resource) => usesOf(told, resource))
  return (activity) =>
    demandsOf(told, activity).flatMap(({ resource, amount }) => {
      const others = (uses[resource] ?? []).filter((use) => !use.activities.includes(activity))
      return handedOn(told, activity, others, (problem.resources[resource]?.capacity ?? 0) - amount)
    })
}

/** A use that ends held it back only where too much was taken until then. */
function handedOn(
  { problem, schedule, at, work }: ToldSchedule,
  activity: number,
  others: readonly Use[],
  spare: number,
): readonly Bound[] {
  const start = schedule.placed[activity]?.start ?? 0
  const car = problem.activities[activity]?.car ?? null
  const takenUntil = (tick: number): number =>
    others.reduce((sum, { from, to, amount }) => (from < tick && tick <= to ? sum + amount : sum), 0)
  return others
    .filter(({ from, to }) => from < to && to <= start && takenUntil(to) > spare)
    .map(({ to, activities }) => ({
      tick: to,
      reason: 'fixture',
      words: () => `waits for its fixture until ${at(to)}, first on ${work(activities.at(-1) ?? -1, car)}`,
    }))
}

interface Use {
  readonly from: number
  readonly to: number
  readonly amount: number
  readonly activities: readonly number[]
}

/** What the activity takes of each resource; what its span holds already it need not take. */
function demandsOf({ problem, schedule }: ToldSchedule, activity: number) {
  const start = schedule.placed[activity]?.start ?? 0
  const isFirst = (own: readonly number[]): boolean =>
    own.every((other) => (schedule.placed[other]?.start ?? Infinity) >= start)
  return [
    ...(problem.activities[activity]?.uses ?? []),
    ...problem.spans.filter(
      ({ activities, held }) => !held && activities.includes(activity) && isFirst(activities),
    ),
  ]
}

const usesOf = ({ problem, schedule }: ToldSchedule, resource: number): readonly Use[] => [
  ...problem.activities.flatMap(({ uses }, index) => {
    const placement = schedule.placed[index]
    if (!placement) return []
    return uses
      .filter((use) => use.resource === resource)
      .map(({ amount }) => ({ from: placement.start, to: placement.finish, amount, activities: [index] }))
  }),
  ...problem.spans
    .filter((span) => span.resource === resource)
    .flatMap(({ activities, amount, held }) => {
      const done = activities.flatMap((each) => schedule.placed[each] ?? [])
      if (done.length === 0) return []
      const from = held ? 0 : Math.min(...done.map((each) => each.start))
      return [{ from, to: Math.max(...done.map((each) => each.finish)), amount, activities }]
    }),
]
