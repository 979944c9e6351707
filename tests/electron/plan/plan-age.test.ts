import { describe, expect, it } from 'vitest'
import { isOld, workBegins } from '../../../electron/plan/plan-age.ts'
import { buildWorkshop } from '../../support/workshop-builder.ts'

// In UTC, Monday to Friday from 08:00; 25 Nov 2026 is a Wednesday.
const workshop = buildWorkshop((add) =>
  add('calendarSet', {
    week: [...Array.from({ length: 5 }, () => [{ from: '08:00', to: '16:30' }]), [], []],
    holidays: [{ date: '2026-11-26', name: 'Fair day' }],
  }),
)
const at = (text: string): number => Date.parse(`${text}:00Z`)
const isOldAt = (now: string, madeAt: string, lookedAt: string | null = null): boolean =>
  isOld({ madeAt: at(madeAt), lookedAt: lookedAt === null ? null : at(lookedAt) }, at(now), workshop)

describe('a working day', () => {
  it('begins when the first of the people does; none on days off', () => {
    expect(workBegins(workshop, '2026-11-25')).toBe(at('2026-11-25T08:00'))
    expect(workBegins(workshop, '2026-11-26')).toBeNull()
    expect(workBegins(workshop, '2026-11-28')).toBeNull()
  })
})

describe('a plan', () => {
  it('is old once a working day has begun since it was made, not over a day off', () => {
    expect(isOldAt('2026-11-25T07:59', '2026-11-24T17:00')).toBe(false)
    expect(isOldAt('2026-11-25T08:00', '2026-11-24T17:00')).toBe(true)
    expect(isOldAt('2026-11-26T12:00', '2026-11-25T17:00')).toBe(false)
    expect(isOldAt('2026-11-27T08:01', '2026-11-25T17:00')).toBe(true)
    expect(isOldAt('2026-11-25T15:00', '2026-11-25T08:00')).toBe(false)
  })

  it('is old after an hour when somebody has looked at it', () => {
    expect(isOldAt('2026-11-25T12:00', '2026-11-25T11:00', '2026-11-25T11:20')).toBe(true)
    expect(isOldAt('2026-11-25T11:59', '2026-11-25T11:00', '2026-11-25T11:20')).toBe(false)
    expect(isOldAt('2026-11-25T12:00', '2026-11-25T11:00')).toBe(false)
  })
})
