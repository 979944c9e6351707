import { z } from 'zod'
import { gateSchema } from '../gates.ts'
import {
  attachmentIdSchema,
  findingIdSchema,
  fitGroupIdSchema,
  holdIdSchema,
  jointIdSchema,
  layerIdSchema,
  liftIdSchema,
  partIdSchema,
  personIdSchema,
  readingIdSchema,
  repairIdSchema,
  taskIdSchema,
} from '../ids.ts'
import { photoMarksSchema } from '../photo-marks/photo-marks.ts'
import {
  dateSchema,
  decisionSchema,
  edgeReadingSchema,
  findingKindSchema,
  gateAsksSchema,
  gradeSchema,
  instantSchema,
  nameSchema,
  noteSchema,
  optionalNoteSchema,
  reasonSchema,
  reworkCauseSchema,
  sha256Schema,
} from './shapes.ts'

export const HOLD_CODES = [
  'order',
  'evidence',
  'uncover first',
  'closed in order',
  'fit together',
  'support',
  "owner's decision",
  'declined',
  'parts',
  'curing',
  'window',
  'conditions',
  'hot-work watch',
  'skill',
  'by hand',
  'task',
  'away',
] as const
const holdCodeSchema = z.enum(HOLD_CODES)

/** What a photo shows; evidence is counted by it. */
export const SHOWS = ['before', 'after', 'layer', 'work', 'prepared', 'as left'] as const
const photoServesSchema = z.discriminatedUnion('what', [
  z.strictObject({
    what: z.literal('gate'),
    repairId: repairIdSchema,
    gate: gateSchema,
    shows: z.enum(SHOWS),
    layerId: layerIdSchema.nullable(),
  }),
  z.strictObject({ what: z.literal('task'), taskId: taskIdSchema }),
  z.strictObject({ what: z.literal('car') }),
])
const servesSchema = z.array(photoServesSchema).min(1, 'Say what the photo shows.').max(200)

const who = {
  /** Those who did the work; the signer is the fact's own `by`. */
  did: z.array(personIdSchema).min(1, 'Name who did the work.').max(10),
}

/** A hold is named by its code and its subject (a part, a repair, a task ...), so that one release lifts one hold. */
const heldGate = {
  repairId: repairIdSchema,
  gate: gateSchema,
  code: holdCodeSchema,
  subject: z.string().max(80),
}

const holdScopeSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('car') }),
  z.strictObject({ kind: z.literal('repair'), repairId: repairIdSchema }),
  z.strictObject({ kind: z.literal('gate'), repairId: repairIdSchema, gate: gateSchema }),
  z.strictObject({ kind: z.literal('task'), taskId: taskIdSchema }),
])

const PART_STATES = ['needed', 'ordered', 'received', 'checked', 'rejected', 'fitted'] as const
const partStateSchema = z.enum(PART_STATES)
/** What a part may become next. */
export const PART_FOLLOWS: Readonly<Record<PartState, readonly PartState[]>> = {
  needed: ['ordered', 'received', 'checked'],
  ordered: ['received', 'needed', 'ordered'],
  received: ['checked', 'rejected'],
  checked: ['fitted', 'rejected'],
  rejected: ['ordered', 'needed'],
  fitted: ['rejected'],
}

