import type { Attachment, CarState, Moment } from '../car.ts'
import type { PartyId } from '../ids.ts'
import { FACT_VERSION } from '../facts.ts'
import { GATES } from '../gates.ts'
import { instantToIso } from '../time/zone.ts'
import type { WorkshopState } from '../workshop.ts'
import {
  CAR_FILE_FORMAT,
  CAR_FILE_PATHS,
  CAR_FILE_VERSION,
  type CarFilePeople,
  type CarFilePhoto,
  type CarFileWorkshop,
} from './car-file-shapes.ts'
import type { FileChoices } from './file-choices.ts'

/** 'car-S-101': what the file of a car is called; no sign of it means anything to a file system. */
export function carFileName({ shellNumber }: Pick<CarState, 'shellNumber'>): string {
  return `car-${shellNumber.replaceAll('/', '-').replace(/\.+$/, '')}`
}

export interface CarFileAbout {
  readonly car: CarState
  readonly workshop: WorkshopState
  readonly choices: FileChoices
  readonly head: CarFileWorkshop['head']
  readonly now: Moment
}

export function carFileWorkshop({ car, workshop, choices, head, now }: CarFileAbout): CarFileWorkshop {
  const { name, zone, currency, bays } = workshop
  const { id: carId, shellNumber, body, year } = car
  return {
    format: CAR_FILE_FORMAT,
    version: CAR_FILE_VERSION,
    factVersion: FACT_VERSION,
    workshop: { name, zone, currency },
    car: { carId, shellNumber, name: car.name, body, year },
    written: instantToIso(now, zone),
    head,
    choices,
    gates: [...GATES],
    bays: [...bays.values()].map((bay) => ({ id: bay.id, name: bay.name })),
  }
}

/** What of a stored photo its line says beside the attachment. */
export type PhotoFacts = Pick<
  CarFilePhoto,
  'bytes' | 'width' | 'height' | 'cameraLocal' | 'cameraOffset' | 'received'
> & { readonly type: 'jpeg' | 'png' | 'webp' | 'heic' }

export function carFilePhoto(
  { id, sha256, taken, caption }: Pick<Attachment, 'id' | 'sha256' | 'taken' | 'caption'>,
  { type, ...photo }: PhotoFacts,
  zone: string,
): CarFilePhoto {
  return {
    attachmentId: id,
    sha256,
    file: CAR_FILE_PATHS.photo(sha256, type === 'jpeg' ? 'jpg' : type),
    ...photo,
    type: `image/${type}`,
    taken: taken === null ? null : instantToIso(taken, zone),
    caption,
  }
}

interface ContactDetails {
  readonly name: string
  readonly phone: string
  readonly email: string
  readonly address: string
}

/** All who may be named: the people of the workshop, and those of others that a car came from. */
interface Known extends Pick<WorkshopState, 'parties'> {
  readonly people: { readonly keys: () => Iterable<string> }
}

/**
 * The names behind ids: of people and firms always, of owners and insurers only where contacts may leave.
 *
 * @param ids those that stand in what leaves
 */
export function carFilePeople(
  ids: ReadonlySet<string>,
  { people, parties }: Known,
  contactOf: (id: string) => ContactDetails | null,
  choices: FileChoices,
): CarFilePeople {
  const named = [...people.keys()].filter((id) => ids.has(id))
  return {
    people: named.map((id) => ({ id, name: contactOf(id)?.name ?? '' })),
    parties: [...parties.values()]
      .filter(({ id, kind }) => ids.has(id) && (kind === 'firm' || choices.contacts))
      .map(({ id, kind }) => ({ id, kind, ...detailsOf(id, kind === 'firm', contactOf) })),
  }
}

function detailsOf(
  id: PartyId,
  nameOnly: boolean,
  contactOf: (id: string) => ContactDetails | null,
): Pick<CarFilePeople['parties'][number], 'name' | 'contact'> {
  const { name, ...contact } = contactOf(id) ?? { name: '', phone: '', email: '', address: '' }
  return { name, contact: nameOnly ? null : contact }
}

/** The reports to the owner hold their name, prices and hours alike. */
export function mayHoldReports({ contacts, prices, hours }: FileChoices): boolean {
  return contacts && prices && hours
}
