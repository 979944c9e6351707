/**
 * What is left of renewable resources at every tick. Several resources share one 32-bit word, each in a field of its own
 * with a guard bit above it: one subtraction and one comparison say whether an activity fits at a tick. Resources that
 * need more bits than one word has go into further words.
 */
export interface ResourceProfile {
  /** False when a demand is greater than the capacity: it would never fit. */
  readonly canFit: (row: number) => boolean
  /** The earliest tick from `from` on at which the demand of `row` fits for `ticks` ticks in a row. */
  readonly earliest: (row: number, from: number, ticks: number) => number
  /** Takes the demand of `row` in [start, finish). It must fit there. */
  readonly reserve: (row: number, start: number, finish: number) => void
  readonly clear: () => void
}

export interface Use {
  readonly resource: number
  readonly amount: number
}

/** `demands` is what each row asks for at every tick of its time; rows are the caller's own, mostly activities. */
export function createResourceProfile(
  capacities: readonly number[],
  demands: readonly (readonly Use[])[],
): ResourceProfile {
  const words = packIntoWords(capacities).map((fields) => createWord(fields, demands))
  const [only] = words
  const fitting = demands.map((uses) =>
    uses.every(({ resource, amount }) => amount <= (capacities[resource] ?? 0)),
  )
  const canFit = (row: number): boolean => fitting[row] === true
  if (words.length === 1 && only) return { canFit, ...only }
  return {
    canFit,
    earliest: (row, from, ticks) => {
      let tick = from
      for (let agreed = 0, at = 0; agreed < words.length; at = (at + 1) % words.length) {
        const next = (words[at] as Word).earliest(row, tick, ticks)
        agreed = next === tick ? agreed + 1 : 1
        tick = next
      }
      return tick
    },
    reserve: (row, start, finish) => {
      for (const word of words) word.reserve(row, start, finish)
    },
    clear: () => {
      for (const word of words) word.clear()
    },
  }
}

type Word = Omit<ResourceProfile, 'canFit'>

/** One resource's bits in a word: `shift` is its lowest, the guard lies `bits` above that. */
interface Field {
  readonly resource: number
  readonly capacity: number
  readonly shift: number
  readonly bits: number
}

const WORD_BITS = 32
const FIRST_TICKS = 1024

/** In the resources' order; a word is closed when the next resource has no room in it. */
const packIntoWords = (capacities: readonly number[]): readonly Field[][] => {
  const words: Field[][] = []
  let shift = WORD_BITS
  capacities.forEach((capacity, resource) => {
    const bits = WORD_BITS - Math.clz32(capacity)
    if (bits >= WORD_BITS)
      throw new RangeError(`Resource ${resource} has a capacity of ${capacity}: give less than 2^31.`)
    if (shift + bits + 1 > WORD_BITS) {
      words.push([])
      shift = 0
    }
    words.at(-1)?.push({ resource, capacity, shift, bits })
    shift += bits + 1
  })
  return words
}

const createWord = (fields: readonly Field[], demands: readonly (readonly Use[])[]): Word => {
  let guards = 0
  let full = 0
  for (const { capacity, shift, bits } of fields) {
    guards |= 1 << (shift + bits)
    full |= capacity << shift
  }
  full |= guards
  const packed = Int32Array.from(demands, (uses) => packDemand(fields, uses))
  let free = new Int32Array(FIRST_TICKS).fill(full)
  /** Everything is free from here on. */
  let end = 0

  const growTo = (ticks: number): void => {
    const grown = new Int32Array(Math.max(ticks, 2 * free.length)).fill(full)
    grown.set(free)
    free = grown
  }

  return {
    earliest: (row, from, ticks) => {
      const demand = packed[row] as number
      if (demand === 0) return from
      let start = from
      // Ticks in [checked, stop) are known to be fine: from a blocked tick the window moves past it, and only its new end is looked at.
      let checked = from
      let tick = Math.min(from + ticks, end) - 1
      while (tick >= checked) {
        if ((((free[tick] as number) - demand) & guards) === guards) {
          tick -= 1
          continue
        }
        checked = Math.max(checked, start + ticks)
        start = tick + 1
        tick = Math.min(start + ticks, end) - 1
      }
      return start
    },
    reserve: (row, start, finish) => {
      const demand = packed[row] as number
      if (demand === 0) return
      if (finish > free.length) growTo(finish)
      if (finish > end) end = finish
      for (let tick = start; tick < finish; tick += 1) free[tick] = (free[tick] as number) - demand
    },
    clear: () => {
      free.fill(full, 0, end)
      end = 0
    },
  }
}

const packDemand = (fields: readonly Field[], uses: readonly Use[]): number =>
  fields.reduce((packed, { resource, capacity, shift }) => {
    const amount = uses.reduce((sum, use) => (use.resource === resource ? sum + use.amount : sum), 0)
    return amount > capacity ? packed : packed | (amount << shift)
  }, 0)
