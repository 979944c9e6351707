import { localDateOf } from '../time/zone.ts'
import { finishTexts } from './expected-finish.ts'
import type { ReportSection } from './owner-week-shapes.ts'
import { promiseTexts } from './promise.ts'
import { textBlocks } from './report-blocks.ts'
import type { Telling } from './telling.ts'
import { isOver } from '../visit-over.ts'

/** When the car is expected to be done, how that has moved and why, and how the promised date stands. */
export function readySection(telling: Telling): ReportSection | null {
  const { visit } = telling
  if (isOver(visit) || visit.status === 'finished' || visit.status === 'enquired') return null
  const today = localDateOf(telling.at, telling.context.workshop.zone)
  const blocks = textBlocks([...finishTexts(telling, today), promiseTexts(telling, today).join(' ')])
  return blocks.length === 0 ? null : { heading: telling.say.ready.heading, blocks }
}
