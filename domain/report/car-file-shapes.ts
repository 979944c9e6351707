import { z } from 'zod'
import { GATES } from '../gates.ts'
import { attachmentIdSchema, carIdSchema, partyIdSchema } from '../ids.ts'
import { instantSchema, sha256Schema } from '../facts/shapes.ts'
import { isTimeZone } from '../time/zone.ts'
import { fileChoicesSchema } from './file-choices.ts'

/*
 * What lies under `data/` in the bag of a car's file, for those who write and read it. The shapes are lenient where a
 * reader of later years gains by it: ids and kinds are plain text.
 */

/** Raised when a file of this version could be misread by a program that knows only the ones before. */
export const CAR_FILE_VERSION = 1
export const CAR_FILE_FORMAT = 'panelwright car file'

/** Paths below `data/`. */
export const CAR_FILE_PATHS = {
  readme: 'README.txt',
  journal: 'journal.jsonl',
  people: 'people.json',
  photos: 'photos.jsonl',
  workshop: 'workshop.json',
  book: 'book.pdf',
  lineSchema: 'schema/journal-line.schema.json',
  /** The record of another workshop that the car was at before, by the hash of its last line. */
  earlier: (head: string) => `earlier/${head}.jsonl`,
  photo: (sha256: string, extension: string) => `photos/${sha256}.${extension}`,
  report: (sha256: string, extension: 'pdf' | 'html') => `reports/${sha256}.${extension}`,
  schema: (name: string) => `schema/${name}.schema.json`,
} as const

const id = z.string().min(1).max(80)
const place = {
  /** The workshop's own number of the line, over all of its cars. */
  number: z.int().min(1),
  /** The car's id. */
  chain: carIdSchema,
  /** From 1 without gaps. */
  chainNumber: z.int().min(1),
  kind: z.string().min(1).max(80),
  version: z.int().min(1),
}
const proof = { digest: sha256Schema, prev: sha256Schema, hash: sha256Schema }
const envelope = {
  ...place,
  visitId: id.nullable(),
  /** Who recorded it. */
  by: id.nullable(),
  device: id.nullable(),
  commandId: id,
  /** As stated, by the device, by the workshop's computer: ISO 8601 with offset. */
  happened: instantSchema,
  made: instantSchema,
  recorded: instantSchema,
  ...proof,
}
const payloadSchema = z.record(z.string(), z.unknown())
/** Why something is left out: what would have had to be ticked. */
const withheld = z.array(fileChoicesSchema.keyof()).min(1)

/**
 * A line of `journal.jsonl`:
 * - whole: `digest` is SHA-256 of the salt's bytes and the payload's canonical JSON (RFC 8785) in UTF-8, and `hash` is SHA-256
 *   of the canonical JSON of everything but shown, hash, payload and salt;
 * - part: the payload without what is withheld, always in the newest version of its kind; `hash` can be reckoned, `digest` not,
 *   as the salt stays in the workshop;
 * - sealed: who, when and what are withheld; only its place in the chain can be verified.
 */
export const carFileLineSchema = z.discriminatedUnion('shown', [
  z.strictObject({
    shown: z.literal('whole'),
    ...envelope,
    payload: payloadSchema,
    /** 16 bytes in hexadecimal. */
    salt: z.string().regex(/^[0-9a-f]{32}$/),
  }),
  z.strictObject({ shown: z.literal('part'), ...envelope, withheld, redacted: payloadSchema }),
  z.strictObject({ shown: z.literal('sealed'), ...place, ...proof, withheld }),
])
export type CarFileLine = z.infer<typeof carFileLineSchema>

/** A line of `photos.jsonl`: an attachment that stands, with the photo that it shows. */
export const carFilePhotoSchema = z.strictObject({
  attachmentId: attachmentIdSchema,
  sha256: sha256Schema,
  /** The original, below `data/`. */
  file: z.string().min(1).max(200),
  bytes: z.int().min(1),
  /** Media type, like 'image/jpeg'. */
  type: z.string().min(1).max(40),
  /** Pixels of the upright picture. */
  width: z.int().min(1),
  height: z.int().min(1),
  /** 'YYYY-MM-DDTHH:MM:SS' and '+HH:MM' as the camera's clock showed them; null where it did not say. */
  cameraLocal: z.string().max(40).nullable(),
  cameraOffset: z.string().max(10).nullable(),
  received: instantSchema,
  /** When it was taken, as the workshop settled it. */
  taken: instantSchema.nullable(),
  caption: z.string(),
})
export type CarFilePhoto = z.infer<typeof carFilePhotoSchema>

/** `people.json`: everybody whose id stands in a line that is shown. */
export const carFilePeopleSchema = z.strictObject({
  people: z.array(z.strictObject({ id, name: z.string() })),
  /** Firms by name; owners and insurers only where contacts were ticked, and then with everything. */
  parties: z.array(
    z.strictObject({
      id: partyIdSchema,
      kind: z.enum(['owner', 'insurer', 'firm']),
      name: z.string(),
      /** Null for a firm, and where only the name leaves. */
      contact: z.strictObject({ phone: z.string(), email: z.string(), address: z.string() }).nullable(),
    }),
  ),
})
export type CarFilePeople = z.infer<typeof carFilePeopleSchema>

/** `workshop.json`: what is needed to read the rest. */
export const carFileWorkshopSchema = z.strictObject({
  format: z.literal(CAR_FILE_FORMAT),
  version: z.literal(CAR_FILE_VERSION),
  /** The newest version of facts; partly shown lines follow it. */
  factVersion: z.int().min(1),
  workshop: z.strictObject({
    name: z.string(),
    /** IANA time zone of its days. */
    zone: z.string().refine(isTimeZone),
    /** ISO 4217; amounts are in its minor unit. */
    currency: z.string(),
  }),
  car: z.strictObject({
    carId: carIdSchema,
    shellNumber: z.string(),
    name: z.string(),
    body: z.string(),
    year: z.int().nullable(),
  }),
  written: instantSchema,
  /** The end of the chain when the file was written. */
  head: z.strictObject({ chainNumber: z.int().min(1), hash: sha256Schema }),
  choices: fileChoicesSchema,
  /** In their order. */
  gates: z.array(z.enum(GATES)),
  bays: z.array(z.strictObject({ id, name: z.string() })),
})
export type CarFileWorkshop = z.infer<typeof carFileWorkshopSchema>
