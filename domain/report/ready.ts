import { localDateOf } from '../time/zone.ts'
import { finishTexts } from './expected-finish.ts'
import type { ReportSection } from './owner-week-shapes.ts'
import { promiseTexts } from './promise.ts'
import type { Telling } from './telling.ts'

/** When the car is expected to be done, how that has moved and why, and how the promised date stands. */
export function readySection(telling: Telling): ReportSection | null {
  const { status } = telling.visit
  if (status === 'delivered' || status === 'finished' || status === 'enquired') return null
  const today = localDateOf(telling.at, telling.context.workshop.zone)
  const texts = [...finishTexts(telling, today), promiseTexts(telling, today).join(' ')].filter(
    (text) => text !== '',
  )
  if (texts.length === 0) return null
  return {
    heading: telling.say.ready.heading,
    blocks: texts.map((text) => ({ kind: 'text', text }) as const),
  }
}
