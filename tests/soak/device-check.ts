import canonicalize from 'canonicalize'
import { checkDatabase } from '../../db/check.ts'
import { photosFolder } from '../../db/data-paths.ts'
import { factsSince } from '../../db/journal.ts'
import { openDatabase } from '../../db/open-database.ts'
import { openPhotoReader } from '../../db/photos/photo-store.ts'
import type { Fact } from '../../domain/facts.ts'
import type { DeviceNet } from './device-net.ts'
import { askFor, type DeviceClient } from './device-page.ts'
import type { Ledger } from './device-work.ts'
import type { Floor } from './device-floor.ts'
import { sha256Of } from './kill-book.ts'

export interface Journal {
  readonly facts: readonly Fact[]
  readonly findings: readonly string[]
}

/** Reads and checks the folder beside the running host. */
export async function readJournal(dataDir: string): Promise<Journal> {
  const db = openDatabase(dataDir, { readonly: true })
  try {
    const findings = await checkDatabase(db, openPhotoReader(photosFolder(dataDir)))
    const faults = findings.filter(({ severity }) => severity === 'fault')
    return { facts: factsSince(db, 0), findings: faults.map(({ what }) => what) }
  } finally {
    db.close()
  }
}

export function readFacts(dataDir: string): readonly Fact[] {
  const db = openDatabase(dataDir, { readonly: true })
  try {
    return factsSince(db, 0)
  } finally {
    db.close()
  }
}

/** Facts that stand there twice: by the command that left them, by the photo and by its bytes. */
export function doubles(facts: readonly Fact[]): readonly string[] {
  const attached = facts.filter((fact) => fact.kind === 'photoAttached')
  return [
    ...repeated(facts.map(({ commandId, kind, payload }) => `${commandId} ${kind} ${subjectOf(payload)}`)),
    ...repeated(attached.map(({ payload }) => payload.attachmentId)),
    ...repeated(attached.map(({ payload }) => payload.sha256)),
  ].map((what) => `${what} is there twice`)
}

/** One command of this run leaves one fact of a kind; those that set the workshop up leave one for each person or party. */
const subjectOf = (payload: unknown): string => canonicalize(payload) ?? ''

function repeated(names: readonly string[]): readonly string[] {
  return [...Map.groupBy(names, (name) => name)].filter(([, all]) => all.length > 1).map(([name]) => name)
}

/**
 * Holds what was entered on one device against the journal.
 *
 * @param refusedThere what the device says of the commands that it still shows as refused, by their ids
 * @returns what is not as it must be
 */
export function ledgerProblems(
  { commands, photos }: Ledger,
  facts: readonly Fact[],
  refusedThere: ReadonlyMap<string, string>,
): readonly string[] {
  const numbers = new Map(
    [...Map.groupBy(facts, ({ commandId }) => commandId)].map(([id, left]) => [
      id as string,
      left.map(({ number }) => number).join(),
    ]),
  )
  const attached = new Map(
    facts.flatMap((fact) => (fact.kind === 'photoAttached' ? [[fact.payload.sha256, fact] as const] : [])),
  )
  const problems: string[] = []
  for (const [id, { kind, told }] of commands) {
    const there = numbers.get(id)
    const name = `${kind} ${id}`
    if (there !== undefined && there.includes(',')) problems.push(`${name} left ${there}`)
    if (told.is === 'done' && there === undefined) problems.push(`${name} was acknowledged and is lost`)
    if (told.is === 'done' && told.numbers.length > 0 && there !== undefined && there !== told.numbers.join())
      problems.push(`${name} was acknowledged as ${told.numbers.join()} and is ${there}`)
    if (told.is === 'kept' && there === undefined && !refusedThere.has(id))
      problems.push(`${name} was kept and is neither in the journal nor on the device`)
    const isRefused = told.is === 'refused' || refusedThere.has(id)
    if (isRefused && there !== undefined) problems.push(`${name} was refused and is recorded`)
    if (isRefused && kind !== 'passGate')
      problems.push(
        `${name} was refused: ${told.is === 'refused' ? told.refusal.message : `later, ${refusedThere.get(id)}`}`,
      )
  }
  for (const [sha256, { attachmentId, commandId, isKept }] of photos) {
    const fact = attached.get(sha256)
    if (fact === undefined && isKept) problems.push(`the photo ${attachmentId} is lost`)
    if (fact !== undefined && (fact.commandId !== commandId || fact.payload.attachmentId !== attachmentId))
      problems.push(`the photo ${attachmentId} is there as ${fact.payload.attachmentId}`)
  }
  return problems
}

/** The SHA-256 of each view as this device is answered, by its name. */
export async function viewHashes(net: DeviceNet, floor: Floor): Promise<ReadonlyMap<string, string>> {
  const hashes = new Map<string, string>()
  for (const [name, ask] of viewsOf(floor)) {
    const canonical = canonicalize(withoutNow(await askFor(net, ask))) ?? ''
    hashes.set(name, sha256Of(Buffer.from(canonical)))
  }
  return hashes
}

/** Some views say at which moment they were asked for. */
function withoutNow(view: unknown): unknown {
  return typeof view === 'object' && view !== null && 'now' in view ? { ...view, now: null } : view
}

function viewsOf({ carIds, workers, shared }: Floor): readonly View[] {
  return [
    ['shopFloor', (client) => client.shopFloor.query()],
    ['cars', (client) => client.cars.query()],
    ...carIds.map((carId): View => [`car ${carId}`, (client) => client.car.query({ carId })]),
    ...carIds.map((carId): View => [`record ${carId}`, (client) => client.record.query({ carId })]),
    ...[...shared, ...workers.flatMap(({ own }) => own)].map((repair): View => [
      `repair ${repair.repairId}`,
      (client) => client.repair.query(repair),
    ]),
    ...workers.map(({ personId }): View => [
      `daySheet ${personId}`,
      (client) => client.daySheet.query({ personId }),
    ]),
  ]
}

type View = readonly [name: string, ask: (client: DeviceClient) => Promise<unknown>]
