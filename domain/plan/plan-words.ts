import type { Moment } from '../car.ts'
import type { BayId, CarId, PersonId } from '../ids.ts'
import { joinWords } from '../text/words.ts'
import { addDays, daysBetween } from '../time/local-date.ts'
import { instantToLocal, localDateOf } from '../time/zone.ts'
import type { Plan, PlannedMove, PlannedStay, PlannedWork } from './plan.ts'

/** Whose plan is told. */
export type PlanOf =
  | { readonly kind: 'person'; readonly personId: PersonId }
  | { readonly kind: 'bay'; readonly bayId: BayId }
  | { readonly kind: 'car'; readonly carId: CarId }

/** What the words need beside the plan. */
export interface PlanTelling {
  /** IANA zone of the local days. */
  readonly zone: string
  readonly names: {
    readonly car: (id: CarId) => string
    readonly bay: (id: BayId) => string
    readonly person: (id: PersonId) => string
    /** 'Sill, left: welded' */
    readonly work: (work: Pick<PlannedWork, 'carId' | 'target'>) => string
  }
  /** Whether a person works on a local date: work that pauses is not told on other days. */
  readonly worksOn: (person: PersonId, date: string) => boolean
}

export interface PlanLine {
  /** YYYY-MM-DD */
  readonly date: string
  readonly entries: readonly PlanEntry[]
}

/** One piece of the plan on one day; a piece that pauses over a night stands on each of its days. */
export interface PlanEntry {
  readonly kind: 'work' | 'move' | 'stay'
  /** Of the whole piece, whatever the day. */
  readonly start: Moment
  readonly finish: Moment
  /** What of the piece falls on the day. */
  readonly part: PlanPart
  /** 'Sill, left: welded', 'Move in from Bay 1', 'In Bay 3' */
  readonly title: string
  readonly carId: CarId
  readonly car: string
  /** Where it is done; '' when it needs no bay. */
  readonly place: string
  /** Who does it; in the plan of a person, who else. */
  readonly people: readonly string[]
  /** Why it starts then and not before; '' where there is nothing to say. */
  readonly why: string
  /** 'pinned to its people and its day', 'pinned by a booking', or ''. */
  readonly pinned: string
  readonly begun: boolean
  /** Person-hours that were left; null for what is no gate or task. */
  readonly hours: number | null
}

export type PlanPart = 'whole' | 'begins' | 'goes on' | 'ends'

/** The plan of one person, bay or car in words: the days that have something, each in order of time. */
export function planLines(plan: Plan, of: PlanOf, telling: PlanTelling): readonly PlanLine[] {
  const byDate = Map.groupBy(
    planPieces(plan, of, telling).flatMap((piece) => onItsDays(piece, telling)),
    ({ date }) => date,
  )
  return [...byDate]
    .map(([date, all]) => ({ date, entries: all.map(({ entry }) => entry).toSorted(byTime) }))
    .toSorted((a, b) => (a.date < b.date ? -1 : 1))
}

/** A piece of the plan, told once, whatever days it takes. */
export interface PlanPiece {
  readonly source:
    | { readonly kind: 'work'; readonly work: PlannedWork }
    | { readonly kind: 'move'; readonly move: PlannedMove }
    | { readonly kind: 'stay'; readonly stay: PlannedStay }
  readonly told: Omit<PlanEntry, 'part'>
}

/** The same as {@link planLines}, not parted into days; in order of time. */
export function planPieces(plan: Plan, of: PlanOf, telling: PlanTelling): readonly PlanPiece[] {
  return [
    ...plan.moves.filter((move) => isMoveOf(move, of)).map((move) => tellMove(move, of, telling)),
    ...plan.stays.filter((stay) => isStayOf(stay, of)).map((stay) => tellStay(stay, of, telling)),
    ...plan.work.filter((work) => isWorkOf(work, of)).map((work) => tellWork(work, of, telling)),
  ].toSorted((a, b) => byTime(a.told, b.told))
}

/** When an entry is on its day: '08:00 to 14:30', 'from 14:00, goes on', 'goes on all day', 'goes on until 10:00'. */
export function entryTime({ part, start, finish }: PlanEntry, zone: string): string {
  const [from, to] = [start, finish].map((at) => instantToLocal(at, zone).time)
  switch (part) {
    case 'whole':
      return from === to ? `at ${from}` : `${from} to ${to}`
    case 'begins':
      return `from ${from}, goes on`
    case 'goes on':
      return 'goes on all day'
    case 'ends':
      return `goes on until ${to}`
  }
}

const isWorkOf = (work: PlannedWork, of: PlanOf): boolean =>
  of.kind === 'person'
    ? work.people.includes(of.personId)
    : of.kind === 'bay'
      ? work.bayId === of.bayId
      : work.carId === of.carId