export const workFacts = {
  gatePassed: z.strictObject({
    repairId: repairIdSchema,
    gate: gateSchema,
    ...who,
    second: personIdSchema.nullable(),
    /** What was asked when it was passed; a passed gate is never judged again. */
    asked: gateAsksSchema,
    evidence: z.strictObject({
      attachments: z.array(attachmentIdSchema).max(500),
      readings: z.array(readingIdSchema).max(500),
    }),
    released: z.array(holdCodeSchema).max(40),
    coat: z.enum(['protective', 'outer', 'temporary']).nullable(),
    note: optionalNoteSchema,
  }),
  gateNotNeeded: z.strictObject({ repairId: repairIdSchema, gate: gateSchema, reason: reasonSchema }),
  gateReopened: z.strictObject({
    repairId: repairIdSchema,
    gate: gateSchema,
    cause: reworkCauseSchema,
    reason: reasonSchema,
  }),
  holdReleased: z.strictObject({ ...heldGate, reason: reasonSchema, ownHold: z.boolean() }),
  releaseAsked: z.strictObject({ ...heldGate, reason: reasonSchema }),
  holdSet: z.strictObject({
    holdId: holdIdSchema,
    scope: holdScopeSchema,
    words: noteSchema,
    clears: nameSchema,
    expected: dateSchema.nullable(),
  }),
  holdCleared: z.strictObject({ holdId: holdIdSchema, note: optionalNoteSchema }),
  supportLifted: z.strictObject({
    liftId: liftIdSchema,
    repairIds: z.array(repairIdSchema).min(2, 'Name the repairs that may stand open together.').max(40),
    how: noteSchema,
  }),

  photoAttached: z.strictObject({
    attachmentId: attachmentIdSchema,
    sha256: sha256Schema,
    /** Camera date with its offset; null when the photo carries none. */
    taken: instantSchema.nullable(),
    caption: optionalNoteSchema,
    serves: servesSchema,
  }),
  captionSet: z.strictObject({ attachmentId: attachmentIdSchema, caption: optionalNoteSchema }),
  /** What a photo shows, put right; the last one counts. */
  photoShowsSet: z.strictObject({ attachmentId: attachmentIdSchema, serves: servesSchema }),
  /** All that is drawn on a photo, which itself stays as it is; the last one counts, and an empty one takes the marks off. */
  photoMarked: z.strictObject({ attachmentId: attachmentIdSchema, marks: photoMarksSchema }),
  /** The grade seen on the outermost layer before the repair is opened. */
  outsideGraded: z.strictObject({ repairId: repairIdSchema, grade: gradeSchema, note: optionalNoteSchema }),
  layerGraded: z.strictObject({
    repairId: repairIdSchema,
    layerId: layerIdSchema,
    grade: z.union([gradeSchema, z.literal('not seen')]),
    /** How a layer that was not seen was judged; required for 'not seen'. */
    judgedBy: optionalNoteSchema,
    remainingMm: z.number().min(0).max(12).nullable(),
    decision: decisionSchema,
  }),
  layersMarked: z.strictObject({
    repairId: repairIdSchema,
    layerIds: z.array(layerIdSchema).min(1).max(12),
    mark: z.enum(['repaired', 'coated', 'closed over']),
  }),
  findingAdded: z.strictObject({
    findingId: findingIdSchema,
    repairId: repairIdSchema,
    layerId: layerIdSchema.nullable(),
    kind: findingKindSchema,
    grade: gradeSchema,
    extent: noteSchema,
    needs: noteSchema,
    attachments: z.array(attachmentIdSchema).max(40),
  }),
  conditionsRead: z.strictObject({
    readingId: readingIdSchema,
    repairIds: z.array(repairIdSchema).min(1).max(60),
    gate: gateSchema,
    airC: z.number().min(-45).max(60),
    humidityPercent: z.number().gt(0).max(100),
    steelC: z.number().min(-45).max(80),
  }),
  drainsChecked: z.strictObject({
    readingId: readingIdSchema,
    repairIds: z.array(repairIdSchema).min(1).max(60),
    note: optionalNoteSchema,
  }),
  weldsCounted: z.strictObject({
    readingId: readingIdSchema,
    repairId: repairIdSchema,
    welds: z.array(z.strictObject({ jointId: jointIdSchema, done: z.number().min(0).max(100_000) })).max(40),
  }),
  /** dry: screws and clamps, at any time; full: every member stands open and primed; check: read again after welding. */
  fitUpRecorded: z.strictObject({
    readingId: readingIdSchema,
    groupId: fitGroupIdSchema,
    kind: z.enum(['dry', 'full', 'check']),
    readings: z.array(edgeReadingSchema).max(24),
    good: z.boolean(),
    note: optionalNoteSchema,
  }),
  surfacePrepared: z.strictObject({
    repairId: repairIdSchema,
    gate: gateSchema,
    attachmentId: attachmentIdSchema,
  }),
  partNeeded: z.strictObject({
    partId: partIdSchema,
    repairId: repairIdSchema,
    gate: gateSchema,
    name: nameSchema,
  }),
  partMoved: z.strictObject({
    partId: partIdSchema,
    state: partStateSchema,
    expected: dateSchema.nullable(),
    reason: optionalNoteSchema,
  }),
  taskSigned: z.strictObject({ taskId: taskIdSchema, ...who, note: optionalNoteSchema }),
  taskNotNeeded: z.strictObject({ taskId: taskIdSchema, reason: reasonSchema }),
  taskReopened: z.strictObject({ taskId: taskIdSchema, cause: reworkCauseSchema, reason: reasonSchema }),
  /** What never happened is voided, by its journal number; what was undone is reopened. */
  factVoided: z.strictObject({ number: z.int().min(1), reason: reasonSchema }),
}

export type HoldCode = z.infer<typeof holdCodeSchema>
export type HoldScope = z.infer<typeof holdScopeSchema>
export type PhotoServes = z.infer<typeof photoServesSchema>
export type PartState = z.infer<typeof partStateSchema>
