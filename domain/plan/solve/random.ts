/** Numbers that look random and are the same for the same seed. */
export interface Random {
  /** 0 up to but not 1. */
  readonly next: () => number
  /** A whole number from 0 up to, not including, `bound` (at least 1). */
  readonly below: (bound: number) => number
}

/** Mulberry32, a public-domain generator with 32 bits of state: a search draws far fewer numbers than its period. */
export function createRandom(seed: number): Random {
  let state = seed | 0
  const next = (): number => {
    state = (state + 0x6d2b79f5) | 0
    let mixed = Math.imul(state ^ (state >>> 15), state | 1)
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61)
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296
  }
  return { next, below: (bound) => Math.floor(next() * bound) }
}
