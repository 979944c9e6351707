import { expect, test } from 'vitest'
import { weekHoursOf, weekWordsOf } from '../../../renderer/workshop/week-drawing.ts'
import { dayProblem, weekProblem } from '../../../renderer/workshop/week-problem.ts'

const morning = { from: '08:00', to: '12:30' }
const afternoon = { from: '13:00', to: '16:30' }
const day = [morning, afternoon]
const week = [day, day, day, day, [morning], [], []]

test('days that work alike are said once', () => {
  expect(weekWordsOf(week)).toBe(
    'Mon to Thu 08:00 to 12:30, 13:00 to 16:30; Fri 08:00 to 12:30; Sat to Sun off',
  )
})

test('the hours of a week are the sum of its spans', () => {
  expect(weekHoursOf(week)).toBe(36.5)
})

test('hours that overlap, end before they start or lack a time are named', () => {
  expect(dayProblem(day)).toBeNull()
  expect(dayProblem([afternoon, morning])).toContain('without overlap')
  expect(dayProblem([{ from: '12:00', to: '12:00' }])).toContain('end after they start')
  expect(dayProblem([{ from: '', to: '12:00' }])).toContain('both times')
})

test('what is wrong with a week names its day', () => {
  expect(weekProblem(week)).toBeNull()
  expect(weekProblem([day, day, [afternoon, morning], day, day, [], []])).toMatch(/^Wednesday: /)
})
