import type { CarState, VisitState } from '../car.ts'
import type { RepairId } from '../ids.ts'
import { bookingViews } from './booking-view.ts'
import { currentVisit } from './car-header.ts'
import { carLine } from './car-line.ts'
import { coverViews } from './cover-view.ts'
import { dimensionViews } from './dimension-view.ts'
import { entryViews } from './entry-view.ts'
import { fitGroupView } from './fit-group-view.ts'
import { photoView } from './photo-view.ts'
import { carFaults, repairCard } from './repair-card.ts'
import { sectionView } from './section-view.ts'
import type { PhotoView, RepairCard, SectionView } from './shared-views.ts'
import { taskView } from './task-view.ts'
import { variationView } from './variation-view.ts'
import { createViewContext, type ViewContext, type ViewInput } from './view-context.ts'
import type { CarView, EstimateLineView } from './view-shapes.ts'
import { repairName, targetWords } from './work-words.ts'

/** One car: its closing map, tasks, photos, entries, decisions and dimensions. The estimate is the current visit's. */
export function carView({ car, ...input }: ViewInput & { readonly car: CarState }): CarView {
  const context = createViewContext(input)
  const repairs = [...car.repairs.values()]
  const sections = repairs.map((repair): [RepairId, SectionView] => [repair.id, sectionView(car, repair)])
  return {
    header: carLine(car, context),
    repairs: repairs.map((repair) => repairCard(car, repair, context)).toSorted(byDepth),
    covers: coverViews(car, context),
    fitGroups: [...car.fitGroups.values()].map((group) => fitGroupView(car, group, context)),
    sections: Object.fromEntries(sections),
    tasks: [...car.tasks.values()].map((task) => taskView(car, task, context)),
    holds: handHoldViews(car),
    faults: carFaults(car).map(({ words }) => words),
    fixturePlanned: car.fixturePlanned,
    safety: SAFETY.map((item) => ({ item, stands: car.safety[item] })),
    dimensions: dimensionViews(car, context),
    photos: carPhotos(car, context),
    entries: entryViews(car, [...car.entries.values()], context),
    variations: [...car.variations.values()]
      .map((variation) => variationView(car, variation, context))
      .toReversed(),
    bookings: bookingViews(car, context),
    lifts: [...car.lifts.values()]
      .filter(({ ended }) => ended === null)
      .map(({ repairIds, how, stamp }) => ({
        repairs: repairIds.map((id) => repairName(car, id)),
        how,
        since: stamp.happened,
      })),
    visits: visitViews(car),
    estimate: estimateViews(car, currentVisit(car)),
  }
}

const SAFETY = ['bracing', 'battery', 'fuel'] as const

/** From the outside in; repairs at one depth as they were added, retired ones last. */
function byDepth(a: RepairCard, b: RepairCard): number {
  return Number(a.retired) - Number(b.retired) || a.depth - b.depth
}

function handHoldViews(car: CarState): CarView['holds'] {
  return [...car.holds.values()]
    .filter(({ cleared }) => cleared === null)
    .map(({ id, words, clears, expected, scope }) => {
      const on = scopeWords(car, scope)
      return { holdId: id, words, clears, expected, on }
    })
}

type Scope = (ReturnType<CarState['holds']['get']> & object)['scope']

/** What a hold set by hand is on: 'the car', 'Boot floor', 'Boot floor: welded' or a task. */
function scopeWords(car: CarState, scope: Scope): string {
  switch (scope.kind) {
    case 'car':
      return 'the car'
    case 'repair':
      return repairName(car, scope.repairId)
    case 'gate':
    case 'task':
      return targetWords(car, scope)
  }
}

/** The latest first. */
function carPhotos(car: CarState, { nameOf }: ViewContext): readonly PhotoView[] {
  return [...car.attachments.values()]
    .toSorted((a, b) => b.countsAt - a.countsAt || b.stamp.number - a.stamp.number)
    .map((attachment) => photoView(car, attachment, nameOf))
}

function visitViews(car: CarState): CarView['visits'] {
  return [...car.visits.values()]
    .map(({ id, opened, kind, status, ownerId, insurerId, charge }) => {
      const current = id === car.currentVisit
      return { visitId: id, kind, status, opened: opened.happened, current, ownerId, insurerId, charge }
    })
    .toReversed()
}

function estimateViews(car: CarState, visit: VisitState | null): readonly EstimateLineView[] {
  return [...(visit?.lines.values() ?? [])].map((line) => ({
    lineId: line.lineId,
    repairId: line.target.kind === 'gate' ? line.target.repairId : null,
    taskId: line.target.kind === 'task' ? line.target.taskId : null,
    gate: line.target.kind === 'gate' ? line.target.gate : null,
    what: targetWords(car, line.target),
    hours: line.hours,
    agreed: line.agreed + line.moved,
    baseline: line.baseline.agreed,
    payer: line.payer,
    accepted: line.accepted !== null,
  }))
}
