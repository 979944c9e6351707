import v8 from 'node:v8'

/** In new_space, both halves; a power of two as V8 doubles it. */
const WANTED_BYTES = 16 * 1024 * 1024
/** More than it takes, where a V8 does not grow as it did. */
const MOST_BLOCKS = 4_000
/** How much more than what was found in use V8 lets gather before it looks again, percent; left alone it takes up to 300. */
const OLD_SPACE_GROWS = 50

/**
 * Lets V8's space for young objects grow as far as the host needs it and no further, and looks for old ones that nobody holds
 * any more sooner than V8 would by itself. The first grows to 134 MB as soon as some cars are folded, and hardly ever shrinks:
 * a fourth of the host's memory, which makes nothing faster. The second costs a tenth more processor time, and taking out
 * everything of ten years came to 457 MB in place of 726. Older objects are not limited, so that a larger workshop takes more
 * memory and does not fail. Workers started later keep to both. To be called before the heap grows: an option of the program
 * would not reach the main thread of Electron. A V8 without the flags says so and goes on as it would have.
 */
export function holdMemory(): void {
  // It doubles when more has survived than it holds.
  const survivors: number[][] = []
  while (youngBytes() < WANTED_BYTES && survivors.length < MOST_BLOCKS)
    survivors.push(Array.from({ length: 1_000 }, () => survivors.length))
  v8.setFlagsFromString('--semi-space-growth-factor=1')
  v8.setFlagsFromString(`--heap-growing-percent=${OLD_SPACE_GROWS}`)
}

const youngBytes = (): number =>
  v8.getHeapSpaceStatistics().find(({ space_name: name }) => name === 'new_space')?.space_size ?? WANTED_BYTES
