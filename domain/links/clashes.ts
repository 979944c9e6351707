import type { CarState, RepairState } from '../car.ts'
import type { Side } from '../facts/shapes.ts'
import type { RepairId } from '../ids.ts'
import { joinWords } from '../text/words.ts'
import { isActive, isClosed, isDone, isFinished, isLifted, standsOpen, reach } from '../rules/standing.ts'

/** What the check needs to know of a repair, from where the car stands now. */
export interface LinkNode {
  readonly id: RepairId
  readonly name: string
  readonly side: Side
  /** Load-bearing metal of the shell itself; parts on a bench hold nothing. */
  readonly loadBearing: boolean
  readonly finished: boolean
  readonly closed: boolean
  readonly open: boolean
  readonly primed: boolean
  /** Its trial-fitted gate is still to be passed. */
  readonly needsFitUp: boolean
}

export interface LinkGraph {
  readonly nodes: ReadonlyMap<RepairId, LinkNode>
  readonly covers: readonly { readonly over: RepairId; readonly under: RepairId }[]
  readonly groups: readonly { readonly name: string; readonly members: readonly RepairId[] }[]
  /** Support is lifted for the pair. */
  readonly isLifted: (a: RepairId, b: RepairId) => boolean
}

export type Clash =
  | {
      readonly kind: 'circle'
      readonly repairs: readonly RepairId[]
      readonly words: string
      readonly frees: string
    }
  | {
      readonly kind: 'support'
      readonly repairs: readonly [RepairId, RepairId]
      readonly words: string
      readonly frees: string
    }

/** A repair under a plan, its own or a new one; undefined for one that is still to be added. */
export const linkNodeOf = (
  id: RepairId,
  plan: RepairState['plan'],
  repair: RepairState | undefined,
): LinkNode => ({
  id,
  name: plan.name,
  side: plan.zone.side,
  loadBearing: plan.loadBearing && plan.on === 'shell',
  finished: repair !== undefined && isFinished(repair),
  closed: repair !== undefined && isClosed(repair),
  open: repair !== undefined && standsOpen(repair),
  primed: repair !== undefined && isDone(repair, 'primed'),
  needsFitUp:
    plan.gates['trial-fitted'].asks.fitUp &&
    !(repair !== undefined && (isDone(repair, 'trial-fitted') || isFinished(repair))),
})

/** The car's links as the check sees them; retired repairs have none. */
export const linkGraphOf = (car: CarState): LinkGraph => ({
  nodes: new Map(
    [...car.repairs.values()]
      .filter(isActive)
      .map((repair) => [repair.id, linkNodeOf(repair.id, repair.plan, repair)]),
  ),
  covers: car.covers,
  groups: [...car.fitGroups.values()].map(({ plan }) => ({ name: plan.name, members: plan.members })),
  isLifted: (a, b) => isLifted(car, a, b),
})

/**
 * The smallest reason why no order of work can satisfy the links, or null. Links clash exactly when covers make a
 * circle, or when two load-bearing repairs of different sides must stand open together and support is not lifted.
 * Cost grows with repairs squared times covers; a car has tens of each.
 */
export const linkClash = (graph: LinkGraph): Clash | null => {
  const below = adjacency(graph, 'over', 'under')
  const circle = shortestCircle(graph, below)
  if (circle) return circleClash(graph, circle)
  return supportClash(graph, adjacency(graph, 'under', 'over'))
}

type Adjacency = ReadonlyMap<RepairId, readonly RepairId[]>

const adjacency = (graph: LinkGraph, from: 'over' | 'under', to: 'over' | 'under'): Adjacency => {
  const next = new Map<RepairId, RepairId[]>()
  for (const cover of graph.covers) next.set(cover[from], [...(next.get(cover[from]) ?? []), cover[to]])
  return next
}

const shortestCircle = (graph: LinkGraph, below: Adjacency): readonly RepairId[] | null => {
  let shortest: readonly RepairId[] | null = null
  for (const id of graph.nodes.keys()) {
    const way = wayBack(id, below)
    if (way && (!shortest || way.length < shortest.length)) shortest = way
  }
  return shortest
}

