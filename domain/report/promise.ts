import { localDateOf } from '../time/zone.ts'
import type { ReportSection } from './owner-week-shapes.ts'
import { dateWords, type Telling } from './telling.ts'

/** The promised date, whether it was moved this week, and whether it has gone by. */
export function promiseSection(telling: Telling): ReportSection | null {
  const { visit, before, at, context } = telling
  if (visit.status === 'delivered' || visit.status === 'finished' || visit.status === 'enquired') return null
  const earlier = before?.visits.get(visit.id)
  const was = earlier === undefined ? visit.promised : earlier.promised
  const texts = [promiseText(telling, was), lateText(telling, localDateOf(at, context.workshop.zone))]
  const said = texts.filter((text) => text !== '')
  if (said.length === 0) return null
  return { heading: 'When it will be ready', blocks: said.map((text) => ({ kind: 'text', text }) as const) }
}

function promiseText(telling: Telling, was: string | null): string {
  const { promised } = telling.visit
  if (promised === null)
    return was === null
      ? ''
      : `The promised date, ${dateWords(telling, was)}, was withdrawn this week; a new one is not set yet.`
  const now = dateWords(telling, promised)
  if (was === null) return `The promised date is now set: ${now}.`
  if (was === promised) return `The promised date is ${now}, as before.`
  return `The promised date was moved this week, from ${dateWords(telling, was)} to ${now}.`
}

/** A paused visit is not late. */
function lateText({ visit }: Telling, today: string): string {
  const { promised, status } = visit
  if (promised === null || promised >= today || status === 'paused') return ''
  return 'That day has passed and the car is not finished.'
}
