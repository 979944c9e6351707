import { createHash } from 'node:crypto'
import { bringInRefusal } from '../domain/bring-in/bring-in-refusal.ts'
import { idsIn, replaceIds, type IdsIn } from '../domain/bring-in/ids-in.ts'
import type { CarState, Moment } from '../domain/car.ts'
import type { Contact } from '../domain/commands/decide.ts'
import { fact, type Fact, type NewFact, type PayloadOf } from '../domain/facts.ts'
import type { CarId, CommandId, DeviceId, PersonId } from '../domain/ids.ts'
import { refuse } from '../domain/refusal.ts'
import { instantToIso } from '../domain/time/zone.ts'
import { carView } from '../domain/views/car-view.ts'
import { recordView } from '../domain/views/record-view.ts'
import type { WorkshopState } from '../domain/workshop.ts'
import { findAnswer, rememberAnswer, type Accepted } from './answers.ts'
import { appendFacts } from './append-facts.ts'
import { headOf, lastLine } from './chains.ts'
import { nameOnWriter, writeContacts } from './contacts.ts'
import type { Database } from './database.ts'
import { deriveCar } from './derived.ts'
import { deriveCarVariance } from './derive-variance.ts'
import { type CommandAnswer, Refused, refusalOf } from './execute-command.ts'
import { inTransaction, type Handle } from './handle.ts'
import { carsHere, takenIds } from './ids-here.ts'
import { photoRowOn } from './photo-rows.ts'
import { currentCar, currentWorkshop, forget, takeIn } from './state-cache.ts'

/** A car that came with its file, whose chain is verified and whose photos and journal are stored already. */
export interface CarToBringIn {
  /** Made by the screen, so that bringing it in twice is harmless. */
  readonly id: CommandId
  readonly by: PersonId
  readonly device: DeviceId | null
  readonly now: Moment
  readonly said: PayloadOf<'carBroughtIn'>
  /** As {@link takeOver} leaves them. */
  readonly facts: readonly Fact[]
  /** People and parties by the ids of the file. */
  readonly contacts: ReadonlyMap<string, Contact>
  /** Another than the car has; null keeps that. */
  readonly shellNumber: string | null
}

/**
 * Records a car of another workshop as one of this one, in one transaction: each fact anew at the end of the journal, as it was
 * stated there, then one that closes them. The same order again gets its first answer. Ids that mean something else here are
 * replaced wherever they stand.
 */
export function bringInCar(db: Database, order: CarToBringIn): CommandAnswer {
  const [first] = order.facts
  if (first?.kind !== 'carAdded') throw new Error('A car that is brought in begins with itself.')
  const { carId } = first.payload
  const { said, shellNumber, id, by } = order
  const command = {
    id,
    by,
    carId: null,
    kind: 'bringInCar',
    payload: { manifest: said.manifest, shellNumber },
  }
  const { finished } = db.cache
  try {
    const brought = inTransaction(db.writer, () => {
      const earlier = findAnswer(db.writer, command, db.codeKey)
      if (earlier.kind === 'same') return earlier.answer
      if (earlier.kind === 'other') throw new Refused(otherContent.refusal)
      const answer = record(db, order, carId)
      rememberAnswer(db.writer, command, db.codeKey, answer)
      return answer
    })
    db.noteEnd()
    return brought
  } catch (error) {
    forget(db.cache, [carId, null], finished)
    const refusal = refusalOf(error)
    if (refusal) return { ok: false, refusal }
    throw error
  }
}

function record(db: Database, order: CarToBringIn, carId: CarId): Accepted {
  const { writer, cache } = db
  const workshop = currentWorkshop(writer, cache)
  requireRoom(db, order, carId, workshop)
  const ids = otherIds(db, order, workshop)
  const facts = ids.size === 0 ? order.facts : order.facts.map((each) => replaceIds(each, ids))
  const known = idsIn(facts)
  const parties = addParties(writer, order, known, workshop)
  const recorded = [...recordAgain(writer, order, facts, carId), ...close(writer, order, carId, workshop)]
  writeContacts(writer, contactsOf(order, ids, known, carNameIn(facts), workshop))
  const car = takeIn(writer, cache, carId, recorded)
  deriveCar(writer, car, recorded)
  deriveCarVariance(writer, cache, car, recorded)
  requirePhotos(writer, car)
  requireShown(db, car, recorded, order.now)
  const numbers = [...parties, ...recorded].map(({ number }) => number)
  return { ok: true, revision: lastLine(writer)?.number ?? 0, numbers, carId }
}

function requireRoom(
  { writer, cache }: Database,
  { facts, shellNumber, by }: CarToBringIn,
  carId: CarId,
  workshop: WorkshopState,
): void {
  const person = workshop.people.get(by)
  if (person?.active !== true || !person.roles.includes('manager')) throw new Refused(managersOnly.refusal)
  const known = { car: currentCar(writer, cache, carId), ...carsHere(writer), zone: workshop.zone }
  const refusal = bringInRefusal(shellNumber ?? shellNumberIn(facts), known)
  if (refusal) throw new Refused(refusal)
}

/** What the car was called last. */
export function shellNumberIn(facts: readonly Fact[]): string {
  return lastOfCar(facts)?.payload.shellNumber ?? ''
}

