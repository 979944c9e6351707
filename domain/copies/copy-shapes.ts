import { z } from 'zod'
import { sha256Schema } from '../facts/shapes.ts'

/*
 * What a copy says of itself, in its `copy.json`. The files of all copies of a workshop lie together, each once; a copy
 * names those that belong to it and holds the database as it stood.
 */

/** The version of these shapes; raised when the program before could not read them. */
export const COPY_VERSION = 1
export const COPY_FORMAT = 'a copy of a Panelwright workshop'

const count = z.int().min(0)
const hex = (bytes: number) => z.string().regex(new RegExp(`^([0-9a-f]{2}){${bytes}}$`))

/** What is in a copy. In a sealed copy it is sealed, too. */
export const copyContentSchema = z.strictObject({
  /** Of the program that made it. */
  program: z.string().max(40),
  /** Version of the database. */
  schema: z.int().min(1),
  workshop: z.string(),
  /** Hash of the last line of each chain at the copy's number, by car id or 'the workshop'. */
  heads: z.record(z.string(), sha256Schema),
  cars: count,
  photos: count,
  /** Files of issued reports, and journals that came with cars. */
  otherFiles: count,
  /** Of the database, before it is sealed. */
  database: z.strictObject({ bytes: count, sha256: sha256Schema }),
  /** Of the list of the names of its files. */
  list: sha256Schema,
  /** What its records name and could not be had any more, in words; none in a whole copy. */
  lost: z.array(z.string()),
})

/** How the key of a sealed copy is made from its passphrase; `check` tells a wrong one without telling the right one. */
const sealingSchema = z.strictObject({
  scrypt: z.strictObject({
    N: z
      .int()
      .min(2 ** 14)
      .max(2 ** 20),
    r: z.int().min(1).max(16),
    p: z.int().min(1).max(4),
  }),
  salt: hex(16),
  check: hex(32),
})

/** The key as a computer keeps it, so that copies are sealed without asking for the passphrase. */
export const copyKeySchema = z.strictObject({ key: hex(32), sealing: sealingSchema })

/** The whole `copy.json`: what may be told without a passphrase, and the content where there is none. */
export const copySchema = z.strictObject({
  format: z.literal(COPY_FORMAT),
  version: z.literal(COPY_VERSION),
  /** ISO 8601, UTC. */
  made: z.iso.datetime(),
  /** Number of the last journal line in it. */
  number: z.int().min(1),
  /** Of all that belongs to it, as the workshop holds it. */
  bytes: count,
  isWhole: z.boolean(),
  sealing: sealingSchema.nullable(),
  /** Null in a sealed copy, whose content lies beside it. */
  content: copyContentSchema.nullable(),
})

export const ERASURES_FORMAT = 'contacts that were erased from a Panelwright workshop'

/**
 * The list that lies beside the copies of a workshop, sealed ones too: who was erased since, by ids that mean nothing without
 * the workshop, so that a copy from before is restored without them.
 */
export const erasuresSchema = z.strictObject({
  format: z.literal(ERASURES_FORMAT),
  erased: z.array(z.strictObject({ id: z.string().max(100), at: z.iso.datetime() })),
})

export type CopyContent = z.infer<typeof copyContentSchema>
export type CopyHead = z.infer<typeof copySchema>
export type Sealing = z.infer<typeof sealingSchema>

/** A copy as lists show it. */
export interface ListedCopy {
  /** Its name in the folder: 'YYYY-MM-DDTHH-MM-SSZ', when it was made, UTC. */
  readonly stamp: string
  /** Epoch milliseconds. */
  readonly made: number
  readonly number: number
  readonly bytes: number
  /** False where something that its records name could not be had any more. */
  readonly isWhole: boolean
  readonly isSealed: boolean
  /** Null in a sealed one. */
  readonly content: Pick<CopyContent, 'workshop' | 'cars' | 'photos' | 'otherFiles' | 'lost'> | null
}
