import ICAL from 'ical.js'
import { describe, expect, it } from 'vitest'
import { planNames } from '../../../domain/drawing/plan-rows.ts'
import { bookingIdSchema } from '../../../domain/ids.ts'
import type { Plan } from '../../../domain/plan/plan.ts'
import { type PlanOf, type PlanTelling } from '../../../domain/plan/plan-words.ts'
import { planCalendar } from '../../../electron/plan/plan-calendar.ts'
import { planViewFixture } from '../../support/plan-view-fixture.ts'
import {
  bay1,
  bay3,
  dunmere as carId,
  joss,
  planOf as plan,
  plannedMove,
  plannedWork,
  planTelling as tellingOf,
  wren,
} from '../../support/planned.ts'

const telling = tellingOf()

/** Over a night, by two, begun. */
const work: typeof plannedWork = (more) =>
  plannedWork({
    finish: Date.UTC(2026, 10, 27, 9, 30),
    people: [wren, joss],
    hours: 12.5,
    begun: true,
    pinned: { people: true, day: false },
    ...more,
  })

const ofWren: PlanOf = { kind: 'person', personId: wren }
const ofJoss: PlanOf = { kind: 'person', personId: joss }
const ofBay3: PlanOf = { kind: 'bay', bayId: bay3 }

const calendarOf = (given: Plan, of: PlanOf = ofWren, told = telling, name = 'Wren'): string => {
  const text = planCalendar(given, of, told, name)
  if (text === null) throw new Error('nothing is planned')
  return text
}

/** By RFC 5545, section 3.1: a line break and one space or tab after it are taken out. */
const unfolded = (text: string): readonly string[] => text.replaceAll(/\r\n[ \t]/g, '').split('\r\n')

/** The value of a property without parameters, unescaped by RFC 5545, section 3.3.11. */
const valueOf = (text: string, name: string): string | undefined =>
  unfolded(text)
    .find((line) => line.startsWith(`${name}:`))
    ?.slice(name.length + 1)
    .replaceAll(/\\([\\;,nN])/g, (_, letter: string) => (letter.toLowerCase() === 'n' ? '\n' : letter))

/** As a second reader understands it. */
const eventsIn = (text: string) =>
  new ICAL.Component(ICAL.parse(text) as unknown[])
    .getAllSubcomponents('vevent')
    .map((each) => new ICAL.Event(each))

const uidsIn = (text: string): readonly string[] => eventsIn(text).map(({ uid }) => uid)

