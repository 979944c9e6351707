import { expect, test } from 'vitest'
import { bayIdSchema, bookingIdSchema, carIdSchema } from '../../../domain/ids.ts'
import { bayWords } from '../../../domain/text/bay-words.ts'
import { createDriver } from '../../support/driver.ts'

test('a bay that is taken is named with its dates, and with the year where that is not the current one', () => {
  const driver = createDriver()
  const [bayId] = [...driver.workshop.bays.values()]
    .filter(({ kinds }) => !kinds.includes('storage'))
    .map(({ id }) => id)
  const bay = bayIdSchema.parse(bayId)
  const taken = (from: string, to: string) =>
    driver.give(
      'bookBay',
      { bookingId: bookingIdSchema.parse('booking-mine'), bayId: bay, from, to },
      {
        bookings: [
          {
            bookingId: bookingIdSchema.parse('booking-other'),
            carId: carIdSchema.parse('car-other'),
            bayId: bay,
            from,
            to,
          },
        ],
      },
    )
  const name = bayWords(driver.workshop.bays.get(bay)?.name ?? '')
  expect(taken('2026-03-09', '2026-03-12')).toMatchObject({
    refusal: { code: 'clash', message: `Another car is in ${name} 9 to 12 Mar.` },
  })
  expect(taken('2027-01-04', '2027-01-08')).toMatchObject({
    refusal: { message: `Another car is in ${name} 4 to 8 Jan 2027.` },
  })
})
