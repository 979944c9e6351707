import { FACT_VERSION, type FactKind, isFactKind, type NewFact, type PayloadOf } from '../domain/facts.ts'

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
  if (version < 1 || version > FACT_VERSION)
    throw new Error(`The journal holds a fact '${kind}' of unknown version ${version}.`)
  const written: unknown = JSON.parse(json)
  const payload = version === 1 ? (fromVersion1[kind]?.(written) ?? written) : written
  return { kind, payload } as NewFact
}

/** Version 1 knew no money and no low and high hours of variations. */
const fromVersion1: { readonly [K in FactKind]?: (written: unknown) => PayloadOf<K> } = {
  estimateAccepted: (written) => ({
    ...(written as Omit<PayloadOf<'estimateAccepted'>, 'costIds'>),
    costIds: [],
  }),
  variationRaised: (written) => {
    const raised = written as Omit<PayloadOf<'variationRaised'>, 'costs'>
    return {
      ...raised,
      lines: raised.lines.map((line) => ({ ...line, low: line.hours, high: line.hours })),
      costs: [],
    }
  },
  variationDecided: (written) => ({
    ...(written as Omit<PayloadOf<'variationDecided'>, 'changed'>),
    changed: null,
  }),
}
