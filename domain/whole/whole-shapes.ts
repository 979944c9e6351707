import { z } from 'zod'
import { sha256Schema } from '../facts/shapes.ts'
import {
  carIdSchema,
  commandIdSchema,
  deviceIdSchema,
  personIdSchema,
  planIdSchema,
  visitIdSchema,
} from '../ids.ts'
import { planSchema } from '../plan/plan.ts'

/*
 * The whole workshop as it leaves in open formats: one JSON object a line, one file for each kind of record. What can be
 * worked out from the journal is left out. So are codes, paired devices and who is signed in: they belong to one computer.
 */

/** The version of these shapes, that a bag names; raised when a reader of the one before could not take it in. */
export const WHOLE_VERSION = 1

const count = z.int().min(0)
/** ISO 8601 with offset or Z; text, so that not a character of what a hash covers is lost. */
const time = z.string().max(40)

/**
 * One line of the journal, whole. `digest` is the SHA-256 of the salt's bytes and the payload in the canonical form of
 * RFC 8785; `hash` that of the canonical form of all the rest, but for `hash`, `salt` and `payload`.
 */
const wholeLineSchema = z.strictObject({
  number: z.int().min(1),
  chain: z.union([z.literal('the workshop'), carIdSchema]),
  chainNumber: z.int().min(1),
  kind: z.string().max(60),
  version: z.int().min(1),
  visitId: visitIdSchema.nullable(),
  by: personIdSchema.nullable(),
  device: deviceIdSchema.nullable(),
  commandId: commandIdSchema,
  happened: time,
  made: time,
  recorded: time,
  digest: sha256Schema,
  prev: sha256Schema,
  hash: sha256Schema,
  /** Hexadecimal. */
  salt: z.string().regex(/^([0-9a-f]{2}){16}$/),
  payload: z.record(z.string(), z.unknown()),
})

/** What was answered to a command, so that the same command again changes nothing. `digest` is keyed and tells nothing. */
const wholeAnswerSchema = z.strictObject({
  commandId: commandIdSchema,
  digest: sha256Schema,
  revision: count,
  numbers: z.array(z.int().min(1)),
  carId: carIdSchema.nullable(),
})

const wholeContactSchema = z.strictObject({
  /** Of a person or a party. */
  id: z.string().min(1).max(80),
  name: z.string(),
  phone: z.string(),
  email: z.string(),
  address: z.string(),
})

/** A plan that was kept, in the order of keeping. Times are epoch milliseconds; `sha256` is of the plan's canonical form. */
const wholePlanSchema = z.strictObject({
  planId: planIdSchema,
  madeAt: z.int(),
  keptAt: z.int(),
  why: z.enum(['proposal', 'taken', 'day end', 'moved']),
  cause: z.string(),
  sha256: sha256Schema,
  revision: count,
  plan: planSchema,
})

/** A photo whose file lies in `photos`, with what its camera's clock showed. */
const wholePhotoSchema = z.strictObject({
  sha256: sha256Schema,
  bytes: z.int().min(1),
  width: z.int().min(1),
  height: z.int().min(1),
  type: z.enum(['jpeg', 'png', 'webp', 'heic']),
  cameraLocal: z.string().max(40).nullable(),
  cameraOffset: z.string().max(10).nullable(),
  received: time,
})

/** What the manager has chosen for a report that is not issued yet. */
const wholeDraftSchema = z.strictObject({
  visitId: visitIdSchema,
  week: z.string().max(10),
  /** As ReportChoices had it when it was chosen. */
  choices: z.record(z.string(), z.unknown()),
})

/** When a report that is not issued yet was prepared, epoch milliseconds, and what was wrong with it. */
const wholePreparedSchema = z.strictObject({
  visitId: visitIdSchema,
  week: z.string().max(10),
  preparedAt: z.int(),
  problems: z.array(z.string()),
})

/** Settings that no workshop brings along: a computer is opened to its network there and nowhere else. */
export const OF_THE_COMPUTER: readonly string[] = [
  'copiedTo',
  'copies',
  'copyRecord',
  'epoch',
  'lastCheck',
  'network',
  'ownWindow',
  'updates',
  'restored',
]

const wholeSettingSchema = z.strictObject({
  name: z
    .string()
    .max(60)
    .refine((name) => !OF_THE_COMPUTER.includes(name)),
  value: z.string(),
})

/** Every file of records by its name without the ending, in the order in which they are taken in. */
export const wholeShapes = {
  journal: wholeLineSchema,
  answers: wholeAnswerSchema,
  contacts: wholeContactSchema,
  plans: wholePlanSchema,
  photos: wholePhotoSchema,
  drafts: wholeDraftSchema,
  prepared: wholePreparedSchema,
  settings: wholeSettingSchema,
} as const

export type WholePart = keyof typeof wholeShapes
export type WholeRecord<P extends WholePart> = z.infer<(typeof wholeShapes)[P]>

export const WHOLE_PARTS = Object.keys(wholeShapes) as readonly WholePart[]

/** Paths in a bag, below `data/`. */
export const WHOLE_PATHS = {
  readme: 'README.txt',
  part: (part: WholePart) => `${part}.jsonl`,
  schema: (name: string) => `schema/${name}.schema.json`,
  photo: ({ sha256, type }: Pick<WholeRecord<'photos'>, 'sha256' | 'type'>) =>
    `photos/${sha256}.${type === 'jpeg' ? 'jpg' : type}`,
  /** The journal of another workshop that a car came with. */
  broughtIn: (sha256: string) => `brought-in/${sha256}.jsonl`,
  /** An issued report, and the page beside it. */
  report: (sha256: string, kind: 'pdf' | 'html') => `reports/${sha256}.${kind}`,
} as const

/** Labels of `bag-info.txt` that say what a bag is. */
export const WHOLE_LABELS = {
  format: 'Panelwright-Format',
  version: 'Panelwright-Format-Version',
  factVersion: 'Panelwright-Fact-Version',
} as const
export const WHOLE_FORMAT = 'the whole workshop'
