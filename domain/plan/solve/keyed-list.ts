/**
 * A list with a key beside each activity, rising along the list. Sorts both by key; equal keys keep their order. By
 * insertion: what is sorted here has only a few places wrong.
 */
function sortByKeys(list: Int32Array, keys: Float64Array): void {
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

/** Lists up to here are sorted by insertion, which is quick while it has little to do. */
const SHORT = 200

/** Gives a list other keys, whole numbers, and sorts it by them; equal keys keep their order. */
export function rekey(list: Int32Array, keys: Float64Array, keyOf: (activity: number) => number): void {
  const size = list.length
  for (let at = 0; at < size; at += 1) keys[at] = keyOf(list[at] as number)
  if (size <= SHORT) return sortByKeys(list, keys)
  // One number for key and place: a list of numbers is sorted without asking which of two comes first.
  for (let at = 0; at < size; at += 1) keys[at] = (keys[at] as number) * size + at
  keys.sort()
  const before = list.slice()
  for (let at = 0; at < size; at += 1) {
    const key = Math.floor((keys[at] as number) / size)
    list[at] = before[(keys[at] as number) - key * size] as number
    keys[at] = key
  }
}

/**
 * Sorts as `sortByKeys` does where many may have moved far, as long as they are few of the list: `keyOf` holds the new keys
 * by activity. Those that moved are taken out, sorted and merged in again.
 */
export function createResort(
  size: number,
): (list: Int32Array, keys: Float64Array, keyOf: Float64Array) => void {
  const moved = new Int32Array(size)
  const movedKeys = new Float64Array(size)
  /** By place in the list: where it stood, because of two with equal keys the first stays first. */
  const stood = new Int32Array(size)
  const movedStood = new Int32Array(size)
  return (list, keys, keyOf) => {
    let kept = 0
    let count = 0
    for (let place = 0; place < size; place += 1) {
      const activity = list[place] as number
      const key = keyOf[activity] as number
      if (key === keys[place]) {
        list[kept] = activity
        keys[kept] = key
        stood[kept++] = place
        continue
      }
      let to = count++
      for (; to > 0 && (movedKeys[to - 1] as number) > key; to -= 1) {
        moved[to] = moved[to - 1] as number
        movedKeys[to] = movedKeys[to - 1] as number
        movedStood[to] = movedStood[to - 1] as number
      }
      moved[to] = activity
      movedKeys[to] = key
      movedStood[to] = place
    }
    for (let to = size - 1; count > 0; to -= 1) {
      const key = movedKeys[count - 1] as number
      const other = kept > 0 ? (keys[kept - 1] as number) : -Infinity
      if (other > key || (other === key && (stood[kept - 1] as number) > (movedStood[count - 1] as number))) {
        kept -= 1
        list[to] = list[kept] as number
        keys[to] = other
      } else {
        count -= 1
        list[to] = moved[count] as number
        keys[to] = key
      }
    }
  }
}

/** Standard deviation: how far keys lie apart. */
export function spreadOf(keys: Float64Array): number {
  const mean = keys.reduce((sum, key) => sum + key, 0) / keys.length
  return Math.sqrt(keys.reduce((sum, key) => sum + (key - mean) ** 2, 0) / keys.length)
}
