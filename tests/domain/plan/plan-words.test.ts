import { describe, expect, it } from 'vitest'
import { bookingIdSchema, taskIdSchema } from '../../../domain/ids.ts'
import type { Plan } from '../../../domain/plan/plan.ts'
import { entryTime, planLines, type PlanOf } from '../../../domain/plan/plan-words.ts'
import {
  bay1,
  bay3,
  dunmere as carId,
  joss,
  planAt as at,
  planOf as plan,
  plannedMove,
  plannedWork as work,
  planTelling,
  planZone as zone,
  sillGate as gate,
  wren,
} from '../../support/planned.ts'

const telling = planTelling()

const ofWren: PlanOf = { kind: 'person', personId: wren }
const ofBay3: PlanOf = { kind: 'bay', bayId: bay3 }
const ofCar: PlanOf = { kind: 'car', carId }

const move = plannedMove()

/** '2026-11-26 08:00 to 14:30 Sill, left: welded' for every entry. */
const told = (given: Plan, of: PlanOf): readonly string[] =>
  planLines(given, of, telling).flatMap(({ date, entries }) =>
    entries.map((entry) => `${date} ${entryTime(entry, zone)}: ${entry.title}`),
  )

describe('the plan in words', () => {
  it('tells a person what, where, when, with whom and why then', () => {
    const pinned = { people: true, day: true }
    const [line] = planLines(plan({ work: [work({ people: [wren, joss], pinned })] }), ofWren, telling)
    expect(line).toEqual({
      date: '2026-11-26',
      entries: [
        {
          kind: 'work',
          part: 'whole',
          start: at('2026-11-26', '08:00'),
          finish: at('2026-11-26', '14:30'),
          title: 'Sill, left: welded',
          carId,
          car: 'Dunmere Saloon',
          place: 'Bay 3',
          people: ['Joss'],
          why: 'waits for the sealer until Thu 26 Nov, 08:00',
          pinned: 'pinned to its people and its day',
          begun: false,
          hours: 6,
        },
      ],
    })
  })

  it('names work that pauses on each day that all who do it work on', () => {
    const long = work({
      people: [wren, joss],
      start: at('2026-11-26', '14:00'),
      finish: at('2026-12-02', '10:00'),
    })
    expect(told(plan({ work: [long] }), ofWren)).toEqual([
      '2026-11-26 from 14:00, goes on: Sill, left: welded',
      '2026-11-27 goes on all day: Sill, left: welded',
      '2026-12-01 goes on all day: Sill, left: welded',
      '2026-12-02 goes on until 10:00: Sill, left: welded',
    ])
  })

  it('counts work that ends at midnight to the day before', () => {
    const late = work({ start: at('2026-11-26', '20:00'), finish: at('2026-11-27', '00:00') })
    expect(told(plan({ work: [late] }), ofWren)).toEqual(['2026-11-26 20:00 to 00:00: Sill, left: welded'])
  })

  it('says the hour of the wall clock before and after the clocks go back', () => {
    // Europe/London: 25 Oct 2026, 01:00 UTC. At 09:00 on the wall it is 08:00 UTC before and 09:00 UTC after.
    const over = work({ start: Date.UTC(2026, 9, 24, 8), finish: Date.UTC(2026, 9, 26, 9) })
    expect(told(plan({ work: [over] }), ofWren)).toEqual([
      '2026-10-24 from 09:00, goes on: Sill, left: welded',
      '2026-10-26 goes on until 09:00: Sill, left: welded',
    ])
  })

  it('leaves out what others do', () => {
    const given = plan({ work: [work({ people: [joss] })], moves: [{ ...move, people: [joss] }] })
    expect(told(given, ofWren)).toEqual([])
  })

  it('puts days and what is on them in order of time', () => {
    const sealed = work({
      target: gate('sealed'),
      start: at('2026-11-27', '08:00'),
      finish: at('2026-11-27', '09:00'),
    })
    expect(told(plan({ work: [sealed, work({})], moves: [move] }), ofWren)).toEqual([
      '2026-11-26 07:30 to 08:00: Move from Bay 1 to Bay 3',
      '2026-11-26 08:00 to 14:30: Sill, left: welded',
      '2026-11-27 08:00 to 09:00: Sill, left: sealed',
    ])
  })

  it('tells a bay who comes, stands, is worked on and goes, a stay only at its ends', () => {
    const stay = {
      carId,
      bayId: bay3,
      from: at('2026-11-26', '07:30'),
      to: at('2026-12-08', '16:00'),
      bookingId: bookingIdSchema.parse('booking-dunmere'),
    }
    const out = {
      ...move,
      from: bay3,
      to: bay1,
      start: at('2026-12-08', '15:30'),
      finish: at('2026-12-08', '16:00'),
    }
    const given = plan({ work: [work({})], moves: [move, out], stays: [stay] })
    expect(told(given, ofBay3)).toEqual([
      '2026-11-26 07:30 to 08:00: Move in from Bay 1',
      '2026-11-26 from 07:30, goes on: Stands here',
      '2026-11-26 08:00 to 14:30: Sill, left: welded',
      '2026-12-08 goes on until 16:00: Stands here',
      '2026-12-08 15:30 to 16:00: Move out to Bay 1',
    ])
    const [first] = planLines(given, ofBay3, telling)
    expect(first?.entries.map(({ people }) => people)).toEqual([['Wren', 'Joss'], [], ['Wren']])
    expect(first?.entries[1]?.pinned).toBe('pinned by a booking')
  })

  it('tells a car where it stands and what is done to it, with a move from outside as such', () => {
    const stay = { carId, bayId: bay3, from: move.start, to: at('2026-11-26', '14:30'), bookingId: null }
    const onBench = work({
      bayId: null,
      people: [joss],
      target: { kind: 'task', taskId: taskIdSchema.parse('task-strip') },
    })
    const given = plan({ work: [onBench], moves: [{ ...move, from: null }], stays: [stay] })
    expect(told(given, ofCar)).toEqual([
      '2026-11-26 07:30 to 08:00: Bring in to Bay 3',
      '2026-11-26 07:30 to 14:30: In Bay 3',
      '2026-11-26 08:00 to 14:30: strip',
    ])
    expect(planLines(given, ofCar, telling)[0]?.entries[2]).toMatchObject({ place: '', people: ['Joss'] })
  })
})
