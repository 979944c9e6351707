import type { CarState } from '../car.ts'
import { REWORK_CAUSES, type ReworkCause, type WorkTarget } from '../facts/shapes.ts'
import { timeSpanSchema, type LoggedOn, type TimeSpan } from '../facts/time-facts.ts'
import { GATES, type Gate } from '../gates.ts'
import { entryIdSchema, type CarId } from '../ids.ts'
import type { Result } from '../refusal.ts'
import { nameSchema, optionalNoteSchema } from '../text/safe-text.ts'
import { instantToIso, localToInstant } from '../time/zone.ts'
import { readDate, readNumber, readTime } from './cells.ts'
import { needed, oneOf, optional, readWith, type LineProblem, type ReadLine, type RowOf } from './columns.ts'
import { findCar, standingRepairs } from './import-repairs.ts'
import {
  createCommand,
  findByName,
  found,
  lineWithProblems,
  planEach,
  type Found,
  type ImportContext,
  type ImportPlan,
  type PlannedLine,
} from './import-plan.ts'

const text = (name: string) => optional<string | null>(name, null, (cell) => readWith(nameSchema, cell))

export const hoursColumns = {
  person: needed('person', nameSchema),
  date: { ...needed('date', nameSchema), read: readDate },
  hours: optional<number | null>('hours', null, readNumber),
  from: optional<string | null>('from', null, readTime),
  to: optional<string | null>('to', null, readTime),
  shellNumber: text('shell number'),
  repair: text('repair'),
  gate: optional<Gate | null>('gate', null, oneOf(GATES)),
  task: text('task'),
  work: text('workshop work'),
  cause: optional<ReworkCause | null>('rework cause', null, oneOf(REWORK_CAUSES)),
  note: optional('note', '', (cell) => readWith(optionalNoteSchema, cell)),
}

type HoursRow = RowOf<typeof hoursColumns>

/** One time entry a line, on a gate, a task or the workshop itself, as a day's hours or from a time to a time. */
export function planHours(lines: readonly ReadLine<HoursRow>[], context: ImportContext): ImportPlan {
  return planEach(lines, (line, row) => planEntry(line, row, context))
}

function planEntry(line: number, row: HoursRow, context: ImportContext): PlannedLine {
  const person = findPerson(line, row.person, context)
  const time = readSpan(line, row, context.workshop.zone)
  const on = findWork(line, row, context)
  if (!person.ok || !time.ok || !on.ok)
    return lineWithProblems([person, time, on].flatMap((each) => (each.ok ? [] : [each.problem])))
  const command = createCommand(context, `${line}-h`, 'logTime', on.value.carId, {
    entryId: entryIdSchema.parse(`${context.importId}-${line}`),
    personId: person.value.id,
    on: on.value.on,
    // Hot work of the past needs no fire watch any more.
    hotWork: false,
    cause: row.cause,
    time: time.value,
    shares: null,
    note: row.note,
  })
  const when = row.hours === null ? `${row.from} to ${row.to}` : `${row.hours} h`
  return {
    summary: `${row.person}, ${row.date}, ${when}: ${on.value.words}`,
    problems: [],
    commands: [command],
    links: [],
  }
}

function findPerson(line: number, name: string, { workshop, nameOf }: ImportContext) {
  return findByName(workshop.people.values(), (person) => nameOf(person.id), name, {
    line,
    column: 'person',
    next: 'Use the name as it stands under People, or add the person first.',
  })
}

/** 'hours', or both 'from' and 'to'. A span that ends past midnight is entered as two days. */
function readSpan(line: number, row: HoursRow, zone: string): Found<TimeSpan> {
  const { date, hours, from, to } = row
  const problem = spanProblem(line, row)
  if (problem !== null) return { ok: false, problem }
  const instant = (time: string | null) => instantToIso(localToInstant(date, time ?? '', zone), zone)
  const span =
    hours === null ? { kind: 'span', start: instant(from), end: instant(to) } : { kind: 'day', date, hours }
  return problemOn(line, hours === null ? 'to' : 'hours', readWith(timeSpanSchema, span))
}

function spanProblem(line: number, { hours, from, to }: HoursRow): LineProblem | null {
  const next = "Fill in 'hours', or both 'from' and 'to'."
  if (hours !== null && (from !== null || to !== null))
    return { line, column: 'hours', message: 'There are hours and times as well.', next }
  if (hours === null && (from === null || to === null))
    return { line, column: 'hours', message: 'It is not said how long the work took.', next }
  if (from !== null && to !== null && from >= to) {
    return {
      line,
      column: 'to',
      message: `The work ends at ${to}, not after it starts at ${from}.`,
      next: 'Correct the times; enter work past midnight as two lines, one for each day.',
    }
  }
  return null
}

interface FoundWork {
  readonly carId: CarId | null
  readonly on: LoggedOn
  readonly words: string
}

function findWork(line: number, row: HoursRow, context: ImportContext): Found<FoundWork> {
  const { shellNumber, repair, gate, task, work } = row
  if (work !== null && shellNumber === null && repair === null && gate === null && task === null)
    return found({ carId: null, on: { kind: 'workshop', what: work }, words: work })
  if (work !== null || shellNumber === null) return { ok: false, problem: noWork(line) }
  const car = findCar(line, shellNumber, context)
  if (!car.ok) return car
  const target = findTarget(line, row, car.value)
  if (!target.ok) return target
  return found({
    carId: car.value.id,
    on: { kind: 'work', targets: [target.value] },
    words: `${car.value.shellNumber}, ${task ?? `${repair}, ${gate}`}`,
  })
}

function findTarget(line: number, { repair, gate, task }: HoursRow, car: CarState): Found<WorkTarget> {
  if (task !== null && repair === null && gate === null) {
    const next = 'Use the name of a task of this car.'
    const match = findByName(car.tasks.values(), (each) => each.plan.name, task, {
      line,
      column: 'task',
      next,
    })
    return match.ok ? found({ kind: 'task', taskId: match.value.id }) : match
  }
  if (task !== null || repair === null || gate === null) return { ok: false, problem: noWork(line) }
  const next = 'Use the name of a repair of this car.'
  const match = findByName(standingRepairs(car), (each) => each.name, repair, {
    line,
    column: 'repair',
    next,
  })
  return match.ok ? found({ kind: 'gate', repairId: match.value.id, gate }) : match
}

function noWork(line: number): LineProblem {
  return {
    line,
    column: null,
    message: 'It is not clear what the hours were worked on.',
    next: "Fill in 'shell number' with 'repair' and 'gate', or with 'task', or 'workshop work' alone.",
  }
}

function problemOn<T>(line: number, column: string, result: Result<T>): Found<T> {
  if (result.ok) return result
  const { message, next } = result.refusal
  return { ok: false, problem: { line, column, message, next } }
}
