import v8 from 'node:v8'

/** In new_space, both halves; a power of two as V8 doubles it. */
const WANTED_BYTES = 16 * 1024 * 1024
/** More than it takes, where a V8 does not grow as it did. */
const MOST_BLOCKS = 4_000

/**
 * Lets V8's space for young objects grow as far as the host needs it and no further. Left alone it grows to 134 MB as soon as
 * some cars are folded, and hardly ever shrinks: a fourth of the host's memory, which makes nothing faster. Older objects are
 * not limited, so that a larger workshop takes more memory and does not fail. Workers started later keep theirs as it starts;
 * the planner takes no more processor time by it. To be called before the heap grows: an option of the program would not reach
 * the main thread of Electron. A V8 without the flag says so and goes on as it would have.
 */
export function holdYoungSpace(): void {
  // It doubles when more has survived than it holds.
  const survivors: number[][] = []
  while (youngBytes() < WANTED_BYTES && survivors.length < MOST_BLOCKS)
    survivors.push(Array.from({ length: 1_000 }, () => survivors.length))
  v8.setFlagsFromString('--semi-space-growth-factor=1')
}

const youngBytes = (): number =>
  v8.getHeapSpaceStatistics().find(({ space_name: name }) => name === 'new_space')?.space_size ?? WANTED_BYTES
