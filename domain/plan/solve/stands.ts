import { type Compiled, type Rows, rows } from './compile.ts'
import { NEVER } from './working-time.ts'

/**
 * What is held from one activity to a later one: the open side of a shell, and jigs and dollies. It is taken in the order
 * of the list and never in a gap before what was taken already, so that nothing is ever held twice.
 */
export interface Held {
  /** Earliest tick at which an activity may take what it opens; NEVER while another holds it without an end. */
  readonly from: (activity: number) => number
  readonly take: (activity: number, finish: number) => void
  /** Latest end of the car's stands that are closed; NEVER while one is open. */
  readonly closedAt: (car: number) => number
  readonly clear: () => void
  /** True when the last `take` let something go. */
  released: boolean
}

const OPEN = -2
const NOT_YET = -1

export function createHeld(compiled: Compiled): Held {
  const { stands, spans, resources } = compiled.problem
  const { opens, closes, apart, spansOf } = compiled
  /** By stand: NOT_YET, OPEN, or the tick at which it was closed. */
  const state = new Int32Array(stands.length)
  const spanLeft = new Int32Array(spans.length)
  const spanEnd = new Int32Array(spans.length)
  const slots = resources.map(({ capacity }) => new Int32Array(Math.min(capacity, SLOTS)))
  const ofCar = standsByCar(compiled.problem)
  const slotsOf = spans.map(() => [] as number[])

  const standFrom = (stand: number): number => {
    let tick = 0
    for (let at = apart.offsets[stand] as number; at < (apart.offsets[stand + 1] as number); at += 1) {
      const other = state[apart.items[at] as number] as number
      if (other === OPEN) return NEVER
      tick = Math.max(tick, other)
    }
    return tick
  }

  const spanFrom = (span: number): number => {
    const { resource, amount } = spans[span] as (typeof spans)[number]
    const free = (slots[resource] as Int32Array).toSorted()
    return free[amount - 1] ?? NEVER
  }

  const isSpanOpen = (span: number): boolean => (slotsOf[span] as number[]).length > 0

  const openSpan = (span: number): void => {
    const { resource, amount } = spans[span] as (typeof spans)[number]
    const own = slots[resource] as Int32Array
    for (let count = 0; count < amount; count += 1) {
      const slot = own.indexOf(Math.min(...own))
      own[slot] = NEVER
      ;(slotsOf[span] as number[]).push(slot)
    }
  }

  const takeSpan = (span: number, finish: number): void => {
    if (!isSpanOpen(span)) openSpan(span)
    spanEnd[span] = Math.max(spanEnd[span] as number, finish)
    spanLeft[span] = (spanLeft[span] as number) - 1
    if (spanLeft[span] !== 0) return
    const { resource } = spans[span] as (typeof spans)[number]
    for (const slot of slotsOf[span] as number[])
      (slots[resource] as Int32Array)[slot] = spanEnd[span] as number
    held.released = true
  }

  const held: Held = {
    released: false,
    from: (activity) => {
      const stand = opens[activity] as number
      let tick = stand < 0 ? 0 : standFrom(stand)
      for (
        let at = spansOf.offsets[activity] as number;
        at < (spansOf.offsets[activity + 1] as number);
        at += 1
      ) {
        const span = spansOf.items[at] as number
        if (!isSpanOpen(span)) tick = Math.max(tick, spanFrom(span))
      }
      return tick
    },
    take: (activity, finish) => {
      held.released = false
      const opened = opens[activity] as number
      if (opened >= 0) state[opened] = OPEN
      const closed = closes[activity] as number
      if (closed >= 0) {
        state[closed] = finish
        held.released = true
      }
      for (
        let at = spansOf.offsets[activity] as number;
        at < (spansOf.offsets[activity + 1] as number);
        at += 1
      )
        takeSpan(spansOf.items[at] as number, finish)
    },
    closedAt: (car) => {
      let tick = 0
      for (let at = ofCar.offsets[car] as number; at < (ofCar.offsets[car + 1] as number); at += 1) {
        const stand = ofCar.items[at] as number
        if (state[stand] === OPEN) return NEVER
        tick = Math.max(tick, state[stand] as number)
      }
      return tick
    },
    clear: () => {
      stands.forEach((stand, index) => (state[index] = stand.from === null ? OPEN : NOT_YET))
      spanEnd.fill(0)
      spans.forEach((span, index) => {
        spanLeft[index] = span.activities.length
        ;(slotsOf[index] as number[]).length = 0
      })
      for (const own of slots) own.fill(0)
      spans.forEach((span, index) => {
        if (span.held) openSpan(index)
      })
    },
  }
  return held
}

/** More than this many of one kind never run out in a workshop. */
const SLOTS = 64

const standsByCar = ({ cars, stands }: Compiled['problem']): Rows => {
  const byCar = cars.map((): number[] => [])
  stands.forEach(({ car }, stand) => byCar[car]?.push(stand))
  return rows(byCar)
}
