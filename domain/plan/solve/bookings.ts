import type { Problem } from '../problem.ts'
import { NEVER } from './working-time.ts'

export interface Booking {
  readonly car: number
  readonly bay: number
  readonly from: number
  readonly to: number
}

/** The manager's bookings: a bay is kept free for its car, and the car's next stay of a fitting kind is there. */
export interface Bookings {
  /** The first tick from `tick` on at which the bay is not booked for another car. */
  readonly freeFrom: (bay: number, car: number, tick: number) => number
  /** When the bay is booked for another car after `tick`; NEVER when it is not. */
  readonly next: (bay: number, car: number, tick: number) => number
  /** The car's first booking that is not used yet and suits. */
  readonly pending: (car: number, suits: (booking: Booking) => boolean) => Booking | undefined
  /** The car has come into the bay: its bookings up to that one are used. */
  readonly use: (car: number, bay: number, tick: number) => void
  readonly clear: () => void
}

export function createBookings({ cars, bays }: Problem): Bookings {
  const byCar = cars.map((each, car) => each.bookings.map((booking): Booking => ({ ...booking, car })))
  const byBay = bays.map((_, bay) =>
    byCar
      .flat()
      .filter((each) => each.bay === bay)
      .toSorted((a, b) => a.from - b.from),
  )
  /** By car: how many of its bookings are used. */
  const used = new Int32Array(cars.length)
  return {
    freeFrom: (bay, car, tick) => {
      let from = tick
      for (const each of byBay[bay] as Booking[])
        if (each.car !== car && each.from <= from && from < each.to) from = each.to
      return from
    },
    next: (bay, car, tick) => {
      for (const each of byBay[bay] as Booking[]) if (each.car !== car && each.from > tick) return each.from
      return NEVER
    },
    pending: (car, suits) => {
      const own = byCar[car] as Booking[]
      for (let at = used[car] as number; at < own.length; at += 1)
        if (suits(own[at] as Booking)) return own[at]
      return undefined
    },
    use: (car, bay, tick) => {
      const own = byCar[car] as Booking[]
      for (let at = used[car] as number; at < own.length; at += 1) {
        const each = own[at] as Booking
        if (each.bay === bay && each.from <= tick) used[car] = at + 1
      }
    },
    clear: () => {
      used.fill(0)
    },
  }
}
