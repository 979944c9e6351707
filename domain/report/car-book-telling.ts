import type { CarState, Moment, Stamp } from '../car.ts'
import type { Contact } from '../commands/decide.ts'
import { type Fact, type FactKind, type FactOf, factsOfKind } from '../facts.ts'
import type { PartyId } from '../ids.ts'
import { carFromFacts } from '../state/car-state.ts'
import { voidedNumbers } from '../state/fact-stamp.ts'
import { moneyWords } from '../text/money-words.ts'
import { dayWords, timeOfDay } from '../text/words.ts'
import { localDateOf } from '../time/zone.ts'
import { recordNames, type RecordNames } from '../views/record-names.ts'
import type { NameOf } from '../views/shared-views.ts'
import { createViewContext, stampName, type ViewContext } from '../views/view-context.ts'
import type { WorkshopState } from '../workshop.ts'
import { numberPhotos, type PhotoNumbers } from './car-book-photos.ts'
import type { FileChoices } from './file-choices.ts'

export interface CarBookInput {
  /** Every fact of the car's chain, in order, voided ones too. */
  readonly facts: readonly Fact[]
  /** SHA-256 of the chain's last line, hexadecimal. */
  readonly head: string
  readonly workshop: WorkshopState
  readonly nameOf: NameOf
  /** Asked for owners and insurers, and only when their contacts may leave. */
  readonly contactOf: (id: PartyId) => Contact | null
  readonly choices: FileChoices
  readonly now: Moment
}

/** All that the chapters of a car's book are told from. */
export interface BookTelling {
  readonly car: CarState
  /** Those that stand; voided ones have a chapter of their own. */
  readonly facts: readonly Fact[]
  readonly allFacts: readonly Fact[]
  readonly context: ViewContext
  readonly names: RecordNames
  readonly choices: FileChoices
  readonly contactOf: CarBookInput['contactOf']
  readonly photos: PhotoNumbers
}

/** Null without a car. */
export function bookTelling(input: CarBookInput): BookTelling | null {
  const { facts, workshop, choices, now, contactOf } = input
  const car = carFromFacts(facts)
  if (car === null) return null
  const nameOf = namesThatMayLeave(input)
  // A book is read in other years than it was written in: every date in it has its year.
  const context = { ...createViewContext({ now, workshop, nameOf }), year: NO_YEAR }
  const voided = voidedNumbers(facts)
  return {
    car,
    facts: facts.filter(({ number }) => !voided.has(number)),
    allFacts: facts,
    context,
    names: recordNames(facts, { ...context, at: LONG_AGO }, choices.prices),
    choices,
    contactOf,
    photos: numberPhotos(car, context),
  }
}

const NO_YEAR = 0
/** Moments are said with their year unless it is that of this one. */
const LONG_AGO = 0

/** Owners and insurers are named by what they are, unless their contacts may leave with the book. */
function namesThatMayLeave({ facts, nameOf, choices }: CarBookInput): NameOf {
  if (choices.contacts) return nameOf
  const payers = new Map<string, string>()
  for (const { kind, payload } of facts) {
    if (kind === 'visitOpened') payers.set(payload.ownerId, 'the owner')
    if ((kind === 'visitOpened' || kind === 'visitChanged') && payload.insurerId)
      payers.set(payload.insurerId, 'the insurer')
  }
  return (id) => payers.get(id) ?? nameOf(id)
}

/** An amount in words, where prices may leave. @param amount minor units */
export const amountWords = ({ context, choices }: BookTelling, amount: number): string =>
  choices.prices ? moneyWords(amount, context.workshop.currency) : 'withheld'

/** The facts of one kind that stand, in order. */
export function factsOf<K extends FactKind>({ facts }: BookTelling, kind: K): readonly FactOf<K>[] {
  return factsOfKind(facts, kind)
}

/** 'Tue 24 Nov 2026, 10:40' */
export function momentOf({ context }: Pick<BookTelling, 'context'>, moment: Moment): string {
  const { zone } = context.workshop
  return `${dayWords(localDateOf(moment, zone), NO_YEAR)}, ${timeOfDay(moment, zone)}`
}

/** 'Tue 24 Nov 2026' */
export function dayOf({ context }: Pick<BookTelling, 'context'>, moment: Moment): string {
  return dayWords(localDateOf(moment, context.workshop.zone), NO_YEAR)
}

/** A local date: 'Tue 24 Nov 2026'. */
export const dateOf = (date: string): string => dayWords(date, NO_YEAR)

export const nameOfStamp = ({ context }: Pick<BookTelling, 'context'>, stamp: Pick<Stamp, 'by'>): string =>
  stampName(stamp, context.nameOf)

/** When it was done as the signer said, and when it was written down: 'Tue 24 Nov 2026, 10:40 (recorded 10:52)'. */
export function statedAt(telling: Pick<BookTelling, 'context'>, { happened, recorded }: Stamp): string {
  const { zone } = telling.context.workshop
  const stated = momentOf(telling, happened)
  const isSameDay = localDateOf(happened, zone) === localDateOf(recorded, zone)
  const later = isSameDay ? timeOfDay(recorded, zone) : momentOf(telling, recorded)
  return `${stated} (recorded ${later})`
}
