import type { CarState, RepairState } from '../../car.ts'
import { activeRepairs, isLifted, standsOpen } from '../../rules/standing.ts'
import type { Link } from '../problem.ts'
import { type DraftGraph, followersOf, withFollowers } from './draft-graph.ts'
import { gatesToClose } from './draft-work.ts'
import { isReleased } from './links.ts'

/** A load-bearing repair of the shell that stands open, or will; by numbers of drafted work. */
export interface DraftStand {
  readonly repair: RepairState
  readonly carId: string
  /** What opens it; null when it stands open already. */
  readonly from: number | null
  /** The last of its needed gates up to welded. */
  readonly until: number
}

export interface DraftStands {
  readonly stands: readonly DraftStand[]
  /** Pairs on different sides that may not be open together. */
  readonly apart: readonly (readonly [number, number])[]
  /** What the sides make of the order of work: the side whose closing waits for the other one's opening comes later. */
  readonly links: readonly Link[]
  /** Stands that are open and cannot close before another side is opened. */
  readonly stuck: readonly (readonly [open: number, other: number])[]
}

export function draftStands(graph: DraftGraph): DraftStands {
  const cars = [...new Set(graph.work.map(({ car }) => car))]
  const byCar = cars.map((car) => ({ car, own: standsOf(car, graph) }))
  const stands = byCar.flatMap(({ own }) => own)
  const numbers = new Map(stands.map((stand, index) => [stand, index]))
  const apart = byCar.flatMap(({ car, own }) =>
    own.flatMap((a, index) =>
      own
        .slice(index + 1)
        .filter((b) => mustBeApart(car, a, b))
        .map((b) => [numbers.get(a) ?? 0, numbers.get(b) ?? 0] as const),
    ),
  )
  return { stands, apart, ...sideOrder(graph, stands, apart) }
}

const standsOf = (car: CarState, { find }: DraftGraph): readonly DraftStand[] =>
  activeRepairs(car)
    .filter(({ plan }) => plan.loadBearing && plan.on === 'shell')
    .flatMap((repair) => {
      const gates = gatesToClose(repair)
      const last = gates.at(-1)
      const until = last === undefined ? null : find(car.id, `${repair.id}/${last}`)
      if (until === null) return []
      const from = standsOpen(repair) ? null : find(car.id, `${repair.id}/opened`)
      return [{ repair, carId: car.id, from, until }]
    })

/** Two that stand open together already are how the shell was found. */
const mustBeApart = (car: CarState, a: DraftStand, b: DraftStand): boolean =>
  a.repair.plan.zone.side !== b.repair.plan.zone.side &&
  (a.from !== null || b.from !== null) &&
  !isLifted(car, a.repair.id, b.repair.id) &&
  !isReleased(a.repair, 'opened', 'support', b.repair.id) &&
  !isReleased(b.repair, 'opened', 'support', a.repair.id)

/**
 * Where one side cannot close before the other was opened, the other has to be closed before the first is opened at all:
 * else a side is opened that can never be closed. Carried on until no new order follows.
 */
function sideOrder(
  { work, links }: DraftGraph,
  stands: readonly DraftStand[],
  apart: DraftStands['apart'],
): Pick<DraftStands, 'links' | 'stuck'> {
  const added: Link[] = []
  const stuck: (readonly [number, number])[] = []
  const open = new Set(apart.flatMap(([a, b]) => [[a, b] as const, [b, a] as const]))
  for (let hasNew = true; hasNew;) {
    hasNew = false
    const followers = followersOf(work.length, [...links, ...added])
    const after = new Map<number, ReadonlySet<number>>()
    const followsOpening = (stand: DraftStand, number: number): boolean => {
      if (stand.from === null) return false
      const known = after.get(stand.from) ?? withFollowers([stand.from], followers)
      after.set(stand.from, known)
      return known.has(number)
    }
    for (const pair of open) {
      const [a, b] = pair.map((index) => stands[index] as DraftStand) as [DraftStand, DraftStand]
      if (!followsOpening(b, a.until)) continue
      open.delete(pair)
      if (a.from === null) stuck.push(pair)
      else {
        added.push({ before: b.until, after: a.from, lag: 0 })
        hasNew = true
      }
    }
  }
  return { links: added, stuck }
}
