import type { Activity, Problem } from '../problem.ts'

/**
 * The problem with time turned round: a schedule of it, read from its end, is a schedule of the problem in which everything
 * is as late as can be. Null when something in it knows a direction of time: people's calendars, cars and their bays, what
 * is held over several activities, pins and a plan in force.
 */
export function mirror(problem: Problem): Problem | null {
  const { activities, links } = problem
  if (problem.cars.length > 0 || problem.spans.length > 0 || problem.stands.length > 0) return null
  if (activities.some(isDirected)) return null
  return {
    ...problem,
    activities: activities.map((each) => ({
      ...each,
      earliest: each.tail,
      tail: Math.max(0, each.earliest),
    })),
    links: links.map(({ before, after, lag }) => ({ before: after, after: before, lag })),
  }
}

const isDirected = ({ crew, latestStart, first, inForce }: Activity): boolean =>
  crew !== null || latestStart !== null || first !== null || inForce !== null
