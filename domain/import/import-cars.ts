import { contactSchema, type Command } from '../commands/command-shapes.ts'
import { BODIES, carFacts, VISIT_STATUSES, type VisitStatus } from '../facts/car-facts.ts'
import { partyIdSchema, visitIdSchema, type PartyId } from '../ids.ts'
import { ok, refuse, type Result } from '../refusal.ts'
import { nameSchema } from '../text/safe-text.ts'
import { readDate, readNumber } from './cells.ts'
import { needed, oneOf, optional, readWith, shortened, type ReadLine, type RowOf } from './columns.ts'
import {
  createCommand,
  importedCarId,
  lineWithProblems,
  planEach,
  wordKey,
  type ImportContext,
  type ImportPlan,
  type PlannedLine,
} from './import-plan.ts'

const { carAdded, visitOpened } = carFacts
type Charge = (typeof visitOpened)['_output']['charge']

export const carColumns = {
  shellNumber: needed('shell number', carAdded.shape.shellNumber),
  name: needed('name', nameSchema),
  body: { ...needed('body', nameSchema), read: oneOf(BODIES) },
  year: optional<number | null>('year', null, readYear),
  owner: needed('owner', nameSchema),
  phone: optional('phone', '', (cell) => readWith(contactSchema.shape.phone, cell)),
  email: optional('email', '', (cell) => readWith(contactSchema.shape.email, cell)),
  address: optional('address', '', (cell) => readWith(contactSchema.shape.address, cell)),
  promised: optional<string | null>('promised', null, readDate),
  priority: optional('priority', 1, readPriority),
  status: optional<VisitStatus>('status', 'agreed', oneOf(VISIT_STATUSES)),
  charge: optional<Charge>('charge', { by: 'hour' }, readCharge),
}

type CarRow = RowOf<typeof carColumns>

/** A car with its first visit a line; owners who are not in the contact book yet are added once. */
export function planCars(lines: readonly ReadLine<CarRow>[], context: ImportContext): ImportPlan {
  const owners = knownOwners(context)
  return planEach(lines, (line, row) => planCar(line, row, owners, context))
}

/** Party ids by the owner's name; several where people have the same name. */
type Owners = Map<string, readonly PartyId[]>

function knownOwners({ workshop, nameOf }: ImportContext): Owners {
  const owners: Owners = new Map()
  for (const party of workshop.parties.values()) {
    const key = wordKey(nameOf(party.id))
    if (party.kind === 'owner') owners.set(key, [...(owners.get(key) ?? []), party.id])
  }
  return owners
}

function planCar(line: number, row: CarRow, owners: Owners, context: ImportContext): PlannedLine {
  const known = owners.get(wordKey(row.owner)) ?? []
  if (known.length > 1) return lineWithProblems([severalOwners(line, row.owner)])
  const ownerId = known[0] ?? partyIdSchema.parse(`${context.importId}-${line}-o`)
  owners.set(wordKey(row.owner), [ownerId])
  const addOwner = known.length === 0 ? [addParty(line, row, ownerId, context)] : []
  return {
    summary: `${row.shellNumber} ${row.name}, ${row.body}, for ${row.owner}`,
    problems: [],
    commands: [...addOwner, addCar(line, row, ownerId, context)],
    links: [],
  }
}

function addParty(line: number, row: CarRow, partyId: PartyId, context: ImportContext): Command {
  const { owner: name, phone, email, address } = row
  const contact = { name, phone, email, address }
  return createCommand(context, `${line}-o`, 'addParty', null, { partyId, kind: 'owner', contact })
}

function addCar(line: number, row: CarRow, ownerId: PartyId, context: ImportContext): Command {
  const carId = importedCarId(context, line)
  const { shellNumber, name, body, year, status, promised, priority, charge } = row
  return createCommand(context, `${line}-c`, 'addCar', carId, {
    carId,
    shellNumber,
    name,
    body,
    year,
    visit: {
      visitId: visitIdSchema.parse(`${context.importId}-${line}-v`),
      kind: 'agreed',
      ownerId,
      insurerId: null,
      status,
      promised,
      priority,
      charge,
    },
    photo: null,
  })
}

function severalOwners(line: number, owner: string) {
  return {
    line,
    column: 'owner',
    message: `Several owners are called '${owner}', so it is not certain which is meant.`,
    next: 'Add this car by hand, where the owner can be chosen.',
  }
}

function readYear(cell: string): Result<number | null> {
  if (/^\d{4}$/.test(cell)) return readWith(carAdded.shape.year, Number(cell))
  return refuse(
    'bad-input',
    `'${shortened(cell)}' is not a year.`,
    'Write it as 1962, or leave the cell empty.',
  )
}

const PRIORITIES: Readonly<Record<string, number>> = { ordinary: 1, soon: 2, first: 3, 1: 1, 2: 2, 3: 3 }

function readPriority(cell: string): Result<number> {
  const priority = PRIORITIES[cell.toLowerCase()]
  if (priority !== undefined) return ok(priority)
  return refuse('bad-input', `'${shortened(cell)}' is not a priority.`, 'Write ordinary, soon or first.')
}

function readCharge(cell: string): Result<Charge> {
  const words = cell.toLowerCase()
  if (words === 'hour') return ok({ by: 'hour' })
  if (words === 'fixed') return ok({ by: 'fixed' })
  const cap = readNumber(/^capped (.+)$/.exec(words)?.[1] ?? '')
  if (cap.ok) return readWith(visitOpened.shape.charge, { by: 'capped', capHours: cap.value })
  return refuse(
    'bad-input',
    `'${shortened(cell)}' is not a way to charge.`,
    'Write hour, fixed, or capped with its hours, as in: capped 120.',
  )
}
