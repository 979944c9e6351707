import { type Compiled, indicesOf } from './compile.ts'

/**
 * The work that is worth a look, in the order of a list, as one bit a place. Work is there from when all before it is placed,
 * and not while it sleeps because no bay of its kind is free: that is over when one is let go or its car is moved.
 */
export interface Line {
  /** Sets the order; nobody stands in line yet. */
  readonly lay: (list: Int32Array) => void
  readonly add: (activity: number) => void
  readonly remove: (activity: number) => void
  /** The first activity in line that stands after this one, or of all after -1; -1 when there is none. */
  readonly after: (activity: number) => number
  readonly sleep: (activity: number) => void
  readonly wakeFor: (kinds: readonly number[]) => void
  readonly wakeCar: (car: number) => void
  readonly wakeAll: () => void
}

const WORD = 32

export function createLine({ problem, size, bayKind, car, firstOrder }: Compiled): Line {
  const bits = new Int32Array(Math.ceil(size / WORD) + 1)
  const order = new Int32Array(size)
  const placeOf = new Int32Array(size)
  const isFirst = new Uint8Array(size)
  for (const activity of firstOrder) isFirst[activity] = 1
  const isAsleep = new Uint8Array(size)
  /** By kind of bay; who is awake again may still stand there. */
  const sleepers = Array.from(
    { length: bayKind.reduce((most, kind) => Math.max(most, kind), -1) + 1 },
    (): number[] => [],
  )
  const workOfCar = problem.cars.map((_, index) => indicesOf(car, index))
  /** No word before holds anybody. */
  let lowest = 0

  const add = (activity: number): void => {
    const place = placeOf[activity] as number
    const word = place >> 5
    bits[word] = (bits[word] as number) | (1 << (place & 31))
    if (word < lowest) lowest = word
  }
  const remove = (activity: number): void => {
    const place = placeOf[activity] as number
    bits[place >> 5] = (bits[place >> 5] as number) & ~(1 << (place & 31))
  }
  const wake = (activity: number): void => {
    if (isAsleep[activity] === 0) return
    isAsleep[activity] = 0
    add(activity)
  }

  return {
    lay: (list) => {
      let place = 0
      for (const activity of firstOrder) order[place++] = activity
      for (const activity of list) if (isFirst[activity] === 0) order[place++] = activity
      for (let at = 0; at < size; at += 1) placeOf[order[at] as number] = at
      bits.fill(0)
      lowest = bits.length - 1
      isAsleep.fill(0)
      for (const each of sleepers) each.length = 0
    },
    add,
    remove,
    after: (activity) => {
      const place = activity < 0 ? lowest * WORD : (placeOf[activity] as number) + 1
      let word = place >> 5
      let some = (bits[word] as number) & (-1 << (place & 31))
      while (some === 0 && word < bits.length - 1) {
        word += 1
        some = bits[word] as number
      }
      if (activity < 0) lowest = word
      return some === 0 ? -1 : (order[word * WORD + WORD - 1 - Math.clz32(some & -some)] as number)
    },
    sleep: (activity) => {
      remove(activity)
      isAsleep[activity] = 1
      ;(sleepers[bayKind[activity] as number] as number[]).push(activity)
    },
    wakeFor: (kinds) => {
      for (const kind of kinds) {
        const own = sleepers[kind]
        if (own === undefined) continue
        for (const activity of own) wake(activity)
        own.length = 0
      }
    },
    wakeAll: () => {
      for (const own of sleepers) {
        for (const activity of own) wake(activity)
        own.length = 0
      }
    },
    wakeCar: (of) => {
      for (const activity of workOfCar[of] as readonly number[]) wake(activity)
    },
  }
}
