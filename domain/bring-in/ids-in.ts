import type { Fact } from '../facts.ts'
import type { AttachmentId, PartyId, PersonId, VisitId } from '../ids.ts'

export type PartyKind = 'owner' | 'insurer' | 'firm'

/** Ids in a car's facts that must be nobody else's in the workshop that takes them over. */
export interface IdsIn {
  /** Those who signed, worked and were named. */
  readonly people: ReadonlySet<PersonId>
  readonly parties: ReadonlyMap<PartyId, PartyKind>
  readonly visits: ReadonlySet<VisitId>
  readonly attachments: ReadonlySet<AttachmentId>
}

/** Taken from the facts alone, voided ones too: their ids stand in the journal all the same. */
export function idsIn(facts: readonly Fact[]): IdsIn {
  const people = new Set<PersonId>()
  const parties = new Map<PartyId, PartyKind>()
  const visits = new Set<VisitId>()
  const attachments = new Set<AttachmentId>()
  for (const { by, kind, payload } of facts) {
    if (by !== null) people.add(by)
    if ('did' in payload) for (const id of payload.did) people.add(id)
    if ('second' in payload && payload.second !== null) people.add(payload.second)
    if ('personId' in payload) people.add(payload.personId)
    if (kind === 'visitOpened') {
      visits.add(payload.visitId)
      parties.set(payload.ownerId, 'owner')
      if (payload.insurerId !== null) parties.set(payload.insurerId, 'insurer')
    }
    if (kind === 'visitChanged' && payload.insurerId) parties.set(payload.insurerId, 'insurer')
    if (kind === 'shellSentAway') parties.set(payload.firmId, 'firm')
    if (kind === 'photoAttached') attachments.add(payload.attachmentId)
  }
  return { people, parties, visits, attachments }
}

/** The same value with other ids in the places of those that are taken, wherever they stand in it. */
export function replaceIds<T>(value: T, ids: ReadonlyMap<string, string>): T {
  if (ids.size === 0) return value
  if (typeof value === 'string') return (ids.get(value) ?? value) as T
  if (Array.isArray(value)) return value.map((each: unknown) => replaceIds(each, ids)) as T
  if (typeof value !== 'object' || value === null) return value
  return Object.fromEntries(
    Object.entries(value).map(([key, each]: [string, unknown]) => [key, replaceIds(each, ids)]),
  ) as T
}
