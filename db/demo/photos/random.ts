/** A stream of numbers that is the same for the same seed on every machine. */
export interface Random {
  /** In [0, 1). */
  next(): number
  /** In [low, high). */
  between(low: number, high: number): number
  pick<T>(choices: readonly [T, ...T[]]): T
  /** True with this likelihood. */
  chance(likelihood: number): boolean
}

/** Mulberry32, seeded by any text. */
export function createRandom(seed: string): Random {
  let state = hashText(seed)
  const next = () => {
    state = (state + 0x6d2b79f5) | 0
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state)
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296
  }
  return {
    next,
    between: (low, high) => low + (high - low) * next(),
    pick: (choices) => choices[Math.floor(next() * choices.length)] ?? choices[0],
    chance: (likelihood) => next() < likelihood,
  }
}

/** FNV-1a, 32 bits. */
function hashText(text: string): number {
  let hash = 0x811c9dc5
  for (let index = 0; index < text.length; index++)
    hash = Math.imul(hash ^ text.charCodeAt(index), 0x01000193)
  return hash | 0
}
