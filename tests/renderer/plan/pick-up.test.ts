import { describe, expect, test } from 'vitest'
import { bayIdSchema, bookingIdSchema, carIdSchema } from '../../../domain/ids.ts'
import { isWhereItWas, moveOn, pickUp, putAt, toWhatIf } from '../../../renderer/plan/pick-up.ts'
import { createWhen } from '../../../renderer/parts/frame/when.tsx'

const today = '2026-11-25'
const { dateOf } = createWhen('Europe/Berlin', today)
const [one, two, three] = ['bay-one-1', 'bay-two-2', 'bay-three'].map((id) => bayIdSchema.parse(id)) as [
  never,
  never,
  never,
]
const bays = [one, two, three]
const stay = {
  carId: carIdSchema.parse('car-ostwick'),
  bayId: two,
  from: Date.parse('2026-11-30T08:00:00+01:00'),
  to: Date.parse('2026-12-05T00:00:00+01:00'),
  bookingId: null,
}
const newBooking = bookingIdSchema.parse('booking-new')
const picked = pickUp('stay', stay, dateOf, newBooking)

describe('a stay that is picked up', () => {
  test('covers the local days it stands there; a stay to midnight does not take the next day', () => {
    expect(picked.was).toEqual({ bayId: two, from: '2026-11-30', to: '2026-12-04' })
    expect(isWhereItWas(picked)).toBe(true)
  })

  test('becomes a new booking, or keeps the one it has', () => {
    expect(picked).toMatchObject({ bookingId: newBooking, isBooked: false })
    const bookingId = bookingIdSchema.parse('booking-old')
    expect(pickUp('stay', { ...stay, bookingId }, dateOf, newBooking)).toMatchObject({
      bookingId,
      isBooked: true,
    })
  })

  test('keeps its length when it moves, and is asked about where it is held', () => {
    const moved = moveOn(moveOn(picked, { days: 7, bays: 0 }, bays, today), { days: 1, bays: 1 }, bays, today)
    expect(moved.place).toEqual({ bayId: three, from: '2026-12-08', to: '2026-12-12' })
    expect(toWhatIf(moved)).toEqual({
      kind: 'booking',
      carId: stay.carId,
      bookingId: newBooking,
      bayId: three,
      from: '2026-12-08',
      to: '2026-12-12',
    })
  })

  test('stops at the outermost bays', () => {
    const up = moveOn(moveOn(picked, { days: 0, bays: -1 }, bays, today), { days: 0, bays: -1 }, bays, today)
    expect(up.place.bayId).toBe(one)
    expect(moveOn(up, { days: 0, bays: 5 }, bays, today).place.bayId).toBe(three)
  })

  test('never goes to before today; one that has begun never to before it began', () => {
    expect(putAt(picked, two, -30, today).place.from).toBe(today)
    const begun = pickUp(
      'stay',
      { ...stay, from: Date.parse('2026-11-20T08:00:00+01:00') },
      dateOf,
      newBooking,
    )
    expect(putAt(begun, two, -3, today).place.from).toBe('2026-11-20')
  })

  test('is back where it was after as many steps back', () => {
    const there = moveOn(picked, { days: 3, bays: 1 }, bays, today)
    expect(isWhereItWas(there)).toBe(false)
    expect(isWhereItWas(moveOn(there, { days: -3, bays: -1 }, bays, today))).toBe(true)
  })
})
