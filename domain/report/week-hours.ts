import type { EntryState } from '../car.ts'
import { entryDate, entryHours, entryPieces, visitEntries } from '../value/entry-hours.ts'
import { carHours, visitFigures } from '../value/hours.ts'
import type { ReworkCause, WorkTarget } from '../facts/shapes.ts'
import type { PersonId } from '../ids.ts'
import type { FigureRow, ReportBlock, ReportSection } from './owner-week-shapes.ts'
import { likelyHoursTexts } from './likely-hours.ts'
import { textBlocks } from './report-blocks.ts'
import { isChargedByHours, type Telling } from './telling.ts'

/** Hours of this week and to date against what was agreed; only where the visit is charged by its hours. */
export function hoursSection(telling: Telling): ReportSection | null {
  const { visit, car, context, say } = telling
  const { hours } = say.figures
  if (!isChargedByHours(telling)) return null
  const rows = hourRows(telling)
  if (rows.length === 0) return null
  const { authorised, waiting } = carHours(car, visit.id, context)
  const total = {
    label: say.hours.allWork,
    figures: [hours(weekHours(telling)), hours(hoursToDate(telling)), hours(authorised)],
    isTotal: true,
  }
  const texts = [
    capText(telling),
    waiting > 0 ? say.hours.waiting(hours(waiting)) : '',
    ...likelyHoursTexts(telling, { authorised, waiting }),
    payerText(telling),
  ]
  const table: ReportBlock = {
    kind: 'figures',
    head: ['', say.hours.thisWeek, say.hours.toDate, say.hours.agreed],
    rows: [...rows, total],
  }
  return {
    heading: say.hours.heading,
    blocks: [table, ...textBlocks(texts)],
  }
}

/** Person-hours worked in the week. */
export function weekHours(telling: Telling): number {
  return sum(entriesOfWeek(telling).map((entry) => entryHours(entry, telling.context)))
}

/** Person-hours worked in the visit up to the end of the week. */
function hoursToDate(telling: Telling): number {
  return sum(entriesToDate(telling).map((entry) => entryHours(entry, telling.context)))
}

/** Hours of the week on gates or tasks that had been passed before. */
export function weekRework(telling: Telling): number {
  const pieces = entriesOfWeek(telling).flatMap((entry) => entryPieces(telling.car, entry, telling.context))
  return sum(pieces.filter(({ rework }) => rework !== null).map((piece) => piece.hours))
}

/** Of them those with a stated cause. */
export function reworkCauses(telling: Telling): ReadonlyMap<ReworkCause, number> {
  const causes = new Map<ReworkCause, number>()
  const pieces = entriesOfWeek(telling).flatMap((entry) => entryPieces(telling.car, entry, telling.context))
  for (const { rework, hours: spent } of pieces)
    if (rework !== null && rework !== 'not stated') causes.set(rework, (causes.get(rework) ?? 0) + spent)
  return causes
}

/** Ids of the repairs and tasks that people worked on in the week. */
export function workedOn(telling: Telling): ReadonlySet<string> {
  return new Set(entriesOfWeek(telling).flatMap(({ on }) => (on.kind === 'work' ? on.targets.map(idOf) : [])))
}

/** Who worked on a repair or task in the week, in the order of their first entry. */
export function workersOn(telling: Telling, id: string): readonly PersonId[] {
  const entries = entriesOfWeek(telling).filter(
    ({ on }) => on.kind === 'work' && on.targets.some((target) => idOf(target) === id),
  )
  return [...new Set(entries.map(({ personId }) => personId))]
}

const idOf = (target: WorkTarget): string => (target.kind === 'gate' ? target.repairId : target.taskId)

function entriesToDate({ car, visit, week, context }: Telling): readonly EntryState[] {
  return visitEntries(car, visit.id).filter((entry) => entryDate(entry, context.workshop.zone) <= week.sunday)
}

function entriesOfWeek(telling: Telling): readonly EntryState[] {
  const { week, context } = telling
  return entriesToDate(telling).filter((entry) => entryDate(entry, context.workshop.zone) >= week.monday)
}

/** One row for each repair or task that was worked on this week. */
function hourRows(telling: Telling): readonly FigureRow[] {
  const { car, visit, context, say } = telling
  const { hours } = say.figures
  const ofWeek = hoursById(telling, entriesOfWeek(telling))
  const toDate = hoursById(telling, entriesToDate(telling))
  if (toDate.size === 0) return []
  const agreed = new Map<string, number>()
  for (const { target, hours: figure } of visitFigures(car, visit.id, context).values())
    agreed.set(idOf(target), (agreed.get(idOf(target)) ?? 0) + figure.authorised)
  const named = [...car.repairs.values(), ...car.tasks.values()].filter(({ id }) => ofWeek.has(id))
  return named.map(({ id, plan }) => ({
    label: plan.name,
    figures: [hours(ofWeek.get(id) ?? 0), hours(toDate.get(id) ?? 0), hours(agreed.get(id) ?? 0)],
    isTotal: false,
  }))
}

function hoursById(telling: Telling, entries: readonly EntryState[]): ReadonlyMap<string, number> {
  const sums = new Map<string, number>()
  for (const entry of entries)
    for (const { target, hours: part } of entryPieces(telling.car, entry, telling.context))
      sums.set(idOf(target), (sums.get(idOf(target)) ?? 0) + part)
  return sums
}

function capText({ visit, say }: Telling): string {
  return visit.charge.by === 'capped' ? say.hours.capped(say.figures.hours(visit.charge.capHours)) : ''
}

/** Who else pays for some of it: the figures take in everybody's. */
function payerText({ visit, say }: Telling): string {
  const payers = new Set([...visit.lines.values()].map(({ payer }) => payer))
  const others = (['insurer', 'workshop'] as const).filter((payer) => payers.has(payer))
  return others.length === 0 ? '' : say.hours.alsoPaid(others)
}

const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0)
