import type { CarState, RepairState } from '../car.ts'
import { type Gate, gateOrder } from '../gates.ts'
import { addHours, targetHours } from '../value/hours.ts'
import { dateIn } from '../value/local-dates.ts'
import { ownVisits } from '../value/own-visits.ts'
import { targetStanding } from '../value/target.ts'
import { stampName, type ViewContext } from '../views/view-context.ts'
import { zoneWords } from '../views/work-words.ts'
import type { Cell, Column, LongTable, Row } from './table.ts'

/**
 * Every gate of every repair, car by car, in the repair's own order; person-hours over all visits of this workshop. A gate that
 * ended without being passed has the day and the person of that.
 */
export function gatesTable(cars: Iterable<CarState>, context: ViewContext): LongTable {
  return { name: 'Gates', columns: COLUMNS, rows: gatesRows(cars, context) }
}

/** Those of a car at once, as it may change before the next row is asked for. */
function* gatesRows(cars: Iterable<CarState>, context: ViewContext): Generator<Row> {
  for (const car of cars)
    yield* [...car.repairs.values()].flatMap((repair) =>
      gateOrder(repair.plan).map((gate) => gateRow(car, repair, gate, context)),
    )
}

const COLUMNS: readonly Column[] = [
  { head: 'Car', kind: 'text' },
  { head: 'Shell number', kind: 'text' },
  { head: 'Repair', kind: 'text' },
  { head: 'Zone', kind: 'text' },
  { head: 'Type', kind: 'text' },
  { head: 'Gate', kind: 'text' },
  { head: 'Status', kind: 'text' },
  { head: 'Done on', kind: 'date' },
  { head: 'Done by', kind: 'text' },
  { head: 'Authorised h', kind: 'hours' },
  { head: 'Earned h', kind: 'hours' },
  { head: 'Spent h', kind: 'hours' },
]

function gateRow(car: CarState, repair: RepairState, gate: Gate, context: ViewContext): Row {
  const { id, plan, typeId } = repair
  const target = { kind: 'gate', repairId: id, gate } as const
  const { authorised, earned, spent } = addHours(
    ownVisits(car).map((visit) => targetHours(car, visit.id, target, context)),
  )
  return [
    car.name,
    car.shellNumber,
    plan.name,
    zoneWords(plan.zone),
    typeId === null ? null : (context.workshop.types.get(typeId)?.plan.name ?? null),
    gate,
    targetStanding(car, target),
    ...doneCells(repair, gate, context),
    authorised,
    earned,
    spent,
  ]
}

function doneCells(repair: RepairState, gate: Gate, { workshop, nameOf }: ViewContext): readonly Cell[] {
  const { done } = repair.gates[gate]
  const stamp = (done ?? repair.retired ?? repair.closedAsFound)?.stamp
  if (stamp === undefined) return [null, null]
  const by = done?.kind === 'passed' ? done.did.map(nameOf).join(', ') : stampName(stamp, nameOf)
  return [dateIn(workshop.zone, stamp.happened), by]
}
