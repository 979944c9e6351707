/** Where a value goes in ascending ones, behind those that equal it: the index of the first above it, or their count. */
export function placeAbove(ascending: readonly number[], value: number): number {
  let [low, high] = [0, ascending.length]
  while (low < high) {
    const middle = (low + high) >> 1
    if ((ascending[middle] as number) <= value) low = middle + 1
    else high = middle
  }
  return low
}
