import { z } from 'zod'
import { agreementFacts } from '../facts/agreement-facts.ts'
import { moneyFacts } from '../facts/money-facts.ts'
import { factSchemas, isFactKind, type FactKind } from '../facts.ts'
import { CAR_FILE_PATHS, carFileLineSchema, carFilePhotoSchema, type CarFileLine } from './car-file-shapes.ts'

export interface CarFileSchema {
  /** Below `data/`. */
  readonly path: string
  /** JSON Schema, draft 2020-12. */
  readonly schema: object
}

/** The schemas of the lines of journal and photos themselves. */
export function lineSchemas(): readonly CarFileSchema[] {
  return [
    { path: CAR_FILE_PATHS.lineSchema, schema: toSchema('A line of journal.jsonl', carFileLineSchema) },
    {
      path: CAR_FILE_PATHS.schema('photo-line'),
      schema: toSchema('A line of photos.jsonl', carFilePhotoSchema),
    },
  ]
}

/**
 * The name of the schema that a line's payload follows, or its redacted part: the kind alone, but for the few that have
 * another shape. Null for a sealed line.
 */
export function payloadSchemaName({ shown, kind, version }: CarFileLine): string | null {
  if (shown === 'sealed' || !isFactKind(kind)) return null
  if (shown === 'part') return kind in REDACTED ? `${kind}.redacted` : kind
  const earlier = EARLIER[kind]
  return earlier !== undefined && version <= earlier.upTo ? `${kind}.version-${earlier.upTo}` : kind
}

/** @throws for a name that `payloadSchemaName` does not give */
export function payloadSchema(name: string): CarFileSchema {
  const schema = schemasByName.get(name)
  if (!schema) throw new Error(`There is no schema '${name}'.`)
  return { path: CAR_FILE_PATHS.schema(name), schema: toSchema(name, schema) }
}

function toSchema(title: string, schema: z.ZodType): object {
  const { $schema, ...rest } = z.toJSONSchema(schema, { target: 'draft-2020-12' })
  return { $schema, title, ...rest }
}

/** Money without its amount: what else is withheld can be left empty. */
const REDACTED: { readonly [K in FactKind]?: z.ZodType } = {
  costsSet: moneyFacts.costsSet.extend({
    costs: z.array(moneyFacts.costsSet.shape.costs.element.omit({ amount: true })).min(1),
  }),
  costSpent: moneyFacts.costSpent.omit({ amount: true }),
}

interface Earlier {
  /** The last version that had this shape. */
  readonly upTo: number
  readonly schema: z.ZodType
}

/** Shapes of payloads that earlier versions wrote otherwise; db/journal-converters.ts reads them as the newest. */
const EARLIER: { readonly [K in FactKind]?: Earlier } = {
  estimateAccepted: { upTo: 1, schema: agreementFacts.estimateAccepted.omit({ costIds: true }) },
  variationRaised: {
    upTo: 1,
    schema: agreementFacts.variationRaised.omit({ costs: true }).extend({
      lines: z.array(agreementFacts.variationDecided.shape.changed.unwrap().shape.lines.element).min(1),
    }),
  },
  variationDecided: { upTo: 1, schema: agreementFacts.variationDecided.omit({ changed: true }) },
  reportIssued: {
    upTo: 2,
    schema: agreementFacts.reportIssued.omit({
      page: true,
      crops: true,
      names: true,
      dates: true,
      language: true,
    }),
  },
}

const schemasByName: ReadonlyMap<string, z.ZodType> = new Map<string, z.ZodType>([
  ...Object.entries(factSchemas),
  ...Object.entries(REDACTED).map(([kind, schema]) => [`${kind}.redacted`, schema] as const),
  ...Object.entries(EARLIER).map(([kind, { upTo, schema }]) => [`${kind}.version-${upTo}`, schema] as const),
])
