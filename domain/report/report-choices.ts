import { z } from 'zod'
import { optionalNoteSchema } from '../facts/shapes.ts'
import { LANGUAGE_CODES } from '../language/language-codes.ts'
import { attachmentIdSchema, type AttachmentId } from '../ids.ts'

/** How a report says when the car is expected to be done. */
export const DATES_SHOWN = ['range', 'later date', 'none'] as const
export type DatesShown = (typeof DATES_SHOWN)[number]

/** The part of a photo that is shown, in shares of the upright picture. */
export const cropSchema = z
  .strictObject({
    left: z.number().min(0).max(0.95),
    top: z.number().min(0).max(0.95),
    width: z.number().min(0.05).max(1),
    height: z.number().min(0.05).max(1),
  })
  .refine(({ left, width }) => left + width <= 1.000001, { error: 'Keep the cut inside the photo.' })
  .refine(({ top, height }) => top + height <= 1.000001, { error: 'Keep the cut inside the photo.' })
export type Crop = Readonly<z.infer<typeof cropSchema>>

/** What the manager decides about one report; everything else is told from the facts. */
export const reportChoicesSchema = z.strictObject({
  /** The manager's own words; empty for none. */
  words: optionalNoteSchema,
  /** The manager's choice of photos; null leaves it to the report. */
  photos: z.array(attachmentIdSchema).max(60, 'Choose at most 60 photos.').readonly().nullable(),
  /** Photos of which only a part is shown. */
  crops: z
    .array(z.strictObject({ attachmentId: attachmentIdSchema, crop: cropSchema }).readonly())
    .max(60)
    .readonly(),
  /** True names the technicians who did the work. */
  names: z.boolean(),
  dates: z.enum(DATES_SHOWN),
  language: z.enum(LANGUAGE_CODES),
})
export type ReportChoices = Readonly<z.infer<typeof reportChoicesSchema>>

/** Whether two reports are chosen alike: the same words, photos in the same order, cuts, names, dates and language. */
export function isSameChoices(a: ReportChoices, b: ReportChoices): boolean {
  return (
    a.words === b.words &&
    a.names === b.names &&
    a.dates === b.dates &&
    a.language === b.language &&
    isSameList(a.photos, b.photos) &&
    isSameList(a.crops.map(cropKey), b.crops.map(cropKey))
  )
}

const isSameList = (a: readonly string[] | null, b: readonly string[] | null): boolean =>
  a === null || b === null ? a === b : a.length === b.length && a.every((each, index) => each === b[index])

const cropKey = ({ attachmentId, crop: { left, top, width, height } }: ReportChoices['crops'][number]) =>
  [attachmentId, left, top, width, height].join(' ')

export function cropOf(choices: Pick<ReportChoices, 'crops'>, attachmentId: AttachmentId): Crop | null {
  return choices.crops.find((each) => each.attachmentId === attachmentId)?.crop ?? null
}
