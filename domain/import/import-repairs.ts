import { planFromType } from '../catalogue/type-plan.ts'
import type { CarState } from '../car.ts'
import type { Command } from '../commands/command-shapes.ts'
import {
  PAYERS,
  PLACES,
  SIDES,
  type Payer,
  type RepairPlan,
  type ThreePoint,
  type Zone,
} from '../facts/shapes.ts'
import { eachGate, type Gate } from '../gates.ts'
import { repairIdSchema, type RepairId } from '../ids.ts'
import type { Result } from '../refusal.ts'
import { nameSchema } from '../text/safe-text.ts'
import type { RepairType } from '../workshop.ts'
import { readThreePoint } from './cells.ts'
import { needed, oneOf, optional, readWith, type ReadLine, type RowOf } from './columns.ts'
import {
  createCommand,
  findByName,
  lineWithProblems,
  planEach,
  wordKey,
  type ImportContext,
  type ImportPlan,
  type PlannedLine,
} from './import-plan.ts'

const gateHours = (gate: Gate) => optional<ThreePoint | null>(gate, null, readThreePoint)

export const repairColumns = {
  shellNumber: needed('shell number', nameSchema),
  type: needed('repair type', nameSchema),
  name: optional<string | null>('name', null, (cell) => readWith(nameSchema, cell)),
  side: optional<Zone['side'] | null>('side', null, oneOf(SIDES)),
  place: optional<Zone['place'] | null>('place', null, oneOf(PLACES)),
  payer: optional<Payer>('payer', 'owner', oneOf(PAYERS)),
  covers: optional<readonly string[]>('covers', [], readNames),
  opened: gateHours('opened'),
  assessed: gateHours('assessed'),
  fabricated: gateHours('fabricated'),
  sealed: gateHours('sealed'),
  primed: gateHours('primed'),
  'trial-fitted': gateHours('trial-fitted'),
  welded: gateHours('welded'),
  painted: gateHours('painted'),
}

type RepairRow = RowOf<typeof repairColumns>

interface NamedRepair {
  readonly id: RepairId
  readonly name: string
}

/** A repair of a known type on a known car a line; covers name repairs of the same car, here already or in the file. */
export function planRepairs(lines: readonly ReadLine<RepairRow>[], context: ImportContext): ImportPlan {
  const repairs = repairsByShell(lines, context)
  return planEach(lines, (line, row) => planRepair(line, row, repairs, context))
}

function planRepair(
  line: number,
  row: RepairRow,
  repairs: ReadonlyMap<string, readonly NamedRepair[]>,
  context: ImportContext,
): PlannedLine {
  const car = findCar(line, row.shellNumber, context)
  const type = findType(line, row.type, context)
  if (!car.ok || !type.ok)
    return lineWithProblems([car, type].flatMap((each) => (each.ok ? [] : [each.problem])))
  const onCar = repairs.get(wordKey(row.shellNumber)) ?? []
  const covered = row.covers.map((name) =>
    findByName(onCar, (repair) => repair.name, name, {
      line,
      column: 'covers',
      next: 'Use the names of repairs of the same car, with | between them.',
    }),
  )
  const problems = covered.flatMap((each) => (each.ok ? [] : [each.problem]))
  if (problems.length > 0) return lineWithProblems(problems)
  const repairId = importedRepairId(context, line)
  const under = covered.flatMap((each) => (each.ok ? [each.value.id] : []))
  return {
    summary: `${row.name ?? type.value.plan.name} on ${car.value.shellNumber} ${car.value.name}`,
    problems: [],
    commands: [addRepair(line, row, car.value, type.value, context)],
    links: under.map((id, index) =>
      createCommand(context, `${line}-l${index}`, 'linkCover', car.value.id, { over: repairId, under: id }),
    ),
  }
}

function addRepair(
  line: number,
  row: RepairRow,
  car: CarState,
  type: RepairType,
  context: ImportContext,
): Command {
  return createCommand(context, `${line}-r`, 'addRepair', car.id, {
    repairId: importedRepairId(context, line),
    type: { typeId: type.id, version: type.version },
    plan: repairPlan(row, type.plan, importedRepairId(context, line)),
    payer: row.payer,
    covers: [],
    coveredBy: [],
  })
}

/** The repair's own copy of its type; layers, joints and parts get ids of their own. */
function repairPlan(row: RepairRow, plan: RepairPlan, repairId: RepairId): RepairPlan {
  const withHours = (gate: Gate) => ({ ...plan.gates[gate], hours: row[gate] ?? plan.gates[gate].hours })
  return {
    ...planFromType(plan, {
      repairId,
      name: row.name ?? plan.name,
      zone: { side: row.side ?? plan.zone.side, place: row.place ?? plan.zone.place },
    }),
    gates: eachGate(withHours),
  }
}

export function findCar(line: number, shellNumber: string, { cars }: ImportContext) {
  return findByName(cars, (car) => car.shellNumber, shellNumber, {
    line,
    column: 'shell number',
    next: 'Check the shell number, or bring the car in first.',
  })
}

function findType(line: number, name: string, { workshop }: ImportContext) {
  const types = [...workshop.types.values()].filter((type) => !type.retired)
  return findByName(types, (type) => type.plan.name, name, {
    line,
    column: 'repair type',
    next: 'Use the name of a type of the catalogue, or save a type of that name first.',
  })
}

/** Repairs that stand on each car, and those that the file adds, by shell number; once each when it came in before. */
function repairsByShell(lines: readonly ReadLine<RepairRow>[], context: ImportContext) {
  const repairs = new Map<string, NamedRepair[]>()
  for (const car of context.cars) repairs.set(wordKey(car.shellNumber), standingRepairs(car))
  for (const each of lines) {
    if (!each.ok) continue
    const { name, type, shellNumber } = each.row
    const onCar = repairs.get(wordKey(shellNumber))
    const id = importedRepairId(context, each.line)
    if (onCar?.every((repair) => repair.id !== id)) onCar.push({ id, name: name ?? type })
  }
  return repairs
}

export function standingRepairs(car: CarState): NamedRepair[] {
  return [...car.repairs.values()]
    .filter((repair) => repair.retired === null)
    .map(({ id, plan }) => ({ id, name: plan.name }))
}

function importedRepairId(context: ImportContext, line: number): RepairId {
  return repairIdSchema.parse(`${context.importId}-${line}`)
}

function readNames(cell: string): Result<readonly string[]> {
  const names = cell.split('|').map((name) => name.trim())
  return { ok: true, value: names.filter((name) => name !== '') }
}
