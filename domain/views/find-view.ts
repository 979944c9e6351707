import type { CarId } from '../ids.ts'
import { type Fit, fitOf, foldWords } from '../text/fold-words.ts'
import type { Party, WorkshopState } from '../workshop.ts'
import type { HeaderFacts } from './car-header.ts'
import type { Found, FoundGroup, FoundKind, FindView } from './find-shapes.ts'
import { SEARCHED_KINDS, type SearchedKind, type SearchedText } from './searched-texts.ts'
import { isOver } from '../visit-over.ts'

/** Shown of each kind. */
export const MOST_FOUND = 5

export interface FindInput {
  /** Folded. */
  readonly words: readonly string[]
  readonly cars: readonly HeaderFacts[]
  readonly workshop: WorkshopState
  /** Null for somebody without a contact. */
  readonly nameOf: (id: string) => string | null
  /** The best texts of a kind in their order, up to `most`, and how many there are; counted up to `counted`. */
  readonly texts: (kind: SearchedKind) => {
    readonly rows: readonly (SearchedText & { readonly sha256: string | null })[]
    readonly total: number
  }
  readonly counted: number
}

/** Everything that has all the words, whole or as beginnings: what has them whole first, then the newest. */
export function findView({ words, cars, workshop, nameOf, texts, counted }: FindInput): FindView {
  if (words.length === 0) return { groups: [] }
  const names = new Map(cars.map(({ id, name }) => [id, name]))
  const ofTexts = SEARCHED_KINDS.map((kind): FoundGroup => {
    const { rows, total } = texts(kind)
    const found = rows.map((row) => textFound(row, names.get(row.carId) ?? ''))
    return { kind, found, more: total - found.length, isAtLeast: total === counted }
  })
  const groups = [
    groupOf('car', bestFirst(words, cars, carTexts), carFound),
    groupOf(
      'owner',
      bestFirst(words, partiesWithCars(workshop, cars, nameOf), ({ name }) => [name]),
      ownerFound,
    ),
    ...ofTexts,
  ]
  return { groups: groups.filter(({ found }) => found.length > 0) }
}

/** Those that fit, the best first; among equals the one that changed last. */
function bestFirst<T extends { readonly revision: number }>(
  words: readonly string[],
  all: readonly T[],
  textsOf: (each: T) => readonly string[],
): readonly T[] {
  const fitting = all.flatMap((each) => {
    const fit = bestFit(words, textsOf(each).map(foldWords))
    return fit === null ? [] : [{ each, fit }]
  })
  return fitting
    .toSorted((a, b) => b.fit - a.fit || b.each.revision - a.each.revision)
    .map(({ each }) => each)
}

/** Words may come from several texts; one of these in full is as good as all of them. */
const bestFit = (words: readonly string[], texts: readonly (readonly string[])[]): Fit | null =>
  texts.some((text) => fitOf(words, text) === 3) ? 3 : fitOf(words, texts.flat())

/** A shell number is typed with its dashes and dots or without. */
const carTexts = ({ name, shellNumber, body, year }: HeaderFacts): readonly string[] => [
  name,
  shellNumber,
  shellNumber.replaceAll(/[./-]/g, ''),
  body,
  String(year ?? ''),
]

interface PartyOfCar {
  readonly party: Party
  readonly name: string
  readonly car: HeaderFacts | null
  readonly revision: number
}

/** Owners once for each of their cars; whoever has none here once. */
function partiesWithCars(
  { parties, erased }: WorkshopState,
  cars: readonly HeaderFacts[],
  nameOf: FindInput['nameOf'],
): readonly PartyOfCar[] {
  const byOwner = Map.groupBy(cars, ({ visit }) => visit?.ownerId)
  return [...parties.values()].flatMap((party): readonly PartyOfCar[] => {
    const name = nameOf(party.id)
    if (name === null || erased.has(party.id)) return []
    const own = byOwner.get(party.id) ?? []
    if (own.length === 0) return [{ party, name, car: null, revision: 0 }]
    return own.map((car) => ({ party, name, car, revision: car.revision }))
  })
}

function groupOf<T>(kind: FoundKind, all: readonly T[], toFound: (each: T) => Found): FoundGroup {
  const found = all.slice(0, MOST_FOUND).map(toFound)
  return { kind, found, more: all.length - found.length, isAtLeast: false }
}

const NOWHERE = {
  carId: null as CarId | null,
  repairId: null,
  attachmentId: null,
  sha256: null,
  line: null,
  at: null,
} satisfies Partial<Found>

const carFound = ({ id, name, shellNumber, body, year, visit }: HeaderFacts): Found => ({
  ...NOWHERE,
  id,
  words: name,
  beside: [year, body, `shell ${shellNumber}`, visit !== null && isOver(visit) ? visit.status : null]
    .filter((part) => part !== null)
    .join(', '),
  carId: id,
})

const ownerFound = ({ party, name, car }: PartyOfCar): Found => ({
  ...NOWHERE,
  id: car === null ? party.id : `${party.id} ${car.id}`,
  words: name,
  beside: car === null ? `${party.kind}, in the contacts` : `${car.name}, shell ${car.shellNumber}`,
  carId: car?.id ?? null,
})

function textFound(
  {
    number,
    kind,
    carId,
    repairId,
    attachmentId,
    at,
    text,
    beside,
    sha256,
  }: SearchedText & {
    readonly sha256: string | null
  },
  carName: string,
): Found {
  return {
    id: String(number),
    words: text,
    beside: [beside, carName].filter((part) => part !== '').join(', '),
    carId,
    repairId,
    attachmentId,
    sha256,
    line: kind === 'note' ? number : null,
    at: kind === 'repair' ? null : at,
  }
}