const isMoveOf = (move: PlannedMove, of: PlanOf): boolean =>
  of.kind === 'person'
    ? move.people.includes(of.personId)
    : of.kind === 'bay'
      ? move.to === of.bayId || move.from === of.bayId
      : move.carId === of.carId

/** People do not stand in bays. */
const isStayOf = (stay: PlannedStay, of: PlanOf): boolean =>
  of.kind === 'bay' ? stay.bayId === of.bayId : of.kind === 'car' && stay.carId === of.carId

function tellWork(work: PlannedWork, of: PlanOf, { names }: PlanTelling): PlanPiece {
  const { carId, start, finish, bayId, begun, hours, why } = work
  const told = {
    kind: 'work' as const,
    start,
    finish,
    carId,
    begun,
    hours,
    title: names.work(work),
    car: names.car(carId),
    place: bayId === null ? '' : names.bay(bayId),
    people: namesOf(work.people, of, names),
    why: why.words,
    pinned: pinWords(work),
  }
  return { source: { kind: 'work', work }, told }
}

function tellMove(move: PlannedMove, of: PlanOf, { names }: PlanTelling): PlanPiece {
  const { carId, start, finish, from, to } = move
  const told = {
    kind: 'move' as const,
    start,
    finish,
    carId,
    begun: false,
    hours: null,
    why: '',
    pinned: '',
    title: moveTitle(move, of, names),
    car: names.car(carId),
    place: of.kind === 'bay' && of.bayId === from ? names.bay(from) : names.bay(to),
    people: namesOf(move.people, of, names),
  }
  return { source: { kind: 'move', move }, told }
}

function moveTitle({ from, to }: PlannedMove, of: PlanOf, names: PlanTelling['names']): string {
  if (of.kind === 'bay' && of.bayId === from) return `Move out to ${names.bay(to)}`
  if (from === null) return of.kind === 'bay' ? 'Bring in' : `Bring in to ${names.bay(to)}`
  return of.kind === 'bay'
    ? `Move in from ${names.bay(from)}`
    : `Move from ${names.bay(from)} to ${names.bay(to)}`
}

function tellStay(stay: PlannedStay, of: PlanOf, { names }: PlanTelling): PlanPiece {
  const { carId, from, to, bayId, bookingId } = stay
  const place = names.bay(bayId)
  const told = {
    kind: 'stay' as const,
    start: from,
    finish: to,
    carId,
    place,
    begun: false,
    hours: null,
    people: [],
    why: '',
    title: of.kind === 'bay' ? 'Stands here' : `In ${place}`,
    car: names.car(carId),
    pinned: bookingId === null ? '' : 'pinned by a booking',
  }
  return { source: { kind: 'stay', stay }, told }
}

function namesOf(people: readonly PersonId[], of: PlanOf, names: PlanTelling['names']): readonly string[] {
  return people.filter((id) => of.kind !== 'person' || id !== of.personId).map(names.person)
}

function pinWords({ pinned: { people, day } }: PlannedWork): string {
  const to = [...(people ? ['its people'] : []), ...(day ? ['its day'] : [])]
  return to.length === 0 ? '' : `pinned to ${joinWords(to)}`
}

interface Dated {
  readonly date: string
  readonly entry: PlanEntry
}

function onItsDays({ source, told }: PlanPiece, telling: PlanTelling): readonly Dated[] {
  const first = localDateOf(told.start, telling.zone)
  const last = localDateOf(Math.max(told.start, told.finish - 1), telling.zone)
  if (first === last) return [{ date: first, entry: { ...told, part: 'whole' } }]
  return [
    { date: first, entry: { ...told, part: 'begins' } },
    ...daysOn(source, first, last, telling).map((date) => ({
      date,
      entry: { ...told, part: 'goes on' as const },
    })),
    { date: last, entry: { ...told, part: 'ends' } },
  ]
}

/**
 * The days between the first and the last on which a piece goes on: where everybody on it works, and every day for what
 * needs nobody. A stay is told when it begins and when it ends: in between a list of days says nothing.
 */
function daysOn(
  source: PlanPiece['source'],
  first: string,
  last: string,
  { worksOn }: PlanTelling,
): readonly string[] {
  if (source.kind === 'stay') return []
  const { people } = source.kind === 'work' ? source.work : source.move
  return Array.from({ length: daysBetween(first, last) - 1 }, (_, index) => addDays(first, index + 1)).filter(
    (date) => people.every((person) => worksOn(person, date)),
  )
}

const byTime = (a: Pick<PlanEntry, 'start' | 'finish'>, b: Pick<PlanEntry, 'start' | 'finish'>): number =>
  a.start - b.start || a.finish - b.finish
