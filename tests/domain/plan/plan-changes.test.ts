import { describe, expect, it } from 'vitest'
import { carIdSchema } from '../../../domain/ids.ts'
import { changedWork, isSamePlan, isWithinFrozenDays, movedCars } from '../../../domain/plan/plan-changes.ts'
import type { Plan, PlannedWork } from '../../../domain/plan/plan.ts'
import { onGate, personId, visitId } from '../../support/car-builder.ts'
import { simplePlan } from '../../support/kept-plan.ts'

const carId = carIdSchema.parse('car-dunmere')
const at = (text: string): number => Date.parse(`${text}:00Z`)
const zone = 'UTC'
const now = at('2026-11-25T10:40')

const work = (over: Partial<PlannedWork> = {}): PlannedWork => ({
  carId,
  visitId: visitId('first'),
  target: onGate('Boot floor', 'opened'),
  start: at('2026-11-26T08:00'),
  finish: at('2026-11-26T12:00'),
  people: [personId('Joss')],
  bayId: null,
  hours: 4,
  begun: false,
  pinned: { people: false, day: false },
  why: { reason: 'order', words: '' },
  ...over,
})
const planOf = (...all: readonly PlannedWork[]): Plan => ({ ...simplePlan(carId), work: [...all] })
const change = (before: PlannedWork, after: PlannedWork) => changedWork(planOf(before), planOf(after), zone)

describe('two plans', () => {
  it('are the same when work only moves within its day', () => {
    const later = work({ start: at('2026-11-26T14:00'), finish: at('2026-11-27T09:00') })
    expect(change(work(), later)).toEqual([])
    expect(isSamePlan(planOf(work()), planOf(later), zone)).toBe(true)
  })

  it('differ by work on another local day, with other people, or that is new', () => {
    const otherDay = work({ start: at('2026-11-27T08:00') })
    const otherPeople = work({ people: [personId('Wren')] })
    const another = work({ target: onGate('Left sill', 'opened') })
    expect(change(work(), otherDay)).toEqual([{ before: work(), after: otherDay }])
    expect(change(work(), otherPeople)).toHaveLength(1)
    expect(changedWork(planOf(work()), planOf(work(), another), zone)).toEqual([
      { before: null, after: another },
    ])
    expect(isSamePlan(planOf(work()), planOf(otherDay), zone)).toBe(false)
  })

  it('are compared on the local day: half past eleven in the evening here is the next day further east', () => {
    const late = work({ start: at('2026-11-26T23:30') })
    const early = work({ start: at('2026-11-27T08:00') })
    expect(changedWork(planOf(late), planOf(early), 'UTC')).toHaveLength(1)
    expect(changedWork(planOf(late), planOf(early), 'Europe/Berlin')).toEqual([])
  })

  it('do not differ by work that is done, nor by begun work that goes on with the same people', () => {
    const goesOn = work({ start: now, begun: true })
    expect(
      changedWork(planOf(work(), work({ target: onGate('Left sill', 'opened') })), planOf(work()), zone),
    ).toEqual([])
    expect(change(work({ start: at('2026-11-24T08:00') }), goesOn)).toEqual([])
    expect(change(work(), { ...goesOn, people: [personId('Wren')] })).toHaveLength(1)
  })
})

describe('a change within the frozen days', () => {
  const frozenEnd = at('2026-11-28T00:00')
  const isWithin = (before: PlannedWork | null, after: PlannedWork) =>
    isWithinFrozenDays({ before, after }, now, frozenEnd)
  const later = work({ start: at('2026-12-03T08:00') })

  it('takes work out of them, puts some in, or gives it to others', () => {
    expect(isWithin(work(), later)).toBe(true)
    expect(isWithin(later, work())).toBe(true)
    expect(isWithin(null, work())).toBe(true)
    expect(isWithin(work(), work({ people: [personId('Wren')] }))).toBe(true)
  })

  it('is none where all happens after them, or where nobody began work in its time', () => {
    expect(isWithin(later, work({ start: at('2026-12-04T08:00') }))).toBe(false)
    const missed = work({ start: at('2026-11-24T08:00') })
    expect(isWithin(missed, work())).toBe(false)
    expect(isWithin(missed, work({ people: [personId('Wren')] }))).toBe(true)
  })
})

describe('a car’s finish', () => {
  const finishes = (finish50: number | null, finish80: number | null) => [{ carId, finish50, finish80 }]
  const day = 24 * 3_600_000

  it('has moved when its 50 % or its 80 % did by a day, earlier or later, or it is no longer known', () => {
    const before = finishes(now, now + 5 * day)
    expect(movedCars(before, finishes(now + day, now + 5 * day))).toEqual([carId])
    expect(movedCars(before, finishes(now, now + 4 * day))).toEqual([carId])
    expect(movedCars(before, finishes(null, null))).toEqual([carId])
  })

  it('has not when it moved by less, or when the car is new', () => {
    const before = finishes(now, now + 5 * day)
    expect(movedCars(before, finishes(now + day - 1, now + 4 * day + 1))).toEqual([])
    expect(movedCars([], before)).toEqual([])
  })
})
