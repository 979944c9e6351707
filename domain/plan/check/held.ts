import type { Problem, Stand } from '../problem.ts'
import type { Schedule } from '../schedule.ts'
import { doOverlap, firstOverload, type Use } from './load.ts'
import type { Span } from './working-time.ts'

/** Support: sides that may not be open together, and shells that do not move while one is open. */
export function checkStands(problem: Problem, schedule: Schedule): readonly string[] {
  const open = problem.stands.map((stand) => openTime(stand, schedule))
  return [...apartFaults(problem, open), ...openMoveFaults(problem, schedule, open)]
}

/** When a stand is open; null when it never is. */
function openTime({ from, until }: Stand, { placed }: Schedule): Span | null {
  const opened = from === null ? 0 : placed[from]?.start
  return opened === undefined ? null : { from: opened, to: placed[until]?.finish ?? Infinity }
}

/** Two that are open at tick 0 already are how the shell was found; no plan can change that. */
function apartFaults({ stands, apart }: Problem, open: readonly (Span | null)[]): readonly string[] {
  return apart.flatMap(([one, other]) => {
    if (stands[one]?.from === null && stands[other]?.from === null) return []
    const first = open[one] ?? null
    const second = open[other] ?? null
    if (first === null || second === null || !doOverlap(first, second)) return []
    return [`Stands ${one} and ${other} are open together from ${Math.max(first.from, second.from)} on.`]
  })
}

function openMoveFaults(
  { cars, stands }: Problem,
  { moves }: Schedule,
  open: readonly (Span | null)[],
): readonly string[] {
  return moves.flatMap(({ car, start, finish }) => {
    if (cars[car]?.braced === true) return []
    const moving = { from: start, to: finish }
    return stands.flatMap((stand, index) => {
      const time = open[index] ?? null
      return stand.car === car && time !== null && doesMeet(moving, time)
        ? [`Car ${car} moves at ${start} while its stand ${index} is open.`]
        : []
    })
  })
}

/** A move that takes no time meets what is open before and after it. */
const doesMeet = (moving: Span, open: Span): boolean =>
  moving.from === moving.to ? open.from < moving.from && moving.from < open.to : doOverlap(moving, open)

/** What activities use while they run, and jigs and dollies that are held from a first activity to a last one. */
export function checkResources(problem: Problem, { placed }: Schedule): readonly string[] {
  return problem.resources.flatMap(({ capacity }, resource) => {
    const running = problem.activities.flatMap(({ uses }, index): Use[] => {
      const placement = placed[index] ?? null
      if (placement === null) return []
      return uses
        .filter((use) => use.resource === resource)
        .map(({ amount }) => ({ from: placement.start, to: placement.finish, amount }))
    })
    const held = problem.spans
      .filter((span) => span.resource === resource)
      .flatMap((span): Use[] => {
        const done = span.activities.flatMap((each) => placed[each] ?? [])
        const from = span.held ? 0 : Math.min(...done.map((each) => each.start))
        const to = Math.max(0, ...done.map((each) => each.finish))
        return [{ from, to, amount: span.amount }]
      })
    const tick = firstOverload([...running, ...held], capacity)
    return tick === null ? [] : [`Of resource ${resource} more than ${capacity} is taken from ${tick} on.`]
  })
}
