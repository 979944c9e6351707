import type { ThreePoint } from '../facts/shapes.ts'
import { expectedHours } from '../value/estimated-hours.ts'
import { normalCdf } from '../statistics/normal.ts'
import type { Link } from './problem.ts'

/** Mean and variance of the end of a network of activities, and the chance to be done in time. In the unit of the points. */
export interface PertEnd {
  readonly mean: number
  readonly variance: number
  /** 0 to 1. */
  readonly chanceBy: (time: number) => number
}

/**
 * The programme evaluation and review technique (Malcolm et al. 1959): means (a + 4m + b)/6 and variances ((b - a)/6)^2
 * added up along the path with the greatest mean, the end taken as normal. Where paths meet it promises too much, because
 * the later one counts and not the longer one: plans go by `finishLikelihood`. The links must hold no circle.
 * No screen calls it: it is held to the published networks.
 */
export function pertNetwork(points: readonly ThreePoint[], links: readonly Link[]): PertEnd {
  const incoming = Map.groupBy(links, ({ after }) => after)
  const known = new Map<number, Path>()
  const pathTo = (activity: number): Path => {
    const found = known.get(activity)
    if (found !== undefined) return found
    const before = (incoming.get(activity) ?? []).map((link) => {
      const path = pathTo(link.before)
      return { ...path, mean: path.mean + link.lag }
    })
    const { mean, variance } = longest(before)
    const own = points[activity] as ThreePoint
    const path = {
      mean: mean + expectedHours(own),
      variance: variance + ((own.longest - own.shortest) / 6) ** 2,
    }
    known.set(activity, path)
    return path
  }
  const { mean, variance } = longest(points.map((_, activity) => pathTo(activity)))
  return { mean, variance, chanceBy: (time) => normalCdf((time - mean) / Math.sqrt(variance)) }
}

interface Path {
  readonly mean: number
  readonly variance: number
}

/** Of equally long paths the one that is less sure. */
const longest = (paths: readonly Path[]): Path =>
  paths.reduce(
    (best, path) =>
      path.mean > best.mean || (path.mean === best.mean && path.variance > best.variance) ? path : best,
    { mean: 0, variance: 0 },
  )
