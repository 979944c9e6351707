import { ownerWeek, type OwnerWeekInput } from '../../domain/report/owner-week.ts'
import type { OwnerWeek, ReportBlock, ReportSection } from '../../domain/report/owner-week-shapes.ts'
import { visitId, type CarBuilder } from './car-builder.ts'
import { buildWorkshop, nameOf } from './workshop-builder.ts'

const workshop = buildWorkshop()

/** The report on week 48 of 2026 (Mon 23 to Sun 29 Nov), written on its Friday afternoon unless said otherwise. */
export function reportOn(car: CarBuilder, more: Partial<OwnerWeekInput> = {}): OwnerWeek {
  const report = ownerWeek({
    facts: car.facts(),
    visitId: visitId('first'),
    week: { year: 2026, week: 48 },
    now: Date.parse('2026-11-27T15:00:00Z'),
    workshop,
    nameOf,
    words: '',
    photos: null,
    ...more,
  })
  if (report === null) throw new Error('the visit is not known in that week')
  return report
}

export function sectionOf(report: OwnerWeek, heading: string): ReportSection | undefined {
  return report.sections.find((section) => section.heading === heading)
}

/** All that a section says, line by line; empty when it is not there. */
export function linesOf(report: OwnerWeek, heading: string): readonly string[] {
  return sectionOf(report, heading)?.blocks.flatMap(blockLines) ?? []
}

export function blockLines(block: ReportBlock): readonly string[] {
  switch (block.kind) {
    case 'text':
      return [block.text]
    case 'list':
      return block.items
    case 'repair':
    case 'question':
      return [block.title, ...block.texts]
    case 'standing':
      return [block.title, block.text]
    case 'figures':
      return block.rows.map(({ label, figures }) => [label, ...figures].join(' | '))
    case 'plates':
      return []
  }
}
