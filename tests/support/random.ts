/** Numbers that look random and are the same for the same seed. */
export interface Random {
  /** 0 up to but not 1. */
  readonly next: () => number
  /** A whole number from `least` to `most`, both inclusive. */
  readonly between: (least: number, most: number) => number
  readonly pick: <T>(items: readonly T[]) => T
}

/** Mulberry32, a public-domain generator with 32 bits of state: enough to choose what a test does. */
export function createRandom(seed: number): Random {
  let state = seed >>> 0
  const next = (): number => {
    state = (state + 0x6d2b79f5) >>> 0
    let mixed = Math.imul(state ^ (state >>> 15), state | 1)
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61)) ^ mixed
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296
  }
  const between = (least: number, most: number): number => least + Math.floor(next() * (most - least + 1))
  return {
    next,
    between,
    pick: (items) => {
      const item = items[between(0, items.length - 1)]
      if (item === undefined) throw new Error('There is nothing to pick from.')
      return item
    },
  }
}
