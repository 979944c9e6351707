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
  const payload = steps.slice(version - 1).reduce((shape, step) => step[kind]?.(shape) ?? shape, written)
  return { kind, payload } as NewFact
}

type Step = { readonly [K in FactKind]?: (written: unknown) => unknown }

/** Version 1 knew no money and no low and high hours of variations. */
const fromVersion1: Step = {
  estimateAccepted: (written) => ({ ...(written as object), costIds: [] }),
  variationRaised: (written) => {
    const raised = written as { readonly lines: readonly { readonly hours: number }[] }
    return {
      ...raised,
      lines: raised.lines.map((line) => ({ ...line, low: line.hours, high: line.hours })),
      costs: [],
    }
  },
  variationDecided: (written) => ({ ...(written as object), changed: null }),
}

/** Version 2 issued reports without a page, showed whole photos, named nobody and wrote English. */
const fromVersion2: Step = {
  reportIssued: (written) =>
    ({
      ...(written as Omit<PayloadOf<'reportIssued'>, 'page' | 'crops' | 'names' | 'dates' | 'language'>),
      page: null,
      crops: [],
      names: false,
      dates: 'range',
      language: 'en',
    }) satisfies PayloadOf<'reportIssued'>,
}

/** Each from its version to the next; a payload of the newest takes none. */
const steps: readonly Step[] = [fromVersion1, fromVersion2]
