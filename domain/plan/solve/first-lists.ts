import { rowLength } from './compile.ts'
import type { SearchSpace } from './decoder.ts'
import { inLinkOrder } from './link-order.ts'
import type { Random } from './random.ts'

type Linked = Pick<SearchSpace, 'size' | 'predecessors' | 'successors'>

/** The activities in order of a rule, what has the least first; nothing stands before what it waits for. */
export function ruleList(space: Linked, priority: ArrayLike<number>): Int32Array {
  const linked = inLinkOrder(space)
  const { offsets, items } = space.predecessors
  const keys = Float64Array.from(priority)
  for (const activity of linked)
    for (let at = offsets[activity] as number; at < (offsets[activity + 1] as number); at += 1)
      keys[activity] = Math.max(keys[activity] as number, keys[items[at] as number] as number)
  return linked.sort((a, b) => (keys[a] as number) - (keys[b] as number))
}

/**
 * A list in which everything stands after what it waits for, drawn by regret-based biased random sampling (Drexl 1991): of
 * those that could come next, each is drawn with a weight of (greatest priority number - its own + 1) ^ bias. A bias of 0
 * draws evenly.
 */
export function sampleList(
  { size, predecessors, successors }: Linked,
  priority: ArrayLike<number>,
  bias: number,
  random: Random,
): Int32Array {
  const waits = Int32Array.from({ length: size }, (_, activity) => rowLength(predecessors, activity))
  const ready: number[] = []
  waits.forEach((count, activity) => {
    if (count === 0) ready.push(activity)
  })
  const list = new Int32Array(size)
  for (let at = 0; at < size && ready.length > 0; at += 1) {
    const pick = draw(ready, priority, bias, random)
    const activity = ready[pick] as number
    ready[pick] = ready.at(-1) as number
    ready.pop()
    list[at] = activity
    const end = successors.offsets[activity + 1] as number
    for (let next = successors.offsets[activity] as number; next < end; next += 1) {
      const successor = successors.items[next] as number
      waits[successor] = (waits[successor] as number) - 1
      if (waits[successor] === 0) ready.push(successor)
    }
  }
  return list
}

const draw = (
  ready: readonly number[],
  priority: ArrayLike<number>,
  bias: number,
  random: Random,
): number => {
  const worst = ready.reduce((most, activity) => Math.max(most, priority[activity] as number), -Infinity)
  const weights = ready.map((activity) => (worst - (priority[activity] as number) + 1) ** bias)
  let rest = random.next() * weights.reduce((sum, weight) => sum + weight, 0)
  const index = weights.findIndex((weight) => (rest -= weight) < 0)
  return index < 0 ? ready.length - 1 : index
}