describe('a plan as iCalendar', () => {
  it('is what another reader expects of an event: when, what, where and why then', () => {
    const [event, ...more] = eventsIn(calendarOf(plan({ work: [work()] })))
    expect(more).toEqual([])
    expect(event?.startDate.toJSDate().toISOString()).toBe('2026-11-26T08:00:00.000Z')
    expect(event?.endDate.toJSDate().toISOString()).toBe('2026-11-27T09:30:00.000Z')
    expect(event?.summary).toBe('Dunmere Saloon, Sill, left: welded')
    expect(event?.location).toBe('Bay 3')
    expect(event?.description).toBe(
      [
        'With Joss.',
        '12.5 h of work left, begun.',
        'Waits for the sealer until Thu 26 Nov, 08:00.',
        'Pinned to its people.',
      ].join('\n'),
    )
    expect(String(event?.component.getFirstPropertyValue('dtstamp'))).toBe('2026-11-25T10:40:00Z')
  })

  it('holds each property that RFC 5545 requires, once, in its order, and times in UTC', () => {
    // Sections 3.4 (object), 3.6 (calendar properties come before components) and 3.6.1 (event).
    const lines = unfolded(calendarOf(plan({ work: [work()] })))
    const names = lines.map((line) => line.split(/[:;]/)[0])
    expect(names.slice(0, 6)).toEqual(['BEGIN', 'VERSION', 'PRODID', 'METHOD', 'NAME', 'X-WR-CALNAME'])
    expect(names.slice(6)).toEqual([
      'BEGIN',
      'UID',
      'SEQUENCE',
      'DTSTAMP',
      'DTSTART',
      'DTEND',
      'SUMMARY',
      'LOCATION',
      'DESCRIPTION',
      'END',
      'END',
      '',
    ])
    for (const name of ['DTSTAMP', 'DTSTART', 'DTEND'])
      expect(lines.find((line) => line.startsWith(name))).toMatch(/:\d{8}T\d{6}Z$/)
    expect(lines[1]).toBe('VERSION:2.0')
  })

  it('gives no end to what takes no time, as an end lies after its start', () => {
    const text = calendarOf(plan({ work: [work({ finish: work().start })] }))
    expect(text).not.toContain('DTEND')
    expect(eventsIn(text)[0]?.startDate.toJSDate().getTime()).toBe(work().start)
  })

  it('has no calendar for nobody: a calendar has one event at least', () => {
    expect(planCalendar(plan({ work: [work({ people: [joss] })] }), ofWren, telling, 'Wren')).toBeNull()
  })

  it.each([
    ['signs that mean something in a calendar', 'Saloon; red, \\n 2\\;1: "new"'],
    ['line breaks', 'Saloon\nATTENDEE:mailto:someone\r\nBEGIN:VALARM'],
    ['letters of several octets', 'Łucja–Őry 🚗 '.repeat(12).trim()],
    ['one very long word', 'sill'.repeat(100)],
  ])('keeps %s', (_, name) => {
    const text = calendarOf(plan({ work: [work()] }), ofWren, tellingOf(name, name), name)
    const expected = name.replaceAll('\r\n', '\n')
    expect(valueOf(text, 'NAME')).toBe(expected)
    expect(valueOf(text, 'SUMMARY')).toBe(`${expected}, Sill, left: welded`)
    expect(valueOf(text, 'LOCATION')).toBe(expected)
    const [event, ...more] = eventsIn(text)
    expect(more).toEqual([])
    expect([event?.summary, event?.location]).toEqual([`${expected}, Sill, left: welded`, expected])
    expect(text).not.toMatch(/^ATTENDEE/m)
  })

  it('folds lines at 75 octets, and ends each with CR and LF', () => {
    // RFC 5545, section 3.1: lines are at most 75 octets without the line break, and no octets of a letter are parted.
    const name = 'Łucja–Őry 🚗 '.repeat(12).trim()
    const text = calendarOf(plan({ work: [work()] }), ofWren, tellingOf(name, name), name)
    const lines = text.split('\r\n')
    expect(lines.at(-1)).toBe('')
    expect(lines.filter((line) => /[\r\n]/.test(line))).toEqual([])
    const lengths = lines.map((line) => Buffer.byteLength(line))
    expect(Math.max(...lengths)).toBeLessThanOrEqual(75)
    // Some line was folded, so the check above did not pass empty.
    expect(lines.some((line) => line.startsWith(' '))).toBe(true)
    expect(text).not.toContain('\uFFFD')
  })

  it('keeps the UID of work that moves to another day, place and crew, so that the event moves', () => {
    const before = calendarOf(plan({ work: [work()] }))
    const later = work({
      start: work().start + 86_400_000,
      finish: work().finish + 86_400_000,
      bayId: bay1,
      people: [wren],
    })
    const after = calendarOf(plan({ work: [later], madeAt: plan({}).madeAt + 60_000 }))
    expect(uidsIn(after)).toEqual(uidsIn(before))
    expect(String(eventsIn(after)[0]?.component.getFirstPropertyValue('dtstamp'))).toBe(
      '2026-11-25T10:41:00Z',
    )
  })

  it('gives two people on the same work an event each', () => {
    const given = plan({ work: [work()] })
    expect(uidsIn(calendarOf(given, ofWren))).not.toEqual(uidsIn(calendarOf(given, ofJoss)))
  })

  it('has the moves and stays of a bay, a booked one under its booking', () => {
    const move = plannedMove()
    const stay = { carId, bayId: bay3, from: move.start, to: move.start + 3_600_000, bookingId: null }
    const later = { ...stay, from: stay.to + 3_600_000, to: stay.to + 7_200_000 }
    const booked = {
      ...stay,
      from: later.to,
      to: later.to + 3_600_000,
      bookingId: bookingIdSchema.parse('booking-dunmere'),
    }
    const events = eventsIn(calendarOf(plan({ moves: [move], stays: [stay, later, booked] }), ofBay3))
    expect(events.map(({ summary }) => summary)).toEqual([
      'Dunmere Saloon, Move in from Bay 1',
      'Dunmere Saloon, Stands here',
      'Dunmere Saloon, Stands here',
      'Dunmere Saloon, Stands here',
    ])
    expect(new Set(events.map(({ uid }) => uid)).size).toBe(4)
    expect(events[3]?.uid).toContain('booking-dunmere')
  })

  it('holds six months of a whole workshop: each piece once, each UID once', () => {
    const view = planViewFixture()
    const given = view.inForce?.plan ?? plan({})
    const told: PlanTelling = { zone: view.zone, names: planNames(view), worksOn: () => true }
    for (const { personId, name } of view.people) {
      const of: PlanOf = { kind: 'person', personId }
      const events = eventsIn(calendarOf(given, of, told, name))
      const pieces = [...given.work, ...given.moves].filter(({ people }) => people.includes(personId))
      expect(events.map(({ startDate }) => startDate.toJSDate().getTime())).toEqual(
        pieces.map(({ start }) => start).toSorted((a, b) => a - b),
      )
      expect(new Set(events.map(({ uid }) => uid)).size).toBe(events.length)
    }
  })
})
