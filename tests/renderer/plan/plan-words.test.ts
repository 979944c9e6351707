import { describe, expect, test } from 'vitest'
import { planNames, planRows, type PlanBlock } from '../../../domain/drawing/plan-rows.ts'
import type { PlannedWork, StartReason } from '../../../domain/plan/plan.ts'
import { dayEnd } from '../../../domain/time/zone.ts'
import type { CarComparison } from '../../../domain/views/plan-view-shapes.ts'
import { createWhen } from '../../../renderer/parts/frame/when.tsx'
import { planHead, worstWait } from '../../../renderer/plan/plan-figures.ts'
import {
  blockWords,
  comparisonWords,
  consequences,
  daysLate,
  spanWords,
} from '../../../renderer/plan/plan-words.ts'
import { planViewFixture } from '../../support/plan-view-fixture.ts'

const view = planViewFixture({ works: 200 })
const plan = view.inForce!.plan
const names = planNames(view)
const when = createWhen(view.zone, '2026-11-25')
const at = (local: string) => Date.parse(`${local}:00+01:00`)

describe('words of the plan', () => {
  test('a day is said once when work begins and ends on it', () => {
    expect(spanWords(at('2026-11-26T08:00'), at('2026-11-26T14:30'), when)).toBe('Thu 26 Nov, 08:00 to 14:30')
    expect(spanWords(at('2026-11-26T14:30'), at('2026-11-27T10:00'), when)).toBe(
      'Thu 26 Nov, 14:30 to Fri 27 Nov, 10:00',
    )
  })

  test('every block says its car and its time', () => {
    const rows = planRows(view, plan, (date) => dayEnd(date, view.zone))
    for (const block of rows.flatMap((row): readonly PlanBlock[] => row.blocks)) {
      const words = blockWords(block, names, when)
      if ('carId' in block) expect(words).toContain(names.car(block.carId))
      expect(words).toMatch(/\d{1,2} (Nov|Dec|Jan|Feb|Mar|Apr|May|Jun)/)
    }
  })

  test('pins are said', () => {
    const work: PlannedWork = { ...plan.work[0]!, pinned: { people: true, day: true } }
    const block = {
      kind: 'work',
      key: 'a',
      carId: work.carId,
      from: work.start,
      to: work.finish,
      work,
    } as const
    expect(blockWords(block, names, when)).toMatch(/, pinned to its people and its day$/)
  })

  test('a car is late by the local days that its 80 % finish lies after the promise', () => {
    const car = { ...plan.cars[0]!, promised: '2026-12-04', finish50: null, finish: null }
    expect(daysLate({ ...car, finish80: at('2026-12-05T00:00') }, when)).toBe(0)
    expect(daysLate({ ...car, finish80: at('2026-12-05T00:05') }, when)).toBe(1)
    expect(daysLate({ ...car, finish80: null, finish: at('2026-12-07T12:00') }, when)).toBe(3)
    expect(daysLate({ ...car, promised: null, finish80: at('2027-01-01T00:00') }, when)).toBe(0)
  })
})

const compared = (over: Partial<CarComparison>): CarComparison => ({
  carId: plan.cars[0]!.carId,
  name: 'Ostwick',
  promised: '2026-12-04',
  finishBefore: at('2026-12-03T12:00'),
  finishAfter: at('2026-12-03T12:00'),
  finish80Before: at('2026-12-04T12:00'),
  finish80After: at('2026-12-04T12:00'),
  daysLateBefore: 0,
  daysLateAfter: 0,
  ...over,
})

describe('what comes of a change', () => {
  const words = (over: Partial<CarComparison>) =>
    consequences({ cars: [compared(over)] }, when).map((each) => each.words)

  test('says who becomes late and by how much', () => {
    expect(words({ finish80After: at('2026-12-07T09:00'), daysLateAfter: 3 })).toEqual([
      'Ostwick becomes late by 3 days',
    ])
    expect(words({ daysLateBefore: 2, daysLateAfter: 3, finish80After: at('2026-12-05T12:00') })).toEqual([
      'Ostwick 3 days late instead of 2',
    ])
    expect(words({ daysLateBefore: 1, daysLateAfter: 0, finish80After: at('2026-12-03T12:00') })).toEqual([
      'Ostwick is on time instead of 1 day late',
    ])
  })

  test('says who moves without becoming late, and nothing of who does not move by a day', () => {
    expect(words({ finish80After: at('2026-12-03T12:00') })).toEqual([
      'Ostwick finished 1 day earlier, still on time',
    ])
    expect(words({ finish80After: at('2026-12-04T16:00') })).toEqual([])
  })

  test('puts the worst first', () => {
    const cars = [
      compared({ name: 'Pellin', finish80After: at('2026-12-03T12:00') }),
      compared({ name: 'Tamsel', daysLateAfter: 1, finish80After: at('2026-12-05T12:00') }),
      compared({ name: 'Arden', daysLateAfter: 4, finish80After: at('2026-12-08T12:00') }),
    ]
    expect(consequences({ cars }, when).map((each) => each.words.split(' ')[0])).toEqual([
      'Arden',
      'Tamsel',
      'Pellin',
    ])
  })

  test('counts who is earlier and who is later; the mean finish counts where no 80 % is known', () => {
    const cars = [
      compared({ finish80After: at('2026-12-02T12:00') }),
      compared({ finish80After: at('2026-12-01T12:00') }),
      compared({ finish80After: null, finish80Before: null, finishAfter: at('2026-12-09T12:00') }),
    ]
    expect(comparisonWords({ cars }, when)).toBe('2 cars earlier, 1 car later')
    expect(comparisonWords({ cars: [compared({})] }, when)).toBe('every car as before')
  })
})

describe('the head of the plan', () => {
  const work = (start: string, finish: string, reason: StartReason): PlannedWork => ({
    ...plan.work[0]!,
    start: at(start),
    finish: at(finish),
    why: { reason, words: `${reason} ${start}` },
  })

  test('the reason is where the car stands still longest for something that can be changed', () => {
    const found = worstWait(
      [
        work('2026-11-26T08:00', '2026-11-26T16:00', 'now'),
        // Curing is the longest wait, but nothing can be done about it.
        work('2026-12-03T08:00', '2026-12-03T12:00', 'curing'),
        work('2026-12-05T08:00', '2026-12-05T12:00', 'decision'),
        work('2026-12-06T08:00', '2026-12-06T12:00', 'parts'),
        // Begins while other work on the car is under way: the car does not wait.
        work('2026-12-06T10:00', '2026-12-20T12:00', 'people'),
      ],
      plan.work[0]!.carId,
    )
    expect(found?.why.reason).toBe('decision')
  })

  test('says how many are late, the worst and its reason; and nothing of a worst when none is', () => {
    const { figures, reason } = planHead(plan, names, when)
    const late = plan.cars.filter((car) => daysLate(car, when) > 0)
    expect(late.length).toBeGreaterThan(0)
    expect(figures.map(({ label }) => label)).toEqual(['late at 80 %', 'latest'])
    // The latest car of this fixture has none of the 200 pieces, so what is least sure is said.
    expect(reason).toBe('the hours of Sill, left are least sure')
    expect(figures[0]?.value).toBe(`${late.length} car${late.length === 1 ? '' : 's'}`)
    const onTime = { ...plan, cars: plan.cars.map((car) => ({ ...car, promised: null })) }
    expect(planHead(onTime, names, when)).toEqual({
      figures: [{ label: 'late at 80 %', value: 'none', tone: 'passed' }],
      reason: null,
    })
  })
})