const carNameIn = (facts: readonly Fact[]): string => lastOfCar(facts)?.payload.name ?? ''

const lastOfCar = (facts: readonly Fact[]) =>
  facts.findLast((each) => each.kind === 'carAdded' || each.kind === 'carChanged')

/** A new id follows from the file alone, so that the same file always gets the same ones. */
function otherIds(db: Database, order: CarToBringIn, workshop: WorkshopState): ReadonlyMap<string, string> {
  const taken = takenIds(db, idsIn(order.facts), order.contacts, workshop)
  return new Map(taken.map((id) => [id, `came-${digest(`${order.said.head} ${id}`).slice(0, 40)}`]))
}

const digest = (text: string): string => createHash('sha256').update(text).digest('hex')

/** Payers and firms of the car that this workshop does not know yet. */
function addParties(
  writer: Handle,
  order: CarToBringIn,
  { parties }: IdsIn,
  workshop: WorkshopState,
): readonly Fact[] {
  const missing = [...parties].filter(([id]) => !workshop.parties.has(id))
  return appendFacts(
    writer,
    missing.map(([partyId, kind]) => fact('partyAdded', { partyId, kind })),
    { ...ownStamp(order, workshop), carId: null, visitId: null },
  )
}

/** As they were stated there; a void names the new number of what it voids. */
function recordAgain(
  writer: Handle,
  { id: commandId, now }: CarToBringIn,
  facts: readonly Fact[],
  carId: CarId,
): readonly Fact[] {
  const numbers = new Map<number, number>()
  return facts.map((each) => {
    const { visitId, by, device, happened, made } = each
    const said = { carId, visitId, by, device, commandId, happened, made, now }
    const [recorded] = appendFacts(writer, [renumbered(each, numbers)], said)
    if (!recorded) throw new Error('A fact was not recorded.')
    numbers.set(each.number, recorded.number)
    return recorded
  })
}

function renumbered(each: Fact, numbers: ReadonlyMap<number, number>): NewFact {
  if (each.kind !== 'factVoided') return each
  const number = numbers.get(each.payload.number)
  if (number === undefined) throw new Refused(notTogether.refusal)
  return fact('factVoided', { ...each.payload, number })
}

function close(writer: Handle, order: CarToBringIn, carId: CarId, workshop: WorkshopState): readonly Fact[] {
  const { said, shellNumber, facts } = order
  const last = lastOfCar(facts)?.payload
  const renamed =
    shellNumber === null || last === undefined
      ? []
      : [fact('carChanged', { shellNumber, name: last.name, body: last.body, year: last.year })]
  return appendFacts(writer, [fact('carBroughtIn', said), ...renamed], {
    ...ownStamp(order, workshop),
    carId,
    visitId: null,
  })
}

function ownStamp({ id: commandId, by, device, now }: CarToBringIn, { zone }: WorkshopState) {
  const at = instantToIso(now, zone)
  return { by, device, commandId, happened: at, made: at, now }
}

/** Who has a name here keeps it. */
function contactsOf(
  { contacts }: CarToBringIn,
  ids: ReadonlyMap<string, string>,
  { people, parties }: IdsIn,
  carName: string,
  workshop: WorkshopState,
) {
  const came = new Map([...contacts].map(([id, contact]) => [ids.get(id) ?? id, contact]))
  const named = [...people]
    .filter((id) => !workshop.people.has(id))
    .map((id) => ({ id, contact: came.get(id) ?? onlyName('somebody of the other workshop') }))
  const payers = [...parties]
    .filter(([id]) => !workshop.parties.has(id))
    .map(([id, kind]) => ({ id, contact: came.get(id) ?? onlyName(`The ${kind} of ${carName}`) }))
  return [...named, ...payers]
}

/** A photo that is not stored would leave evidence that nobody can look at. */
function requirePhotos(writer: Handle, { attachments }: CarState): void {
  const missing = [...attachments.values()].some(({ sha256 }) => photoRowOn(writer, sha256) === null)
  if (missing) throw new Refused(photoMissing.refusal)
}

const onlyName = (name: string): Contact => ({ name, phone: '', email: '', address: '' })

/** A chain can be whole and still tell what no workshop can have recorded: it must not leave a car that no screen can show. */
function requireShown(db: Database, car: CarState, facts: readonly Fact[], now: Moment): void {
  const workshop = currentWorkshop(db.writer, db.cache)
  const input = { now, workshop, nameOf: nameOnWriter(db.writer) }
  try {
    carView({ ...input, car })
    recordView({ ...input, facts, head: headOf(db.writer, car.id).hash, showsMoney: true })
  } catch {
    throw new Refused(notTogether.refusal)
  }
}

const otherContent = refuse(
  'same-id-other-content',
  'Something else was recorded under this id already.',
  'Choose the file again.',
)
const managersOnly = refuse('not-allowed', 'Only a manager may bring a car in.', 'Ask a manager.')
const photoMissing = refuse(
  'photo',
  'A photo that this car’s record names did not come with its file.',
  'Ask the other workshop to make the car’s file again. Nothing was brought in.',
)
const notTogether = refuse(
  'bad-input',
  'The facts in this file do not go together, though none of them was changed.',
  'Ask the other workshop to check its data, and to make the car’s file again. Nothing was brought in.',
)
