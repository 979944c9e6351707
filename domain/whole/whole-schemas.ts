import { z } from 'zod'
import { factSchemas } from '../facts.ts'
import { wholeShapes } from './whole-shapes.ts'

/**
 * JSON Schemas (draft 2020-12) by name: one for the lines of each file, and 'facts' with the payload of each kind of fact
 * under its name in `$defs`.
 */
export function wholeSchemas(): ReadonlyMap<string, unknown> {
  const parts = Object.entries(wholeShapes).map(([part, shape]) => [part, toSchema(shape)] as const)
  const facts = Object.entries(factSchemas).map(([kind, shape]) => [kind, toSchema(shape)] as const)
  return new Map<string, unknown>([...parts, ['facts', { $schema: DRAFT, $defs: Object.fromEntries(facts) }]])
}

const DRAFT = 'https://json-schema.org/draft/2020-12/schema'

/** Of what is written; checks that a schema cannot say are left out. */
const toSchema = (shape: z.ZodType): unknown => z.toJSONSchema(shape, { io: 'input', unrepresentable: 'any' })
