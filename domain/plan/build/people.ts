import type { PersonId } from '../../ids.ts'
import { dateToDayIndex } from '../../time/calendar.ts'
import { personCalendar } from '../../value/person-day.ts'
import type { Person } from '../../workshop.ts'
import type { PlanInput } from '../plan-input.ts'
import type { Calendar } from '../problem.ts'
import type { TickScale } from './tick-scale.ts'
import { TICK_MS } from './tick-scale.ts'

/** Everyone active, numbered in the workshop's order, with their working time up to the horizon. */
export interface PlanPeople {
  readonly all: ReadonlyMap<PersonId, Person>
  readonly ids: readonly PersonId[]
  readonly nameOf: (id: PersonId) => string
  readonly numberOf: (id: PersonId) => number | null
  /** Works at all before the horizon. */
  readonly hasHours: (id: PersonId) => boolean
  /** Works on the first day from now on that anybody works on. */
  readonly isBackSoon: (id: PersonId) => boolean
  readonly calendars: readonly Calendar[]
  /** By number of a person: the number of their calendar. */
  readonly calendarOf: readonly number[]
  /** 'have working hours before Mon 24 May': the last day that is planned. */
  readonly hoursWords: string
}

export function planPeople({ workshop, nameOf }: PlanInput, scale: TickScale, lastDate: string): PlanPeople {
  const active = [...workshop.people.values()].filter((person) => person.active)
  const spans = active.map(({ id }) => workingSpans(personCalendar(workshop, id), scale, lastDate))
  const keys = spans.map((own) => own.map(({ from, to }) => `${from}-${to}`).join())
  const distinct = [...new Set(keys)]
  const numbers = new Map(active.map(({ id }, index) => [id, index]))
  const firstOf = (id: PersonId): number => spans[numbers.get(id) ?? -1]?.[0]?.from ?? Infinity
  const firstDay = endOfDay(Math.min(...active.map(({ id }) => firstOf(id))), scale)
  return {
    all: new Map(active.map((person) => [person.id, person])),
    ids: active.map(({ id }) => id),
    nameOf,
    numberOf: (id) => numbers.get(id) ?? null,
    hasHours: (id) => firstOf(id) < Infinity,
    isBackSoon: (id) => firstOf(id) < firstDay,
    calendars: distinct.map((key) => ({ spans: spans[keys.indexOf(key)] ?? [] })),
    calendarOf: keys.map((key) => distinct.indexOf(key)),
    hoursWords: `have working hours before ${scale.words(lastDate)}`,
  }
}

function workingSpans(
  calendar: ReturnType<typeof personCalendar>,
  scale: TickScale,
  lastDate: string,
): Calendar['spans'] {
  const spans: { from: number; to: number }[] = []
  for (let index = dateToDayIndex(scale.today); index <= dateToDayIndex(lastDate); index += 1)
    for (const { startMs, endMs } of calendar.day(index).spans) {
      const from = Math.max(0, scale.from(startMs))
      const to = Math.floor((endMs - scale.origin) / TICK_MS)
      const last = spans.at(-1)
      if (to <= from) continue
      if (last?.to === from) last.to = to
      else spans.push({ from, to })
    }
  return spans
}

function endOfDay(tick: number, scale: TickScale): number {
  return tick === Infinity ? -1 : scale.dayEnd(scale.dateOf(tick))
}
