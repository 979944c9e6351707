import { expect, test } from 'vitest'
import { checkHostClock } from '../../db/host-clock.ts'
import { createWorkshop } from '../support/workshop.ts'

const minutes = (count: number) => count * 60_000
const days = (count: number) => count * 86_400_000

test('a clock behind the last recorded fact by more than two minutes is told', () => {
  const { db, now } = createWorkshop()
  expect(checkHostClock(db, now - minutes(2)).kind).toBe('plausible')
  expect(checkHostClock(db, now - minutes(3))).toEqual({
    kind: 'behind',
    lastRecorded: now,
    words:
      "This computer's clock is behind the last fact, which was recorded on Mon 23 Nov 2026, 08:00. Set the clock right.",
  })
})

test('a clock more than sixty days after the last fact is told', () => {
  const { db, now } = createWorkshop()
  expect(checkHostClock(db, now + days(60)).kind).toBe('plausible')
  expect(checkHostClock(db, now + days(61))).toMatchObject({ kind: 'ahead', lastRecorded: now })
})

test('before the first fact every clock is plausible', () => {
  const { db } = createWorkshop({ setUp: false })
  expect(checkHostClock(db, 0).kind).toBe('plausible')
})
