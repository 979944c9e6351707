import type { Rows } from './compile.ts'
import type { Random } from './random.ts'

/** The rule alone: what has the least goes first. */
export const STRICT = Infinity

/**
 * A list in which everything stands after what it waits for, drawn by regret-based biased random sampling (Drexl 1991): of
 * those that could come next, each is drawn with a weight of (greatest priority number - its own + 1) ^ bias. A bias of 0
 * draws evenly, STRICT follows the rule.
 */
export function sampleList(
  predecessors: Rows,
  successors: Rows,
  priority: ArrayLike<number>,
  bias: number,
  random: Random,
): Int32Array {
  const size = predecessors.offsets.length - 1
  const waits = Int32Array.from(
    { length: size },
    (_, row) => (predecessors.offsets[row + 1] as number) - (predecessors.offsets[row] as number),
  )
  const ready: number[] = []
  waits.forEach((count, activity) => {
    if (count === 0) ready.push(activity)
  })
  const list = new Int32Array(size)
  for (let at = 0; at < size && ready.length > 0; at += 1) {
    const pick = bias === STRICT ? indexOfLeast(ready, priority) : draw(ready, priority, bias, random)
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

const indexOfLeast = (ready: readonly number[], priority: ArrayLike<number>): number => {
  let least = 0
  ready.forEach((activity, index) => {
    if ((priority[activity] as number) < (priority[ready[least] as number] as number)) least = index
  })
  return least
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
