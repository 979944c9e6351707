import type { CarState } from '../../car.ts'
import { linkClash, linkGraphOf } from '../../links/clashes.ts'
import { topologicalOrder } from '../critical-path.ts'
import type { PlanFault } from '../plan.ts'
import type { Link } from '../problem.ts'
import type { DraftGraph } from './draft-graph.ts'

/** Work that waits for itself, and all that waits for it: what no order of work reaches. */
export function unreachable(size: number, links: readonly Link[]): readonly number[] {
  const isReached = new Set(topologicalOrder(size, links))
  return Array.from({ length: size }, (_, index) => index).filter((index) => !isReached.has(index))
}

/** One fault for each car with such work: the clash of its links where there is one, else a circle by its names. */
export function circleFaults(
  graph: DraftGraph,
  links: readonly Link[],
  left: readonly number[],
): readonly PlanFault[] {
  const byCar = Map.groupBy(left, (index) => graph.work[index]?.car)
  return [...byCar].flatMap(([car, own]) => (car === undefined ? [] : [circleFault(car, graph, links, own)]))
}

function circleFault(
  car: CarState,
  { work }: DraftGraph,
  links: readonly Link[],
  left: readonly number[],
): PlanFault {
  const clash = linkClash(linkGraphOf(car))
  if (clash !== null)
    return { code: 'circle', carId: car.id, words: `${car.name}: ${clash.words}`, next: clash.frees }
  const names = circleIn(left, links).map((index) => work[index]?.name ?? 'work')
  return {
    code: 'circle',
    carId: car.id,
    words: `${car.name}: these wait for each other in a circle: ${[...names, names[0]].join(', then ')}.`,
    next: 'Take out one of the links, or what a task waits for or holds.',
  }
}

/** Back from one to what it waits for, until one comes twice; everything left over waits for something left over. */
function circleIn(left: readonly number[], links: readonly Link[]): readonly number[] {
  const isLeft = new Set(left)
  const way: number[] = []
  let at = left[0]
  while (at !== undefined && !way.includes(at)) {
    way.push(at)
    const now: number = at
    at = links.find(({ before, after }) => after === now && isLeft.has(before))?.before
  }
  return at === undefined ? way : way.slice(way.indexOf(at)).toReversed()
}
