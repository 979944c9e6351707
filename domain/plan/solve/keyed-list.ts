/**
 * A list with a key beside each activity, rising along the list. Sorts both by key; equal keys keep their order. By
 * insertion: what is sorted here has only a few places wrong.
 */
export function sortByKeys(list: Int32Array, keys: Float64Array): void {
  for (let at = 1; at < list.length; at += 1) {
    const key = keys[at] as number
    if ((keys[at - 1] as number) <= key) continue
    const activity = list[at] as number
    let to = at
    for (; to > 0 && (keys[to - 1] as number) > key; to -= 1) {
      keys[to] = keys[to - 1] as number
      list[to] = list[to - 1] as number
    }
    keys[to] = key
    list[to] = activity
  }
}

/** Standard deviation: how far keys lie apart. */
export function spreadOf(keys: Float64Array): number {
  const mean = keys.reduce((sum, key) => sum + key, 0) / keys.length
  return Math.sqrt(keys.reduce((sum, key) => sum + (key - mean) ** 2, 0) / keys.length)
}
