import type { Compiled } from './compile.ts'

/** Every activity after all that it waits for (Kahn 1962). Work in a circle of links does not occur: it was left out before. */
export function inLinkOrder({
  size,
  predecessors,
  successors,
}: Pick<Compiled, 'size' | 'predecessors' | 'successors'>): Int32Array {
  const waiting = Int32Array.from(
    { length: size },
    (_, a) => (predecessors.offsets[a + 1] as number) - (predecessors.offsets[a] as number),
  )
  const order = new Int32Array(size)
  let count = 0
  for (let activity = 0; activity < size; activity += 1)
    if (waiting[activity] === 0) order[count++] = activity
  for (let at = 0; at < count; at += 1) {
    const activity = order[at] as number
    const last = successors.offsets[activity + 1] as number
    for (let row = successors.offsets[activity] as number; row < last; row += 1) {
      const successor = successors.items[row] as number
      waiting[successor] = (waiting[successor] as number) - 1
      if (waiting[successor] === 0) order[count++] = successor
    }
  }
  return order
}

/** By activity: the kinds of bay that work after it needs. */
export const kindsAhead = (compiled: Compiled): readonly (readonly number[])[] => {
  const { size, successors, bayKind } = compiled
  const ahead = Array.from({ length: size }, () => new Set<number>())
  for (const activity of inLinkOrder(compiled).toReversed()) {
    const own = ahead[activity] as Set<number>
    const last = successors.offsets[activity + 1] as number
    for (let at = successors.offsets[activity] as number; at < last; at += 1) {
      const after = successors.items[at] as number
      if ((bayKind[after] as number) >= 0) own.add(bayKind[after] as number)
      for (const kind of ahead[after] as Set<number>) own.add(kind)
    }
  }
  return ahead.map((each) => [...each])
}