/** Breadth first from what `start` covers back to `start`. */
const wayBack = (start: RepairId, below: Adjacency): readonly RepairId[] | null => {
  const ways: (readonly RepairId[])[] = [[start]]
  const seen = new Set<RepairId>()
  for (let way = ways.shift(); way !== undefined; way = ways.shift())
    for (const next of below.get(way.at(-1) ?? start) ?? []) {
      if (next === start) return way
      if (seen.has(next)) continue
      seen.add(next)
      ways.push([...way, next])
    }
  return null
}

const circleClash = (graph: LinkGraph, repairs: readonly RepairId[]): Clash => {
  const names = repairs.map((id) => nameOf(graph, id))
  const words =
    names.length === 1
      ? `${names[0]} cannot cover itself.`
      : `These cover each other in a circle: ${names.join(' covers ')} covers ${names[0]}.`
  return {
    kind: 'circle',
    repairs,
    words,
    frees: 'Take out one of these links: metal cannot lie both over and under.',
  }
}

/**
 * What must stand open while the next gate of a repair is passed: its covers, what must be open to open those, and all
 * that is open over it now, near or far, which cannot close before it is finished. A closed cover over an open repair
 * is not needed for what lies further in: that may be finished before the cover is opened.
 */
const openFor = (graph: LinkGraph, id: RepairId, up: Adjacency): ReadonlySet<RepairId> => {
  const toOpen = reach(up.get(id) ?? [], (over) => (graph.nodes.get(over)?.open ? [] : (up.get(over) ?? [])))
  return new Set([...toOpen, ...openOver(graph, id, up)])
}

const openOver = (graph: LinkGraph, id: RepairId, up: Adjacency): readonly RepairId[] =>
  [...reach(up.get(id) ?? [], (over) => up.get(over) ?? [])].filter((over) => graph.nodes.get(over)?.open)

interface Together {
  readonly ids: ReadonlySet<RepairId>
  readonly why: string
  readonly frees: string
}

/** Each set must stand open at one time before the car can be finished. */
const togetherSets = (graph: LinkGraph, up: Adjacency): readonly Together[] => [
  ...[...graph.nodes.values()]
    .filter((node) => !node.finished)
    .map((node) => ({
      ids: new Set([...openFor(graph, node.id, up), ...(node.closed ? [] : [node.id])]),
      why: `all must be open to work on ${node.name}`,
      frees: `take out a link over ${node.name}`,
    })),
  ...graph.groups.map((group) => {
    const waiting = group.members.filter((id) => graph.nodes.get(id)?.needsFitUp)
    return {
      ids: new Set(waiting.flatMap((id) => [id, ...openForFitUp(graph, id, up)])),
      why: `all must be open when the ${group.name} is offered up`,
      frees: `take one of them out of the ${group.name}`,
    }
  }),
]

/** A member that is primed already lets the others be fitted to it, so only what is open over it now must stay open. */
const openForFitUp = (graph: LinkGraph, id: RepairId, up: Adjacency): Iterable<RepairId> =>
  graph.nodes.get(id)?.primed ? openOver(graph, id, up) : openFor(graph, id, up)

const supportClash = (graph: LinkGraph, up: Adjacency): Clash | null => {
  const sets = togetherSets(graph, up).toSorted((a, b) => a.ids.size - b.ids.size)
  for (const { ids, why, frees } of sets) {
    const pair = clashingPair(graph, [...ids])
    if (!pair) continue
    const [a, b] = pair
    const words = `${nameOf(graph, a)} and ${nameOf(graph, b)} are load-bearing on different sides and ${why}.`
    return {
      kind: 'support',
      repairs: pair,
      words,
      frees: `Lift the support hold for ${joinWords([nameOf(graph, a), nameOf(graph, b)])} by saying how the shell is held, or ${frees}.`,
    }
  }
  return null
}

const clashingPair = (graph: LinkGraph, ids: readonly RepairId[]): readonly [RepairId, RepairId] | null => {
  const bearing = ids.flatMap((id) => {
    const node = graph.nodes.get(id)
    return node?.loadBearing ? [node] : []
  })
  for (const [index, a] of bearing.entries())
    for (const b of bearing.slice(index + 1))
      if (a.side !== b.side && !graph.isLifted(a.id, b.id)) return [a.id, b.id]
  return null
}

const nameOf = (graph: LinkGraph, id: RepairId): string => graph.nodes.get(id)?.name ?? 'a repair'
