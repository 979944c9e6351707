import { ownerWeek, type OwnerWeekInput } from '../../domain/report/owner-week.ts'
import type { OwnerWeek, ReportBlock, ReportSection } from '../../domain/report/owner-week-shapes.ts'
import type { ReportChoices } from '../../domain/report/report-choices.ts'
import { buildCar, onGate, repairId, visitId, type CarBuilder } from './car-builder.ts'
import { layerId } from './plans.ts'
import { buildWorkshop, nameOf } from './workshop-builder.ts'

const workshop = buildWorkshop()

/** What a report says where the manager has chosen nothing. */
export const choicesOf = (more: Partial<ReportChoices> = {}): ReportChoices => ({
  words: '',
  photos: null,
  crops: [],
  names: false,
  dates: 'range',
  language: 'en',
  ...more,
})

/** The report on week 48 of 2026 (Mon 23 to Sun 29 Nov), written on its Friday afternoon unless said otherwise. */
export function reportOn(car: CarBuilder, more: Partial<OwnerWeekInput> = {}): OwnerWeek {
  const report = ownerWeek({
    facts: car.facts(),
    visitId: visitId('first'),
    week: { year: 2026, week: 48 },
    now: Date.parse('2026-11-27T15:00:00Z'),
    workshop,
    nameOf,
    choices: choicesOf(),
    expected: null,
    ...more,
  })
  if (report === null) throw new Error('the visit is not known in that week')
  return report
}

/** A car with something in every section of its week: opened, found, worked on, photographed, and a question open. */
export const busyCar = (firstPhoto = 'ground-before-cutting') =>
  buildCar()
    .repair('Boot floor')
    .agree('Boot floor')
    .repair('Sill, left', { loadBearing: true })
    .agree('Sill, left')
    .at('2026-11-10T09:00')
    .photo(firstPhoto, [
      { what: 'gate', repairId: repairId('Boot floor'), gate: 'opened', shows: 'before', layerId: null },
    ])
    .at('2026-11-24T09:00')
    .passTo('Boot floor', 'opened')
    .add('layerGraded', {
      repairId: repairId('Boot floor'),
      layerId: layerId('Boot floor', 'inner'),
      grade: 'holed',
      judgedBy: '',
      remainingMm: null,
      decision: 'patch',
    })
    .log('monday', 'Joss', { kind: 'day', date: '2026-11-23', hours: 6.5 }, [
      onGate('Boot floor', 'fabricated'),
    ])
    .passTo('Boot floor', 'fabricated')
    .photo('new-edge-let-in', [
      { what: 'gate', repairId: repairId('Boot floor'), gate: 'fabricated', shows: 'work', layerId: null },
    ])
    .vary('Second patch', [{ target: onGate('Boot floor', 'welded'), hours: 2.5 }])

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
