import { FACT_VERSION, isFactKind, type NewFact } from '../domain/facts.ts'

/** A payload as it was written, with the version and kind that its line names. */
export interface WrittenPayload {
  readonly kind: string
  readonly version: number
  readonly json: string
}

/**
 * Reads a payload of any version as one of the newest. Payloads are never migrated: when a shape changes, its version is
 * raised and a step from the version before is added here; the journals of earlier versions in tests/ must still be
 * read. The shape is not parsed again: it was when it was written, and `check` does so with its digest.
 *
 * @throws for a kind or version that this program does not know
 */
export function readPayload({ kind, version, json }: WrittenPayload): NewFact {
  if (!isFactKind(kind)) throw new Error(`The journal holds a fact of unknown kind '${kind}'.`)
  if (version !== FACT_VERSION)
    throw new Error(`The journal holds a fact '${kind}' of unknown version ${version}.`)
  return { kind, payload: JSON.parse(json) } as NewFact
}
