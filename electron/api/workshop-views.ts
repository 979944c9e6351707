import { contactBook } from '../../db/contacts.ts'
import type { Device } from '../../db/devices.ts'
import type { ReadDatabase } from '../../db/database.ts'
import { readEpoch } from '../../db/epoch.ts'
import { checkHostClock } from '../../db/host-clock.ts'
import { lastNumber } from '../../db/journal.ts'
import { hasRestingCars, readCarsOfToday, readWorkshop } from '../../db/reads.ts'
import { readSetting } from '../../db/settings.ts'
import type { Moment } from '../../domain/car.ts'
import type { Contact } from '../../domain/commands/decide.ts'
import type { Role } from '../../domain/facts/workshop-facts.ts'
import type { PartyId, PersonId } from '../../domain/ids.ts'
import type { BuiltFrom } from '../../domain/program-version.ts'
import { firstStepsView, type FirstStepsView } from '../../domain/views/first-steps-view.ts'
import type { Bay, Overtime, Party, Person, RepairType, WorkshopState } from '../../domain/workshop.ts'
import type { ApiServices } from './api-services.ts'
import { hasManagerCode } from './check-proof.ts'
import { isManagerHere } from './manager-here.ts'
import type { Asker } from './pairing.ts'

/** What every screen knows: the workshop in short, who is there to act and who is signed in on this device. */
export interface SessionView {
  readonly setUp: boolean
  readonly demo: boolean
  readonly workshop: string
  readonly currency: string
  /** IANA zone of all dates. */
  readonly zone: string
  readonly people: readonly {
    readonly id: PersonId
    readonly name: string
    readonly roles: readonly Role[]
    readonly skills: readonly string[]
    readonly active: boolean
  }[]
  /** Who gave their code on this device and has not left it since. */
  readonly signedIn: PersonId | null
  readonly device: Pick<Device, 'id' | 'name'>
  /** This screen may set the workshop up. */
  readonly isHostsOwn: boolean
  /** False in a workshop that was taken in, until a manager has chosen a code in the host's own window. */
  readonly hasManagerCode: boolean
  /** What still leads to the first signed gate; null once that is there. */
  readonly firstSteps: FirstStepsView | null
  readonly now: Moment
  /** The journal number that this answer shows; to follow revisions from. */
  readonly revision: number
  /** Another one since the last answer: the host goes on from a copy, so read everything anew and send again what is kept. */
  readonly epoch: string
  /** The journal number up to which a verified copy holds everything; null without one. */
  readonly copiedTo: number | null
  /** What the host was made from, to be named when something is reported. */
  readonly program: BuiltFrom
}

/** The workshop itself, for the screens that set it up. Contacts are shown to a signed-in manager only. */
export interface WorkshopView {
  readonly revision: number
  readonly name: string
  readonly zone: string
  readonly currency: string
  readonly week: WorkshopState['week']
  readonly holidays: WorkshopState['holidays']
  readonly settings: WorkshopState['settings']
  readonly planning: WorkshopState['planning']
  readonly fixtures: WorkshopState['fixtures']
  readonly overtime: readonly Overtime[]
  readonly people: readonly (Person & { readonly name: string; readonly contact: Contact | null })[]
  readonly parties: readonly (Party & { readonly name: string; readonly contact: Contact | null })[]
  readonly bays: readonly Bay[]
  /** What is wrong with the host's clock, in words. */
  readonly clock: string | null
}

export interface CatalogueView {
  readonly revision: number
  readonly types: readonly RepairType[]
}

/** What every screen asks for first. */
export function sessionView({ deps, sessions }: ApiServices, asker: Asker): SessionView {
  const { db, now } = deps
  const workshop = readWorkshop(db)
  const { nameOf } = contactBook(db)
  return {
    setUp: workshop.setUp,
    demo: readSetting(db, 'demo') !== null,
    workshop: workshop.name,
    currency: workshop.currency,
    zone: workshop.zone,
    people: [...workshop.people.values()].map(({ id, roles, skills, active }) => ({
      id,
      name: nameOf(id),
      roles,
      skills,
      active,
    })),
    signedIn: sessions.person(asker.device.id),
    device: { id: asker.device.id, name: asker.device.name },
    isHostsOwn: asker.isHostsOwn,
    hasManagerCode: hasManagerCode(db),
    firstSteps: firstSteps(db, workshop),
    now: now(),
    revision: lastNumber(db),
    epoch: readEpoch(db),
    copiedTo: copiedTo(db),
    program: deps.program,
  }
}

/** Cars that rest were delivered, and no car is read where there are any. */
function firstSteps(db: ReadDatabase, workshop: WorkshopState): FirstStepsView | null {
  const hasDelivered = hasRestingCars(db)
  return firstStepsView({ workshop, hasDelivered, cars: hasDelivered ? [] : readCarsOfToday(db, null) })
}

function copiedTo(db: ReadDatabase): number | null {
  const number = readSetting(db, 'copiedTo')
  return number === null ? null : Number(number)
}

/** The workshop's settings, people and places; contacts for a signed-in manager. */
export function workshopView(services: ApiServices, asker: Asker): WorkshopView {
  const { db, now } = services.deps
  const workshop = readWorkshop(db)
  const { revision, name, zone, currency, week, holidays, settings, planning, fixtures } = workshop
  const { people, parties, bays, overtime } = workshop
  const book = contactBook(db)
  const isManager = isManagerHere(services, asker)
  const withName = <T extends { readonly id: PersonId | PartyId }>(each: T) => ({
    ...each,
    name: book.nameOf(each.id),
    contact: isManager ? book.contactOf(each.id) : null,
  })
  const isKnown = ({ id }: { readonly id: PersonId | PartyId }) => !workshop.erased.has(id)
  const clock = checkHostClock(db, now())
  return {
    revision,
    name,
    zone,
    currency,
    week,
    holidays,
    settings,
    planning,
    fixtures,
    overtime: [...overtime.values()],
    people: [...people.values()].filter(isKnown).map(withName),
    parties: [...parties.values()].filter(isKnown).map(withName),
    bays: [...bays.values()],
    clock: clock.kind === 'plausible' ? null : clock.words,
  }
}

/** The repair types, with their gates and layers. */
export function catalogueView({ deps }: ApiServices): CatalogueView {
  const { revision, types } = readWorkshop(deps.db)
  return { revision, types: [...types.values()] }
}
